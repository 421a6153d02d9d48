import { maths } from '../maths/maths.js';
import { measureArea } from '../solid/check-input.js';
import type { Polygon, Vec2 } from '../solid/types.js';
import { PlanGrid, type PlanShape, type Window } from './plan-grid.js';
import type { Wording } from './plan-label.js';

/** Words at their place: the middle of the room they take, mm, and for words beside a line to what they name. */
export interface PlacedWording {
  readonly wording: Wording;
  readonly at: Vec2;
  readonly leader?: readonly [from: Vec2, to: Vec2];
}

/** Longest leader as a share of the longer side. */
const reach = 0.14;

/** Finds words on a plan places of their own: never over another shape, its brim or other words. */
export class PlanPlaces {
  readonly #grid: PlanGrid;
  readonly #shapes: readonly PlanShape[];

  /** @param shapes each in part or wholly within 0 to `width` and 0 to `depth`, mm */
  constructor(width: number, depth: number, shapes: readonly PlanShape[]) {
    this.#grid = new PlanGrid(width, depth, shapes);
    this.#shapes = shapes;
  }

  /** The first of the wordings that has room inside the shape, holes that are free among it; its place is then taken. */
  inside(shape: number, wordings: readonly Wording[]): PlacedWording | undefined {
    const { outlines } = this.#shapes[shape] as PlanShape;
    const window = this.#grid.windowOf(outlines);
    const within = new Set<number>();
    // Outer edges run anticlockwise in the pattern's own frame, clockwise on the plan: a hole is what turns the other way.
    for (const outer of outerEdges(outlines)) for (const at of this.#grid.cellsIn([outer])) within.add(at);
    const rooms = this.#roomsIn(window, (at) => within.has(at) && this.#grid.isFreeFor(at, shape));
    const middle = centreOf(outlines);
    return this.#take(rooms.best(wordings, (at) => distance(at, middle)));
  }

  /** The first of the wordings that has room near the shape, with a leader that crosses no other and no words. */
  beside(shape: number, wordings: readonly Wording[]): PlacedWording | undefined {
    const { outlines } = this.#shapes[shape] as PlanShape;
    const { cell, columns, rows } = this.#grid;
    const most = Math.max(columns, rows) * cell * reach;
    const rooms = this.#roomsIn(this.#grid.windowOf(outlines, most), (at) => this.#grid.isFree(at));
    const ends = this.#endsIn(shape, outlines);
    const leaderOf = (at: Vec2, { width, height }: Wording): readonly [Vec2, Vec2] => {
      const to = ends.reduce((a, b) => (distance(b, at) < distance(a, at) ? b : a));
      return [onEdge(at, width, height, to), to];
    };
    const cost = (at: Vec2, wording: Wording, least: number): number => {
      const [from, to] = leaderOf(at, wording);
      const far = distance(from, to);
      return far < most && far < least && this.#isClear(from, to, shape) ? far : Number.POSITIVE_INFINITY;
    };
    const found = rooms.best(wordings, cost, 3);
    return this.#take(found && { ...found, leader: leaderOf(found.at, found.wording) });
  }

  /** In the middle of the shape's widest spot, in words for its width in mm: where nothing else has room. */
  widest(shape: number, wordingFor: (width: number) => Wording): PlacedWording {
    const { outlines } = this.#shapes[shape] as PlanShape;
    const { cell } = this.#grid;
    const window = this.#grid.windowOf(outlines);
    const rooms = this.#roomsIn(window, (at) => this.#grid.isOf(at, shape) && !this.#grid.hasWords(at));
    let [at, width] = [centreOf(outlines), cell];
    for (let n = 1; n <= Math.min(window.x1 - window.x0, window.y1 - window.y0); n++) {
      const square = { lines: [], size: n * cell, width: n * cell, height: n * cell };
      const found = rooms.best([square], (place) => distance(place, at));
      if (!found) break;
      [at, width] = [found.at, square.width];
    }
    return this.#take({ wording: wordingFor(width), at });
  }

  /** Frees, when called, all places that are taken from now on. */
  undoable(): () => void {
    return this.#grid.undoable();
  }

  /** Where leaders may end: cells of the shape, or its middle where it is smaller than those. */
  #endsIn(shape: number, outlines: readonly Polygon[]): readonly Vec2[] {
    const { cell, columns } = this.#grid;
    const { x0, y0, x1, y1 } = this.#grid.windowOf(outlines);
    const step = Math.max(1, Math.floor(Math.max(x1 - x0, y1 - y0) / 16));
    const found: Vec2[] = [];
    for (let y = y0; y < y1; y += step)
      for (let x = x0; x < x1; x += step)
        if (this.#grid.isOf(y * columns + x, shape)) found.push([(x + 0.5) * cell, (y + 0.5) * cell]);
    return found.length > 0 ? found : [centreOf(outlines)];
  }

  #isClear(from: Vec2, to: Vec2, shape: number): boolean {
    for (const at of this.#grid.cellsAlong(from, to))
      if (at < 0 || !this.#grid.isPassable(at, shape)) return false;
    return true;
  }

  #roomsIn(window: Window, isFree: (at: number) => boolean): Rooms {
    return new Rooms(window, this.#grid, isFree);
  }

  /** Puts the words there, and their leader. */
  #take<T extends PlacedWording | undefined>(placed: T): T {
    if (!placed) return placed;
    const { at, wording, leader } = placed;
    const { cell } = this.#grid;
    const [w, h] = [Math.ceil(wording.width / cell), Math.ceil(wording.height / cell)];
    const [x0, y0] = [Math.round(at[0] / cell - w / 2), Math.round(at[1] / cell - h / 2)];
    this.#grid.putWords(this.#grid.cellsOf({ x0, y0, x1: x0 + w, y1: y0 + h }));
    if (leader) this.#grid.putWords([...this.#grid.cellsAlong(...leader)].filter((cellAt) => cellAt >= 0));
    return placed;
  }
}

/** Where in a window words have room, by the summed areas of its cells that are not free. */
class Rooms {
  readonly #window: Window;
  readonly #cell: number;
  readonly #columns: number;
  readonly #rows: number;
  /** One row and column more than the window has. */
  readonly #sums: Uint32Array;

  constructor(window: Window, { cell, columns }: PlanGrid, isFree: (at: number) => boolean) {
    this.#window = window;
    this.#cell = cell;
    this.#columns = window.x1 - window.x0;
    this.#rows = window.y1 - window.y0;
    const n = this.#columns + 1;
    this.#sums = new Uint32Array(n * (this.#rows + 1));
    for (let y = 0; y < this.#rows; y++) {
      let row = 0;
      for (let x = 0; x < this.#columns; x++) {
        if (!isFree((window.y0 + y) * columns + window.x0 + x)) row++;
        this.#sums[(y + 1) * n + x + 1] = (this.#sums[y * n + x + 1] as number) + row;
      }
    }
  }

  /** The first wording that has any room, where the cost is least. */
  best(
    wordings: readonly Wording[],
    /** May be infinite once it is not under `least`. */
    cost: (at: Vec2, wording: Wording, least: number) => number,
    step = 1,
  ): { readonly wording: Wording; readonly at: Vec2 } | undefined {
    for (const wording of wordings) {
      const w = Math.ceil(wording.width / this.#cell);
      const h = Math.ceil(wording.height / this.#cell);
      let least = Number.POSITIVE_INFINITY;
      let at: Vec2 | undefined;
      for (let y = 0; y + h <= this.#rows; y += step) {
        for (let x = 0; x + w <= this.#columns; x += step) {
          if (!this.#isFree(x, y, w, h)) continue;
          const place: Vec2 = [
            (this.#window.x0 + x + w / 2) * this.#cell,
            (this.#window.y0 + y + h / 2) * this.#cell,
          ];
          const paid = cost(place, wording, least);
          if (paid >= least) continue;
          least = paid;
          at = place;
        }
      }
      if (at) return { wording, at };
    }
    return undefined;
  }

  #isFree(x: number, y: number, w: number, h: number): boolean {
    const n = this.#columns + 1;
    const at = (i: number, k: number): number => this.#sums[k * n + i] as number;
    return at(x + w, y + h) - at(x, y + h) - at(x + w, y) + at(x, y) === 0;
  }
}

const distance = (a: Vec2, b: Vec2): number => maths.hypot(a[0] - b[0], a[1] - b[1]);

/** The point of a rectangle about `at` that is nearest to another. */
const onEdge = ([x, y]: Vec2, width: number, height: number, [tx, ty]: Vec2): Vec2 => [
  Math.min(Math.max(tx, x - width / 2), x + width / 2),
  Math.min(Math.max(ty, y - height / 2), y + height / 2),
];

/** Holes turn against the largest edge. */
function outerEdges(outlines: readonly Polygon[]): readonly Polygon[] {
  const areas = outlines.map(measureArea);
  const largest = areas.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a), 0);
  return outlines.filter((p, i) => p.length > 2 && (areas[i] as number) > 0 === largest > 0);
}

function centreOf(outlines: readonly Polygon[]): Vec2 {
  const points = outlines.flat();
  const mid = (k: 0 | 1): number =>
    (points.reduce((a, p) => Math.min(a, p[k]), Number.POSITIVE_INFINITY) +
      points.reduce((a, p) => Math.max(a, p[k]), Number.NEGATIVE_INFINITY)) /
    2;
  return [mid(0), mid(1)];
}
