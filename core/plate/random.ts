/**
 * Evenly spread numbers in [0, 1) from a seed: the same on every machine, as only 32-bit whole numbers are reckoned
 * with. Source: G. Marsaglia, "Xorshift RNGs", 2003 (triple 13, 17, 5); the seed is spread by a multiplication first.
 */
export function randomFrom(seed: number): () => number {
  let state = Math.imul(seed ^ 0x9e3779b9, 0x85ebca6b) | 0 || 1;
  const next = (): number => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 4294967296;
  };
  for (let i = 0; i < 8; i++) next();
  return next;
}
