import type { HeatField } from './heat-field.js';
import type { Surroundings } from './heat-problem.js';

/** W/(mm²·K⁴): Stefan and Boltzmann (CODATA 2018). */
const stefanBoltzmann = 5.670374419e-14;

/** Corrections of the heat capacity by the chord over the step: a cell that passes the freezing range needs them. */
const corrections = 2;

/**
 * One implicit step along lines of cells. A class for its scratch arrays alone: lines are solved by the hundred
 * thousand, and what they work with is made once.
 */
export class LineSolver {
  readonly #lengths: Float64Array;
  readonly #conduct: Float64Array;
  readonly #capacity: Float64Array;
  readonly #before: Float64Array;
  readonly #after: Float64Array;
  readonly #upper: Float64Array;
  readonly #right: Float64Array;

  constructor(
    readonly field: HeatField,
    readonly seconds: number,
    /** W/(mm·K) by cell. */
    readonly conductivity: Float64Array,
    edges: Float64Array,
    readonly stride: number,
    /** Whether the ends let no heat through. */
    readonly closed: boolean,
  ) {
    const n = edges.length;
    this.#lengths = new Float64Array(n).map((_, i) => (i + 1 < n ? edges[i + 1]! - edges[i]! : 0));
    this.#conduct = new Float64Array(n);
    this.#capacity = new Float64Array(n);
    this.#before = new Float64Array(n);
    this.#after = new Float64Array(n);
    this.#upper = new Float64Array(n);
    this.#right = new Float64Array(n);
  }

  /** The run of `count` cells from number `from` of the line that begins at cell `first`; J/mm² lost at its ends. */
  solve(first: number, from: number, count: number, around: Surroundings): number {
    const { field, stride, seconds, conductivity } = this;
    const { heat, temperature, content } = field;
    const { share, contactResistance } = field.problem;
    const { solidus, liquidus, below, within, above } = heat;
    const lengths = this.#lengths;
    const conduct = this.#conduct;
    const capacity = this.#capacity;
    const before = this.#before;
    const after = this.#after;
    const start = first + from * stride;

    let cell = start;
    let halfBefore = 0;
    let shareBefore = 0;
    for (let i = 0; i < count; i++, cell += stride) {
      const half = lengths[from + i]! / (2 * conductivity[cell]!);
      const s = share[cell]!;
      // The face before cell i, W/(mm²·K).
      conduct[i] =
        i === 0
          ? this.#outward(temperature[cell]!, half, around)
          : 1 / (halfBefore + half + contactResistance * Math.abs(s - shareBefore));
      halfBefore = half;
      shareBefore = s;
      const t = temperature[cell]!;
      before[i] = t;
      capacity[i] = t <= solidus ? below[cell]! : t <= liquidus ? within[cell]! : above[cell]!;
    }
    const last = start + (count - 1) * stride;
    conduct[count] = this.#outward(temperature[last]!, halfBefore, around);

    for (let round = 0; ; round++) {
      this.#eliminate(from, count, around.temperature);
      if (round === corrections) break;
      let settled = true;
      cell = start;
      for (let i = 0; i < count; i++, cell += stride) {
        // Mould alone has one heat capacity.
        if (share[cell] === 0) continue;
        const t = after[i]!;
        const change = t - before[i]!;
        if (change < 1e-7 && change > -1e-7) continue;
        const reached =
          t <= solidus
            ? below[cell]! * (t - solidus)
            : t <= liquidus
              ? within[cell]! * (t - solidus)
              : within[cell]! * (liquidus - solidus) + above[cell]! * (t - liquidus);
        const chord = (reached - content[cell]!) / change;
        if (Math.abs(chord - capacity[i]!) > 1e-4 * chord) settled = false;
        capacity[i] = chord;
      }
      if (settled) break;
    }

    cell = start;
    let flow = conduct[0]! * (around.temperature - after[0]!);
    const lostFirst = -flow;
    for (let i = 0; i < count; i++, cell += stride) {
      const next =
        i + 1 < count
          ? conduct[i + 1]! * (after[i]! - after[i + 1]!)
          : conduct[count]! * (after[i]! - around.temperature);
      const now = content[cell]! + ((flow - next) * seconds) / lengths[from + i]!;
      content[cell] = now;
      const full = within[cell]! * (liquidus - solidus);
      temperature[cell] =
        now <= 0
          ? solidus + now / below[cell]!
          : now <= full
            ? solidus + now / within[cell]!
            : liquidus + (now - full) / above[cell]!;
      flow = next;
    }
    return seconds * (lostFirst + flow);
  }

  /** To the surroundings through half a cell, W/(mm²·K). */
  #outward(temperature: number, half: number, around: Surroundings): number {
    if (this.closed) return 0;
    const [a, b] = [temperature + 273.15, around.temperature + 273.15];
    const film = around.convection + around.emissivity * stefanBoltzmann * (a * a + b * b) * (a + b);
    return film === 0 ? 0 : 1 / (half + 1 / film);
  }

  /** The tridiagonal system of the implicit step (Thomas), into `after`. */
  #eliminate(from: number, count: number, outside: number): void {
    const lengths = this.#lengths;
    const conduct = this.#conduct;
    const capacity = this.#capacity;
    const before = this.#before;
    const after = this.#after;
    const upper = this.#upper;
    const right = this.#right;
    const perSecond = 1 / this.seconds;
    let u = 0;
    let r = outside;
    for (let i = 0; i < count; i++) {
      const inertia = capacity[i]! * lengths[from + i]! * perSecond;
      const [a, c] = [conduct[i]!, conduct[i + 1]!];
      const middle = 1 / (inertia + a * (1 - u) + c);
      r = (inertia * before[i]! + a * r + (i + 1 === count ? c * outside : 0)) * middle;
      u = i + 1 === count ? 0 : c * middle;
      upper[i] = u;
      right[i] = r;
    }
    let t = 0;
    for (let i = count - 1; i >= 0; i--) {
      t = right[i]! + upper[i]! * t;
      after[i] = t;
    }
  }
}
