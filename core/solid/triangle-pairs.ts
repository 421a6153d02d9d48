/**
 * Pairs of triangles that may meet. Bounds in all directions of a 9-axis polytope (x, y, z and the diagonals of the three
 * coordinate planes) in a binary tree over the triangles, in Morton order of their centres; then planes, which part most
 * of those that are left. The work is done by `pairs/assembly`: meshes are looked at whenever they are made or written.
 */
import { maths } from '../maths/maths.js';
import { wasmBytes } from '../wasm/wasm-bytes.js';
import { pairsModule } from './pairs/bytes.js';
import type { Corners } from './triangle-crossing.js';

/** As in `pairs/assembly`. */
const leafSize = 4;
const boxBytes = 96;
const planeBytes = 48;

const foundBytes = 65536;
const pageBytes = 65536;
/** Memory up to this is kept for the next mesh: some 40,000 triangles. */
const keptPages = 256;

interface Search {
  readonly memory: WebAssembly.Memory;
  readonly begin: (...places: readonly number[]) => void;
  readonly next: () => number;
  readonly isDone: () => number;
  readonly lookCount: () => number;
}

let module: WebAssembly.Module | undefined;
let kept: Search | undefined;

/**
 * Calls `visit(i, j)` once for each pair among the listed triangles that is not beyond doubt apart: its bounds overlap
 * (touching counts), and neither a plane nor, where both lie in one, an edge of either parts them but for the corners
 * they share. Stops when it returns true.
 * @param mostLooks pairs with overlapping bounds, about, after which it is given up
 * @returns false where it was given up
 */
export function forDoubtfulPairs(
  { p, t }: Corners,
  list: Uint32Array,
  visit: (i: number, j: number) => boolean,
  mostLooks = Number.POSITIVE_INFINITY,
): boolean {
  const count = list.length;
  if (count === 0) return true;
  let leaves = 1;
  while (leaves * leafSize < count) leaves *= 2;
  let end = 0;
  const room = (bytes: number): number => {
    const at = end;
    end = Math.ceil((end + bytes) / 16) * 16;
    return at;
  };
  const points = room(p.byteLength);
  const corners = room(t.byteLength);
  const listed = room(list.byteLength);
  const order = room(list.byteLength);
  const bounds = room(boxBytes * count);
  // Needed one after the other.
  const boxes = room(Math.max(2 * boxBytes * leaves, 3 * list.byteLength));
  const planes = room((planeBytes * t.length) / 3);
  // Deep enough: each step down adds at most three pairs; and a page for counting while sorting.
  const stack = room(Math.max(4096, 8 * (4 * maths.log2(leaves) + 8)));
  const found = room(foundBytes);
  const search = takeSearch(Math.ceil(end / pageBytes));
  const { buffer } = search.memory;
  new Float64Array(buffer, points, p.length).set(p);
  new Uint32Array(buffer, corners, t.length).set(t);
  new Uint32Array(buffer, listed, count).set(list);
  search.begin(
    ...[points, points + p.byteLength, corners, corners + t.byteLength, listed, count, order, boxes],
    ...[bounds, boxes, leaves, planes, stack, found, foundBytes],
  );
  const pairs = new Uint32Array(buffer, found, foundBytes / 4);
  try {
    do {
      const size = 2 * search.next();
      for (let n = 0; n < size; n += 2) if (visit(pairs[n]!, pairs[n + 1]!)) return true;
      if (search.lookCount() > mostLooks) return false;
    } while (search.isDone() === 0);
    return true;
  } finally {
    if (buffer.byteLength <= keptPages * pageBytes) kept = search;
  }
}

/** One with so much memory; whoever is in the midst of another keeps that. */
function takeSearch(pages: number): Search {
  const ready = kept;
  kept = undefined;
  if (ready) {
    const more = pages - ready.memory.buffer.byteLength / pageBytes;
    if (pages <= keptPages) {
      if (more > 0) ready.memory.grow(more);
      return ready;
    }
    kept = ready;
  }
  module ??= new WebAssembly.Module(wasmBytes(pairsModule));
  const memory = new WebAssembly.Memory({ initial: pages });
  const { exports } = new WebAssembly.Instance(module, { env: { memory, abort } });
  return { memory, ...(exports as unknown as Omit<Search, 'memory'>) };
}

const abort = (): never => {
  throw new Error('pairs');
};
