import { SolidError } from '../../solid/errors.js';

/** How the triangles of a closed mesh hang together; a half-edge is named by the corner it begins at. */
export interface Halves {
  readonly vertices: number;
  /** Three vertices a triangle. */
  readonly t: Uint32Array;
  /** The half-edge running the other way. */
  readonly opposite: Uint32Array;
  /** One half-edge that begins at each vertex; −1 for a vertex that no triangle names. */
  readonly first: Int32Array;
}

export const nextHalf = (h: number): number => (h % 3 === 2 ? h - 2 : h + 1);
export const previousHalf = (h: number): number => (h % 3 === 0 ? h + 2 : h - 1);

/** @throws SolidError `bad-mesh` unless every edge has two triangles, one in each direction, and no vertex is a pinch */
export function linkHalves(t: Uint32Array, vertices: number): Halves {
  const start = new Uint32Array(vertices + 1);
  for (const v of t) start[v + 1]!++;
  for (let v = 0; v < vertices; v++) start[v + 1]! += start[v]!;
  const leaving = new Uint32Array(t.length);
  const end = start.slice();
  for (let h = 0; h < t.length; h++) leaving[end[t[h]!]!++] = h;
  const opposite = new Uint32Array(t.length);
  const first = new Int32Array(vertices).fill(-1);
  for (let h = 0; h < t.length; h++) {
    const from = t[h]!;
    const to = t[nextHalf(h)]!;
    let found = -1;
    for (let i = start[to]!; i < start[to + 1]!; i++) {
      if (t[nextHalf(leaving[i]!)] !== from) continue;
      if (found >= 0) throw open();
      found = leaving[i]!;
    }
    if (found < 0) throw open();
    opposite[h] = found;
    first[from] = h;
  }
  const halves = { vertices, t, opposite, first };
  const fan: number[] = [];
  for (let v = 0; v < vertices; v++)
    if (fanOf(halves, v, fan) !== start[v + 1]! - start[v]!)
      throw new SolidError(
        'bad-mesh',
        'offset: the mesh touches itself at a vertex; it must be one surface there',
      );
  return halves;
}

const open = (): SolidError =>
  new SolidError(
    'bad-mesh',
    'offset: the mesh is not closed and oriented; every edge must have exactly two triangles, one in each direction',
  );

/** Half-edges that begin at a vertex, in turn round it, into `fan`; how many there are. */
export function fanOf({ t, opposite, first }: Halves, v: number, fan: number[]): number {
  const begin = first[v]!;
  if (begin < 0) return 0;
  let size = 0;
  let h = begin;
  do {
    fan[size++] = h;
    h = opposite[previousHalf(h)]!;
  } while (h !== begin && size <= t.length);
  return size;
}
