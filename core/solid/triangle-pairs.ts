/**
 * Pairs of triangles that may meet. Bounds in all directions of a 9-axis polytope (x, y, z and the diagonals of the three
 * coordinate planes) in a tree over the triangles, in Morton order of their centres; then planes and walls on edges, which
 * part nearly all of those that are left. The work is done by `pairs/assembly`: meshes are looked at whenever they are
 * made or written.
 */
import { wasmBytes } from '../wasm/wasm-bytes.js';
import { pairsModule } from './pairs/bytes.js';
import type { Corners } from './triangle-crossing.js';

/** As in `pairs/assembly`. */
const boxesOfBlock = 4;
const blockBytes = 288;
const recordBytes = 64;
const normalBytes = 48;
/** Of a point: its places along the axes. */
const placesBytes = 48;
const entryBytes = 12;
/** For counting while sorting. */
const countBytes = 4096;

const foundBytes = 65536;
const pageBytes = 65536;
/** Memory up to this is kept for the next mesh: some 70,000 triangles. */
const keptPages = 256;
/** Bytes of a cache's line, about: what is laid out begins one. */
const line = 64;

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
 * (touching counts), and no plane is found that parts them but for the corners they share. Stops when it returns true.
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
  let blocks = 0;
  let levels = 0;
  for (let size = count; size > 1 || levels === 0; levels++) {
    size = Math.ceil(size / boxesOfBlock);
    blocks += size;
  }
  let end = 0;
  const room = (bytes: number): number => {
    const at = end;
    end = Math.ceil((end + bytes) / line) * line;
    return at;
  };
  const points = room(p.byteLength);
  const corners = room(t.byteLength);
  const listed = room(list.byteLength);
  const order = room(list.byteLength);
  const records = room(recordBytes * count);
  const wall = room(normalBytes);
  const places = room((placesBytes * p.length) / 3);
  // More than the three words a triangle that sorting needs before.
  const boxes = room(blockBytes * blocks);
  const firstBlocks = room(4 * levels);
  // Each step down takes one pair and adds at most sixteen.
  const stack = room(Math.max(countBytes, entryBytes * boxesOfBlock ** 2 * levels));
  const found = room(foundBytes);
  const search = takeSearch(Math.ceil(end / pageBytes));
  const { buffer } = search.memory;
  new Float64Array(buffer, points, p.length).set(p);
  new Uint32Array(buffer, corners, t.length).set(t);
  new Uint32Array(buffer, listed, count).set(list);
  search.begin(
    ...[points, points + p.byteLength, corners, listed, count, order, records, wall],
    ...[places, boxes, firstBlocks, stack, found, foundBytes],
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
