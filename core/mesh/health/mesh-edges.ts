/**
 * The edges of a welded mesh by their half-edges, any number to an edge. A half-edge is named by the corner it leaves.
 * No triangle may name a vertex twice.
 */
export interface MeshEdges {
  readonly count: number;
  /** Edge of each half-edge. */
  readonly edgeOf: Uint32Array;
  /** Half-edges of edge e: `halves` from `starts[e]` to `starts[e + 1]`, in the order of the triangles. */
  readonly starts: Uint32Array;
  readonly halves: Uint32Array;
  /** Number of the edge between two vertices, or −1. */
  find(a: number, b: number): number;
}

/** The half-edge after this one in its triangle. */
export const nextHalf = (half: number): number => (half % 3 === 2 ? half - 2 : half + 1);

export const triangleOf = (half: number): number => Math.floor(half / 3);

export function meshEdges(t: Uint32Array): MeshEdges {
  let size = 16;
  while (size < 1.5 * t.length) size *= 2;
  // The first half-edge of the edge in each slot.
  const slots = new Int32Array(size).fill(-1);
  const edgeOf = new Uint32Array(t.length);
  const slotOf = (a: number, b: number): number => {
    const low = Math.min(a, b);
    const high = Math.max(a, b);
    let h = Math.imul(low, 0x9e3779b1) ^ Math.imul(high, 0x85ebca6b);
    h ^= h >>> 15;
    h = Math.imul(h, 0x2c1b3c6d);
    let slot = (h ^ (h >>> 13)) & (size - 1);
    for (;;) {
      const first = slots[slot]!;
      if (first < 0) return slot;
      const [u, v] = [t[first]!, t[nextHalf(first)]!];
      if ((u === low && v === high) || (u === high && v === low)) return slot;
      slot = (slot + 1) & (size - 1);
    }
  };
  let count = 0;
  const sizes = new Uint32Array(t.length + 1);
  for (let half = 0; half < t.length; half++) {
    const slot = slotOf(t[half]!, t[nextHalf(half)]!);
    const first = slots[slot]!;
    const edge = first < 0 ? count++ : edgeOf[first]!;
    if (first < 0) slots[slot] = half;
    edgeOf[half] = edge;
    sizes[edge]!++;
  }
  const starts = new Uint32Array(count + 1);
  for (let e = 0; e < count; e++) starts[e + 1] = starts[e]! + sizes[e]!;
  const fill = starts.slice();
  const halves = new Uint32Array(t.length);
  for (let half = 0; half < t.length; half++) halves[fill[edgeOf[half]!]!++] = half;
  return {
    count,
    edgeOf,
    starts,
    halves,
    find: (a, b) => {
      const first = slots[slotOf(a, b)]!;
      return first < 0 ? -1 : edgeOf[first]!;
    },
  };
}

/** How many triangles have the edge. */
export const usesOf = ({ starts }: MeshEdges, edge: number): number => starts[edge + 1]! - starts[edge]!;

/** The other half-edge of an edge that two triangles have; −1 where one has it, or more than two. */
export function oppositeHalf(edges: MeshEdges, half: number): number {
  const e = edges.edgeOf[half]!;
  const start = edges.starts[e]!;
  if (edges.starts[e + 1]! - start !== 2) return -1;
  return edges.halves[start]! === half ? edges.halves[start + 1]! : edges.halves[start]!;
}
