import { type CastFields, cellRole } from '../cast-fields.js';
import { stopFraction } from '../watch.js';
import { CellWalk } from './cells.js';

/**
 * How much of a cell's metal is liquid at `time`, 0 to 1: straight lines through all liquid at the start, `stopFraction`
 * solid when it stops flowing and all solid at its end.
 */
export function liquidShare({ stopsAt, solidAt }: CastFields, c: number, time: number): number {
  const [stops, solid] = [stopsAt[c]!, solidAt[c]!];
  if (time >= solid) return 0;
  if (solid === Number.POSITIVE_INFINITY) return 1;
  return time >= stops
    ? ((1 - stopFraction) * (solid - time)) / (solid - stops)
    : 1 - (stopFraction * time) / stops;
}

/** Metal in one piece that freezes later than the way out of it closes. */
export interface Pocket {
  readonly number: number;
  /** s */
  readonly time: number;
  /** mm³ of metal, of the castings' metal, and of what is liquid as the way closes. */
  readonly volume: number;
  readonly casting: number;
  readonly liquid: number;
}

/** Follows metal from cell to cell. A class for its marks, which are as long as the field. */
export class PocketFinder {
  /** Number of the search that came to a cell last, and the cell it came from. */
  readonly #seen: Int32Array;
  readonly #from: Int32Array;
  /** Number of the pocket that a cell belongs to. */
  readonly #pocket: Int32Array;
  readonly #walk: CellWalk;
  #search = 0;

  constructor(readonly fields: CastFields) {
    this.#walk = new CellWalk(fields);
    this.#seen = new Int32Array(fields.grid.size);
    this.#from = new Int32Array(fields.grid.size);
    this.#pocket = new Int32Array(fields.grid.size);
  }

  /** What is in one piece with `cell` of all that freezes after `time`. */
  pocketAbout(cell: number, time: number): Pocket {
    const { fields } = this;
    const { role, solidAt } = fields;
    let [volume, casting, liquid] = [0, 0, 0];
    const cells = this.#spread(cell, (c) => solidAt[c]! > time);
    const number = this.#search;
    for (const c of cells) {
      this.#pocket[c] = number;
      const metal = this.#walk.metal(c);
      volume += metal;
      if (role[c] === cellRole.casting) casting += metal;
      liquid += metal * liquidShare(fields, c, time);
    }
    return { number, time, volume, casting, liquid };
  }

  isIn({ number }: Pocket, c: number): boolean {
    return this.#pocket[c] === number;
  }

  /** Shortest ways, cell by cell, from each of `ends` through `pocket` to its neck, the neck last. */
  waysTo(neck: number, pocket: Pocket, ends: readonly number[]): readonly (readonly number[])[] {
    const { solidAt } = this.fields;
    // Metal of the neck's own time may lie between the two.
    const belongs = (c: number): boolean => this.isIn(pocket, c) || solidAt[c] === pocket.time;
    this.#spread(neck, belongs);
    return ends.map((end) => this.#wayBack(end, neck));
  }

  #wayBack(end: number, start: number): readonly number[] {
    const way = [end];
    for (let at = end; at !== start; ) {
      if (this.#seen[at] !== this.#search) return [];
      at = this.#from[at]!;
      way.push(at);
    }
    return way;
  }

  /** Breadth first from `start` through cells that `belong`: all of them. */
  #spread(start: number, belongs: (c: number) => boolean): readonly number[] {
    const search = ++this.#search;
    const walk = this.#walk;
    const reached = [start];
    this.#seen[start] = search;
    for (let n = 0; n < reached.length; n++) {
      const c = reached[n]!;
      const count = walk.look(c);
      for (let b = 0; b < count; b++) {
        const next = walk.beside[b]!;
        if (this.#seen[next] === search || !belongs(next)) continue;
        this.#seen[next] = search;
        this.#from[next] = c;
        reached.push(next);
      }
    }
    return reached;
  }
}
