import { maths } from '../maths/maths.js';
import type { Polygon, Vec2 } from '../solid/types.js';
import type { Wording } from './plan-label.js';

/** Words at their place: the middle of the room they take, mm, and for words beside a line to what they name. */
export interface PlacedWording {
  readonly wording: Wording;
  readonly at: Vec2;
  readonly leader?: readonly [from: Vec2, to: Vec2];
}

/** What words may be put in or beside. */
export interface Named {
  readonly outlines: readonly Polygon[];
}

interface Window {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** Cells along the longer side of the plan. */
const resolution = 440;
/** Longest leader as a share of the longer side. */
const reach = 0.14;

/**
 * A plan as a grid of cells that knows what lies where, so that words get places of their own: never over another
 * shape or other words.
 */
export class PlanGrid {
  readonly #cell: number;
  readonly #columns: number;
  readonly #rows: number;
  /** 0 for free, else the shape's number from 1. */
  readonly #owner: Uint16Array;
  /** Where words stand. */
  readonly #blocked: Uint8Array;

  /** @param shapes within 0 to `width` and 0 to `depth`, mm; later ones lie over earlier ones */
  constructor(
    width: number,
    depth: number,
    readonly shapes: readonly Named[],
  ) {
    this.#cell = Math.max(width, depth) / resolution;
    this.#columns = Math.ceil(width / this.#cell);
    this.#rows = Math.ceil(depth / this.#cell);
    this.#owner = new Uint16Array(this.#columns * this.#rows);
    this.#blocked = new Uint8Array(this.#columns * this.#rows);
    shapes.forEach(({ outlines }, i) => {
      this.#fill(outlines, (at) => {
        this.#owner[at] = i + 1;
      });
    });
  }

  /** The first of the wordings that has room inside the shape, holes that are free among it; its place is then taken. */
  inside(shape: number, wordings: readonly Wording[]): PlacedWording | undefined {
    const { outlines } = this.shapes[shape] as Named;
    const window = this.#windowOf(outlines, 0);
    const columns = window.x1 - window.x0;
    const rows = window.y1 - window.y0;
    if (columns <= 0 || rows <= 0) return undefined;
    const within = new Uint8Array(columns * rows);
    // Outer edges run anticlockwise in the pattern's own frame, clockwise on the plan: a hole is what turns the other way.
    for (const outer of outerEdges(outlines))
      this.#fill([outer], (at) => {
        within[this.#inWindow(at, window)] = 1;
      });
    const bad = (at: number, local: number): boolean => {
      const owner = this.#owner[at] as number;
      return within[local] === 0 || (owner !== 0 && owner !== shape + 1) || this.#blocked[at] === 1;
    };
    const sums = this.#sumsOf(window, bad);
    const middle = centreOf(outlines);
    return this.#take(this.#best(window, sums, wordings, (x, y) => distance([x, y], middle)));
  }

  /** The first of the wordings that has room near the shape, with a leader that crosses nothing else. */
  beside(shape: number, wordings: readonly Wording[]): PlacedWording | undefined {
    const { outlines } = this.shapes[shape] as Named;
    const most = Math.max(this.#columns, this.#rows) * this.#cell * reach;
    const window = this.#windowOf(outlines, most);
    const sums = this.#sumsOf(window, (at) => this.#owner[at] !== 0 || this.#blocked[at] === 1);
    const ends = this.#anchorsOf(shape, outlines);
    const leaderOf = (x: number, y: number, { width, height }: Wording): PlacedWording['leader'] => {
      const to = ends.reduce((a, b) => (distance(b, [x, y]) < distance(a, [x, y]) ? b : a));
      return [onEdge([x, y], width, height, to), to];
    };
    if (ends.length === 0) return undefined;
    const found = this.#best(
      window,
      sums,
      wordings,
      (x, y, wording, least) => {
        const [from, to] = leaderOf(x, y, wording) as readonly [Vec2, Vec2];
        const far = distance(from, to);
        return far < most && far < least && this.#isClear(from, to, shape) ? far : Number.POSITIVE_INFINITY;
      },
      3,
    );
    const leader = found && leaderOf(found.at[0], found.at[1], found.wording);
    return this.#take(found && leader ? { ...found, leader } : undefined);
  }

  /** Middle of the widest spot of the shape, and half its width: where a small key stands when nothing else has room. */
  widest(shape: number): { readonly at: Vec2; readonly half: number } {
    const { outlines } = this.shapes[shape] as Named;
    const window = this.#windowOf(outlines, 0);
    let best = { at: centreOf(outlines), half: this.#cell / 2 };
    const sums = this.#sumsOf(window, (at) => this.#owner[at] !== shape + 1 || this.#blocked[at] === 1);
    for (let n = 1; n <= Math.min(window.x1 - window.x0, window.y1 - window.y0); n++) {
      const size = n * this.#cell;
      const wording = { lines: [], size, width: size, height: size };
      const found = this.#best(window, sums, [wording], (x, y) => distance([x, y], best.at));
      if (!found) break;
      best = { at: found.at, half: size / 2 };
    }
    return best;
  }

  /** Where leaders may end: cells inside the shape by a little. */
  #anchorsOf(shape: number, outlines: readonly Polygon[]): readonly Vec2[] {
    const window = this.#windowOf(outlines, 0);
    const step = Math.max(1, Math.floor(Math.max(window.x1 - window.x0, window.y1 - window.y0) / 16));
    const found: Vec2[] = [];
    for (let y = window.y0; y < window.y1; y += step)
      for (let x = window.x0; x < window.x1; x += step)
        if (this.#owner[y * this.#columns + x] === shape + 1)
          found.push([(x + 0.5) * this.#cell, (y + 0.5) * this.#cell]);
    return found;
  }

  #isClear(from: Vec2, to: Vec2, shape: number): boolean {
    const steps = Math.ceil(distance(from, to) / this.#cell) * 2;
    for (let i = 1; i <= steps; i++) {
      const x = Math.floor((from[0] + ((to[0] - from[0]) * i) / steps) / this.#cell);
      const y = Math.floor((from[1] + ((to[1] - from[1]) * i) / steps) / this.#cell);
      if (x < 0 || y < 0 || x >= this.#columns || y >= this.#rows) return false;
      const at = y * this.#columns + x;
      const owner = this.#owner[at] as number;
      if ((owner !== 0 && owner !== shape + 1) || this.#blocked[at] === 1) return false;
    }
    return true;
  }

  /** Frees, when called, all places that are taken from now on. */
  undoable(): () => void {
    const before = this.#blocked.slice();
    return () => this.#blocked.set(before);
  }

  /** Blocks the words' room and the cells under their leader. */
  #take(placed: PlacedWording | undefined): PlacedWording | undefined {
    if (!placed) return undefined;
    const { at, wording, leader } = placed;
    const { x0, y0, x1, y1 } = this.#cellsOf(at, wording);
    for (let y = y0; y < y1; y++) this.#blocked.fill(1, y * this.#columns + x0, y * this.#columns + x1);
    if (leader) {
      const [from, to] = leader;
      const steps = Math.ceil(distance(from, to) / this.#cell) * 2;
      for (let i = 0; i <= steps; i++) {
        const x = Math.floor((from[0] + ((to[0] - from[0]) * i) / Math.max(1, steps)) / this.#cell);
        const y = Math.floor((from[1] + ((to[1] - from[1]) * i) / Math.max(1, steps)) / this.#cell);
        if (x >= 0 && y >= 0 && x < this.#columns && y < this.#rows) this.#blocked[y * this.#columns + x] = 1;
      }
    }
    return placed;
  }

  /** The cells that words take whose middle is at a corner of cells. */
  #cellsOf([x, y]: Vec2, { width, height }: Wording): Window {
    const [w, h] = [Math.ceil(width / this.#cell), Math.ceil(height / this.#cell)];
    const [x0, y0] = [Math.round(x / this.#cell - w / 2), Math.round(y / this.#cell - h / 2)];
    return { x0, y0, x1: x0 + w, y1: y0 + h };
  }

  /** The first wording that has any room, where the cost is least. */
  #best(
    window: Window,
    sums: Uint32Array,
    wordings: readonly Wording[],
    /** May be infinite once it is not under `least`. */
    cost: (x: number, y: number, wording: Wording, least: number) => number,
    step = 1,
  ): { readonly wording: Wording; readonly at: Vec2 } | undefined {
    const columns = window.x1 - window.x0;
    const rows = window.y1 - window.y0;
    for (const wording of wordings) {
      const w = Math.ceil(wording.width / this.#cell);
      const h = Math.ceil(wording.height / this.#cell);
      let least = Number.POSITIVE_INFINITY;
      let at: Vec2 | undefined;
      for (let y = 0; y + h <= rows; y += step) {
        for (let x = 0; x + w <= columns; x += step) {
          if (sumIn(sums, columns, x, y, w, h) > 0) continue;
          const place: Vec2 = [(window.x0 + x + w / 2) * this.#cell, (window.y0 + y + h / 2) * this.#cell];
          const paid = cost(place[0], place[1], wording, least);
          if (paid >= least) continue;
          least = paid;
          at = place;
        }
      }
      if (at) return { wording, at };
    }
    return undefined;
  }

  /** Summed areas of the bad cells of a window, one row and column more than it has. */
  #sumsOf(window: Window, bad: (at: number, local: number) => boolean): Uint32Array {
    const columns = window.x1 - window.x0;
    const rows = window.y1 - window.y0;
    const sums = new Uint32Array((columns + 1) * (rows + 1));
    for (let y = 0; y < rows; y++) {
      let row = 0;
      for (let x = 0; x < columns; x++) {
        if (bad((window.y0 + y) * this.#columns + window.x0 + x, y * columns + x)) row++;
        sums[(y + 1) * (columns + 1) + x + 1] = (sums[y * (columns + 1) + x + 1] as number) + row;
      }
    }
    return sums;
  }

  #inWindow(at: number, window: Window): number {
    const y = Math.floor(at / this.#columns) - window.y0;
    return y * (window.x1 - window.x0) + (at % this.#columns) - window.x0;
  }

  #windowOf(outlines: readonly Polygon[], around: number): Window {
    const xs = outlines.flatMap((p) => p.map((v) => v[0]));
    const ys = outlines.flatMap((p) => p.map((v) => v[1]));
    const low = (v: readonly number[]): number =>
      Math.max(
        0,
        Math.floor((v.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY) - around) / this.#cell),
      );
    const high = (v: readonly number[], most: number): number =>
      Math.min(
        most,
        Math.ceil((v.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY) + around) / this.#cell),
      );
    if (xs.length === 0) return { x0: 0, y0: 0, x1: 0, y1: 0 };
    return { x0: low(xs), y0: low(ys), x1: high(xs, this.#columns), y1: high(ys, this.#rows) };
  }

  /** Every cell that polygons touch in its row's middle, by the even-odd rule; edges count a cell further out. */
  #fill(polygons: readonly Polygon[], mark: (at: number) => void): void {
    const cell = this.#cell;
    const { y0, y1 } = this.#windowOf(polygons, 0);
    for (let row = y0; row < y1; row++) {
      const y = (row + 0.5) * cell;
      const cuts: number[] = [];
      for (const polygon of polygons) {
        let [ax, ay] = polygon.at(-1) as Vec2;
        for (const [bx, by] of polygon) {
          if (ay > y !== by > y) cuts.push(ax + ((y - ay) / (by - ay)) * (bx - ax));
          [ax, ay] = [bx, by];
        }
      }
      cuts.sort((a, b) => a - b);
      for (let i = 0; i + 1 < cuts.length; i += 2) {
        const from = Math.max(0, Math.floor((cuts[i] as number) / cell));
        const to = Math.min(this.#columns, Math.ceil((cuts[i + 1] as number) / cell));
        for (let x = from; x < to; x++) mark(row * this.#columns + x);
      }
    }
  }
}

const sumIn = (sums: Uint32Array, columns: number, x: number, y: number, w: number, h: number): number => {
  const n = columns + 1;
  const at = (i: number, k: number): number => sums[k * n + i] as number;
  return at(x + w, y + h) - at(x, y + h) - at(x + w, y) + at(x, y);
};

const distance = (a: Vec2, b: Vec2): number => maths.hypot(a[0] - b[0], a[1] - b[1]);

/** The point of a rectangle about `at` that is nearest to another. */
const onEdge = ([x, y]: Vec2, width: number, height: number, [tx, ty]: Vec2): Vec2 => [
  Math.min(Math.max(tx, x - width / 2), x + width / 2),
  Math.min(Math.max(ty, y - height / 2), y + height / 2),
];

const twiceArea = (polygon: Polygon): number => {
  let sum = 0;
  let [ax, ay] = polygon.at(-1) as Vec2;
  for (const [bx, by] of polygon) {
    sum += ax * by - bx * ay;
    [ax, ay] = [bx, by];
  }
  return sum;
};

/** Holes turn against the largest edge. */
function outerEdges(outlines: readonly Polygon[]): readonly Polygon[] {
  const largest = outlines.reduce((a, b) => (Math.abs(twiceArea(b)) > Math.abs(a) ? twiceArea(b) : a), 0);
  return outlines.filter((p) => p.length > 2 && twiceArea(p) > 0 === largest > 0);
}

function centreOf(outlines: readonly Polygon[]): Vec2 {
  const points = outlines.flat();
  const mid = (k: 0 | 1): number =>
    (points.reduce((a, p) => Math.min(a, p[k]), Number.POSITIVE_INFINITY) +
      points.reduce((a, p) => Math.max(a, p[k]), Number.NEGATIVE_INFINITY)) /
    2;
  return [mid(0), mid(1)];
}
