/** Time that begins to run now, and whether it is up. */
export function startTimer(seconds: number): () => boolean {
  const end = performance.now() + 1000 * seconds;
  return () => performance.now() >= end;
}
