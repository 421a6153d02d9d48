import { leastShare } from './cast-fields.js';
import type { HeatField } from './heat-field.js';
import { type MetalFaces, metalFaces } from './metal-faces.js';
import type { TimeMap } from './short-steps.js';
import { fullHeat, lawTemperature } from './substance.js';

/** Solid share at which metal flows no more (Flemings, Solidification Processing: 0.2 to 0.5; from memory). */
export const stopFraction = 0.3;

/** Liquid left when Niyama's gradient and rate are taken (Niyama and others, AFS Int. Cast Metals J., 1982). */
export const lastLiquid = 0.1;

/** What is seen of every cell with metal as it freezes; see `CastFields`. 0 where there is no metal. */
export interface Watched {
  readonly stopsAt: Float32Array;
  readonly solidAt: Float32Array;
  readonly gradient: Float32Array;
  readonly coolingRate: Float32Array;
  readonly facePeak: Float32Array;
}

/** Follows a field from step to step. A class for its arrays, which are as long as the field. */
export class FreezeWatch {
  readonly all: number;
  readonly #stopsAt: Float32Array;
  readonly #solidAt: Float32Array;
  readonly #gradient: Float32Array;
  readonly #coolingRate: Float32Array;
  readonly #facePeak: Float32Array;
  readonly #faces: MetalFaces;
  /** Cells not solid yet, in front; J/mm³ that each holds at its liquidus, and held after the step before. */
  readonly #cells: Int32Array;
  readonly #full: Float32Array;
  readonly #last: Float32Array;
  #open = 0;
  #heatLeft = 0;

  constructor(readonly field: HeatField) {
    const n = field.problem.grid.size;
    this.#stopsAt = new Float32Array(n);
    this.#solidAt = new Float32Array(n);
    this.#gradient = new Float32Array(n);
    this.#coolingRate = new Float32Array(n);
    this.#facePeak = new Float32Array(n);
    this.#faces = metalFaces(field.problem);
    let count = 0;
    for (let c = 0; c < n; c++) if (this.#isWatched(c)) count++;
    this.all = count;
    this.#cells = new Int32Array(count);
    this.#full = new Float32Array(count);
    this.#last = new Float32Array(count);
    this.restart();
  }

  #isWatched(c: number): boolean {
    const { share, present } = this.field.problem;
    return share[c]! >= leastShare && present?.[c] !== 0;
  }

  /** Forgets all and begins with the field as it is now. */
  restart(): void {
    const { law, content, problem } = this.field;
    for (const seen of [this.#stopsAt, this.#solidAt, this.#gradient, this.#coolingRate, this.#facePeak])
      seen.fill(0);
    let count = 0;
    for (let c = 0; c < content.length; c++) {
      if (!this.#isWatched(c)) continue;
      this.#cells[count] = c;
      this.#full[count] = fullHeat(law, problem.share[c]!);
      this.#last[count] = content[c]!;
      count++;
    }
    this.#open = count;
    this.#heatLeft = this.measureHeat();
  }

  /** Cells not solid yet. */
  get open(): number {
    return this.#open;
  }

  /** J/mm³ over the solidus, summed over the cells not solid yet, after the last step. */
  get heatLeft(): number {
    return this.#heatLeft;
  }

  /** s until a cell's metal flows no more; 0 as long as it does. */
  get stopsAt(): Float32Array {
    return this.#stopsAt;
  }

  /** s until all of a cell is solid; 0 as long as it is not. */
  get solidAt(): Float32Array {
    return this.#solidAt;
  }

  /** As `heatLeft`, but now. */
  measureHeat(): number {
    const { content } = this.field;
    let sum = 0;
    for (let at = 0; at < this.#open; at++) sum += Math.max(0, content[this.#cells[at]!]!);
    return sum;
  }

  /** To be called after every step of that many s. */
  after(step: number): void {
    const { content, time } = this.field;
    const [cells, fulls, last, stopsAt] = [this.#cells, this.#full, this.#last, this.#stopsAt];
    const open = this.#open;
    let still = 0;
    let heatLeft = 0;
    for (let at = 0; at < open; at++) {
      const c = cells[at]!;
      const full = fulls[at]!;
      const now = content[c]!;
      if (now <= (1 - stopFraction) * full) {
        const was = last[at]!;
        if (stopsAt[c] === 0) stopsAt[c] = passedAt((1 - stopFraction) * full, was, now, time, step);
        if (now <= lastLiquid * full && this.#gradient[c] === 0) this.#seeLastLiquid(c, was, step);
        if (now <= 0) {
          this.#solidAt[c] = passedAt(0, was, now, time, step);
          continue;
        }
      }
      cells[still] = c;
      fulls[still] = full;
      last[still] = now;
      heatLeft += now;
      still++;
    }
    this.#heatLeft = heatLeft;
    this.#open = still;
    this.#seeFaces();
  }

  /** What was seen, at times as the maps have them; no cell stops after it is solid. */
  close(stopsMap: TimeMap = (t) => t, solidMap: TimeMap = (t) => t): Watched {
    const [stopsAt, solidAt, coolingRate] = [this.#stopsAt, this.#solidAt, this.#coolingRate];
    for (const c of this.#cells.subarray(0, this.#open)) solidAt[c] = Number.POSITIVE_INFINITY;
    for (let c = 0; c < solidAt.length; c++) {
      const t = solidAt[c]!;
      if (t === 0) continue;
      solidAt[c] = solidMap(t);
      stopsAt[c] = Math.min(solidAt[c]!, stopsMap(stopsAt[c]!));
      if (Number.isFinite(t)) coolingRate[c] = (coolingRate[c]! * t) / solidAt[c]!;
    }
    return {
      stopsAt: this.#stopsAt,
      solidAt: this.#solidAt,
      gradient: this.#gradient,
      coolingRate: this.#coolingRate,
      facePeak: this.#facePeak,
    };
  }

  #seeLastLiquid(c: number, was: number, step: number): void {
    const { law, temperature, problem } = this.field;
    const fall = lawTemperature(law, problem.share[c]!, was) - temperature[c]!;
    this.#gradient[c] = Math.max(1e-6, this.#gradientAt(c));
    this.#coolingRate[c] = Math.max(1e-6, fall / step);
  }

  #seeFaces(): void {
    const { temperature } = this.field;
    const peak = this.#facePeak;
    const { metal, mould, toMetal } = this.#faces;
    for (let n = 0; n < metal.length; n++) {
      const cell = mould[n]!;
      const own = temperature[cell]!;
      // The mould's side of the face: the contact's own resistance counts with the metal.
      const t = own + (temperature[metal[n]!]! - own) * toMetal[n]!;
      if (t > peak[cell]!) peak[cell] = t;
    }
  }

  /** K/mm, by the cells with metal next to it. */
  #gradientAt(c: number): number {
    const { temperature, problem } = this.field;
    const { grid, share, present } = problem;
    const strides = [1, grid.counts[0], grid.counts[0] * grid.counts[1]] as const;
    const at = [
      c % grid.counts[0],
      Math.floor(c / grid.counts[0]) % grid.counts[1],
      Math.floor(c / strides[2]),
    ] as const;
    let sum = 0;
    for (const axis of [0, 1, 2] as const) {
      const edges = grid.edges[axis];
      const i = at[axis];
      const isMetal = (n: number): boolean =>
        n >= 0 &&
        n < grid.counts[axis] &&
        share[c + (n - i) * strides[axis]]! >= 0.5 &&
        !(present && present[c + (n - i) * strides[axis]] === 0);
      const [low, high] = [isMetal(i - 1) ? i - 1 : i, isMetal(i + 1) ? i + 1 : i];
      if (low === high) continue;
      const middle = (n: number): number => (edges[n]! + edges[n + 1]!) / 2;
      const rise = temperature[c + (high - i) * strides[axis]]! - temperature[c + (low - i) * strides[axis]]!;
      sum += (rise / (middle(high) - middle(low))) ** 2;
    }
    return Math.sqrt(sum);
  }
}

/** When a cell held `level`, s, between the steps as its heat went; never 0, which means not yet. */
const passedAt = (level: number, was: number, now: number, time: number, step: number): number =>
  Math.max(1e-3, was <= level ? 0 : time - (step * (level - now)) / (was - now));
