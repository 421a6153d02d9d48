import type { Polygon, Vec2 } from '../solid/types.js';

/** What lies on a plan, in its coordinates, mm. */
export interface PlanShape {
  readonly outlines: readonly Polygon[];
  /** The outer edge of what is printed round it. */
  readonly brim?: readonly Polygon[];
}

/** A rectangle of cells, its last column and row not among them. */
export interface Window {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** Cells along the longer side of the plan. */
const resolution = 440;

/** A plan as cells, row after row, that know what lies on them: shapes, brims and words. */
export class PlanGrid {
  /** Length of a cell's side, mm. */
  readonly cell: number;
  readonly columns: number;
  readonly rows: number;
  /** 0 for free, else the shape's number from 1. */
  readonly #owner: Uint16Array;
  /** Whose brim lies there, as `#owner`. */
  readonly #brim: Uint16Array;
  /** Where words stand. */
  readonly #worded: Uint8Array;

  /** @param shapes within 0 to `width` and 0 to `depth`, mm; later ones lie over earlier ones */
  constructor(width: number, depth: number, shapes: readonly PlanShape[]) {
    this.cell = Math.max(width, depth) / resolution;
    this.columns = Math.ceil(width / this.cell);
    this.rows = Math.ceil(depth / this.cell);
    const cells = this.columns * this.rows;
    this.#owner = new Uint16Array(cells);
    this.#brim = new Uint16Array(cells);
    this.#worded = new Uint8Array(cells);
    shapes.forEach(({ outlines, brim = [] }, i) => {
      for (const at of this.cellsIn(outlines)) this.#owner[at] = i + 1;
      for (const at of this.cellsIn(brim)) this.#brim[at] = i + 1;
    });
  }

  /** Whether nothing at all lies there. */
  isFree(at: number): boolean {
    return this.#owner[at] === 0 && this.#brim[at] === 0 && this.#worded[at] === 0;
  }

  /** Whether nothing lies there but the shape and its brim. */
  isFreeFor(at: number, shape: number): boolean {
    const brim = this.#brim[at];
    return (brim === 0 || brim === shape + 1) && this.isPassable(at, shape);
  }

  /** Whether a line to the shape may lead over it: brims are crossed. */
  isPassable(at: number, shape: number): boolean {
    const owner = this.#owner[at];
    return (owner === 0 || owner === shape + 1) && this.#worded[at] === 0;
  }

  isOf(at: number, shape: number): boolean {
    return this.#owner[at] === shape + 1;
  }

  hasWords(at: number): boolean {
    return this.#worded[at] === 1;
  }

  /** Words stand there from now on. */
  putWords(cells: Iterable<number>): void {
    for (const at of cells) this.#worded[at] = 1;
  }

  /** Takes away, when called, all words that are put from now on. */
  undoable(): () => void {
    const before = this.#worded.slice();
    return () => this.#worded.set(before);
  }

  /** The cells that polygons lie on, and so far around; empty where they lie wholly beside the plan. */
  windowOf(polygons: readonly Polygon[], around = 0): Window {
    let [left, rear, right, front] = [Infinity, Infinity, -Infinity, -Infinity];
    for (const polygon of polygons)
      for (const [x, y] of polygon) {
        [left, right] = [Math.min(left, x), Math.max(right, x)];
        [rear, front] = [Math.min(rear, y), Math.max(front, y)];
      }
    if (left > right) return { x0: 0, y0: 0, x1: 0, y1: 0 };
    const first = (v: number, most: number): number =>
      Math.min(Math.max(0, Math.floor((v - around) / this.cell)), most);
    const x0 = first(left, this.columns);
    const y0 = first(rear, this.rows);
    const last = (v: number, least: number, most: number): number =>
      Math.min(Math.max(least, Math.ceil((v + around) / this.cell)), most);
    return { x0, y0, x1: last(right, x0, this.columns), y1: last(front, y0, this.rows) };
  }

  /** The part of a window that lies on the plan, cell by cell. */
  *cellsOf({ x0, y0, x1, y1 }: Window): Generator<number> {
    for (let y = Math.max(0, y0); y < Math.min(this.rows, y1); y++)
      for (let x = Math.max(0, x0); x < Math.min(this.columns, x1); x++) yield y * this.columns + x;
  }

  /** Every cell that polygons touch in its row's middle, by the even-odd rule; edges count a cell further out. */
  *cellsIn(polygons: readonly Polygon[]): Generator<number> {
    const { y0, y1 } = this.windowOf(polygons);
    for (let row = y0; row < y1; row++) {
      const y = (row + 0.5) * this.cell;
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
        const from = Math.max(0, Math.floor((cuts[i] as number) / this.cell));
        const to = Math.min(this.columns, Math.ceil((cuts[i + 1] as number) / this.cell));
        for (let x = from; x < to; x++) yield row * this.columns + x;
      }
    }
  }

  /** The cells that a line runs over, -1 for those beside the plan; some come twice. */
  *cellsAlong([ax, ay]: Vec2, [bx, by]: Vec2): Generator<number> {
    const steps = Math.max(1, 2 * Math.ceil(Math.max(Math.abs(bx - ax), Math.abs(by - ay)) / this.cell));
    for (let i = 0; i <= steps; i++) {
      const x = Math.floor((ax + ((bx - ax) * i) / steps) / this.cell);
      const y = Math.floor((ay + ((by - ay) * i) / steps) / this.cell);
      yield x < 0 || y < 0 || x >= this.columns || y >= this.rows ? -1 : y * this.columns + x;
    }
  }
}
