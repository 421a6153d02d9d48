/** Which triangles of a welded mesh meet at which edges. */

export interface Meetings {
  /** The opposite half-edge, named by its corner, of each; −1 where there is none. */
  readonly across: Int32Array;
  readonly edges: number;
  /** Vertices in use. */
  readonly vertices: number;
}

/** Pairs each directed edge with its opposite. @param t corners of triangles, three and three */
export function meetTriangles(t: Uint32Array): Meetings {
  const size = t.reduce((most, v) => Math.max(most, v), 0) + 1;
  const across = new Int32Array(t.length).fill(-1);
  const waiting = new Map<number, number>();
  const used = new Uint8Array(size);
  for (let half = 0; half < t.length; half++) {
    const [from, to] = [t[half]!, t[half % 3 === 2 ? half - 2 : half + 1]!];
    used[from] = 1;
    const opposite = waiting.get(to * size + from);
    if (opposite === undefined) waiting.set(from * size + to, half);
    else {
      waiting.delete(to * size + from);
      across[half] = opposite;
      across[opposite] = half;
    }
  }
  const paired = across.reduce((n, other) => n + (other >= 0 ? 1 : 0), 0);
  return { across, edges: t.length - paired / 2, vertices: used.reduce((n, u) => n + u, 0) };
}
