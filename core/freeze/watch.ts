import { leastShare } from './cast-fields.js';
import type { HeatField } from './heat-field.js';

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
  readonly #last: Float64Array;
  readonly #lastTemperature: Float64Array;
  /** Faces between metal and mould: pairs of cells, metal first. */
  readonly #faces: readonly (readonly [number, number, number, number])[];
  #open: number[] = [];

  constructor(readonly field: HeatField) {
    const { share, present, grid } = field.problem;
    const n = grid.size;
    this.#stopsAt = new Float32Array(n);
    this.#solidAt = new Float32Array(n);
    this.#gradient = new Float32Array(n);
    this.#coolingRate = new Float32Array(n);
    this.#facePeak = new Float32Array(n);
    this.#last = new Float64Array(n);
    this.#lastTemperature = new Float64Array(n);
    for (let c = 0; c < n; c++)
      if (share[c]! >= leastShare && !(present && present[c] === 0)) this.#open.push(c);
    this.all = this.#open.length;
    this.#faces = metalFaces(field);
    this.#seeFaces();
  }

  /** Cells not solid yet. */
  get open(): number {
    return this.#open.length;
  }

  before(): void {
    const { content, temperature } = this.field;
    for (const c of this.#open) {
      this.#last[c] = content[c]!;
      this.#lastTemperature[c] = temperature[c]!;
    }
  }

  after(step: number): void {
    const { content, temperature, heat, time } = this.field;
    const range = heat.liquidus - heat.solidus;
    const still: number[] = [];
    for (const c of this.#open) {
      const [was, now] = [this.#last[c]!, content[c]!];
      const full = heat.within[c]! * range;
      /** s at which the cell held `level`, between the steps as its heat goes. */
      const passed = (level: number): number =>
        was <= level ? 0 : Math.max(0, time - (step * (level - now)) / (was - now));
      const stops = (1 - stopFraction) * full;
      if (now <= stops && this.#stopsAt[c] === 0) this.#stopsAt[c] = Math.max(1e-3, passed(stops));
      const nearlySolid = lastLiquid * full;
      if (now <= nearlySolid && this.#gradient[c] === 0) {
        this.#gradient[c] = Math.max(1e-6, this.#gradientAt(c));
        this.#coolingRate[c] = Math.max(1e-6, (this.#lastTemperature[c]! - temperature[c]!) / step);
      }
      if (now > 0) still.push(c);
      else this.#solidAt[c] = Math.max(1e-3, passed(0));
    }
    this.#open = still;
    this.#seeFaces();
  }

  close(): Watched {
    for (const c of this.#open) this.#solidAt[c] = Number.POSITIVE_INFINITY;
    return {
      stopsAt: this.#stopsAt,
      solidAt: this.#solidAt,
      gradient: this.#gradient,
      coolingRate: this.#coolingRate,
      facePeak: this.#facePeak,
    };
  }

  #seeFaces(): void {
    const { temperature } = this.field;
    for (const [metal, mould, toMetal, toMould] of this.#faces) {
      // The mould's side of the face: the contact's own resistance counts with the metal.
      const t = (temperature[metal]! * toMetal + temperature[mould]! * toMould) / (toMetal + toMould);
      if (t > this.#facePeak[mould]!) this.#facePeak[mould] = t;
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

/** Faces where at least half metal meets less than half: both cells, and W/(mm²·K) from each middle to the mould's face. */
function metalFaces({ problem }: HeatField): readonly (readonly [number, number, number, number])[] {
  const { grid, share, present, metal, mould, contactResistance } = problem;
  const [nx, ny, nz] = grid.counts;
  const strides = [1, nx, nx * ny] as const;
  const faces: (readonly [number, number, number, number])[] = [];
  const there = (c: number): boolean => !(present && present[c] === 0);
  for (let k = 0; k < nz; k++)
    for (let j = 0; j < ny; j++)
      for (let i = 0; i < nx; i++) {
        const c = i + nx * (j + ny * k);
        for (const axis of [0, 1, 2] as const) {
          const n = [i, j, k][axis]!;
          if (n + 1 >= grid.counts[axis]) continue;
          const next = c + strides[axis];
          if (share[c]! >= 0.5 === share[next]! >= 0.5 || !there(c) || !there(next)) continue;
          const edges = grid.edges[axis];
          const half = (cell: number): number => (edges[cell + 1]! - edges[cell]!) / 2;
          const [m, w, hm, hw] =
            share[c]! >= 0.5 ? [c, next, half(n), half(n + 1)] : [next, c, half(n + 1), half(n)];
          faces.push([m, w, 1 / (hm / metal.conductivity.solid + contactResistance), mould.conductivity / hw]);
        }
      }
  return faces;
}
