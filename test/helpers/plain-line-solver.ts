import type { Surroundings } from '../../core/freeze/heat-problem.js';
import type { PlainField } from './plain-heat-field.js';

/** W/(mm²·K⁴): Stefan and Boltzmann (CODATA 2018). */
const stefanBoltzmann = 5.670374419e-14;

/** Times a line is solved anew because cells have left their straight piece of the heat law. */
const corrections = 6;

/**
 * One implicit step along lines of cells. A class for its scratch arrays alone: lines are solved by the hundred
 * thousand, and what they work with is made once.
 */
export class PlainLineSolver {
  readonly #lengths: Float64Array;
  readonly #conduct: Float64Array;
  readonly #capacity: Float64Array;
  /** °C that the cell's heat would give on the whole line of its piece. */
  readonly #before: Float64Array;
  readonly #pieces: Uint8Array;
  readonly #after: Float64Array;
  readonly #upper: Float64Array;
  readonly #right: Float64Array;

  constructor(
    readonly field: PlainField,
    readonly seconds: number,
    /** W/(mm·K) by cell. */
    readonly conductivity: Float64Array,
    /** mm²·K/W at the face above each cell. */
    readonly faces: Float32Array,
    edges: Float64Array,
    readonly stride: number,
    /** Whether the ends let no heat through. */
    readonly closed: boolean,
    /** True area over that of the cells' faces to the surroundings. */
    readonly exposed: number,
  ) {
    const n = edges.length;
    this.#lengths = new Float64Array(n).map((_, i) => (i + 1 < n ? edges[i + 1]! - edges[i]! : 0));
    this.#conduct = new Float64Array(n);
    this.#capacity = new Float64Array(n);
    this.#before = new Float64Array(n);
    this.#pieces = new Uint8Array(n);
    this.#after = new Float64Array(n);
    this.#upper = new Float64Array(n);
    this.#right = new Float64Array(n);
  }

  /** The run of `count` cells from number `from` of the line that begins at cell `first`; J/mm² lost at its ends. */
  solve(first: number, from: number, count: number, around: Surroundings): number {
    const { field, stride, seconds, conductivity, faces } = this;
    const { heat, temperature, content } = field;
    const { share } = field.problem;
    const { solidus, liquidus, below, within, above } = heat;
    const lengths = this.#lengths;
    const conduct = this.#conduct;
    const pieces = this.#pieces;
    const after = this.#after;
    const start = first + from * stride;

    let cell = start;
    let halfBefore = 0;
    for (let i = 0; i < count; i++, cell += stride) {
      const half = lengths[from + i]! / (2 * conductivity[cell]!);
      // The face before cell i, W/(mm²·K).
      conduct[i] =
        i === 0 ? this.#outward(cell, half, around) : 1 / (halfBefore + half + faces[cell - stride]!);
      halfBefore = half;
      const now = content[cell]!;
      pieces[i] = now <= 0 ? 0 : now <= within[cell]! * (liquidus - solidus) ? 1 : 2;
      this.#takePiece(i, cell);
    }
    const last = start + (count - 1) * stride;
    conduct[count] = this.#outward(last, halfBefore, around);

    for (let round = 0; ; round++) {
      this.#eliminate(from, count, around.temperature);
      if (round === corrections) break;
      let settled = true;
      cell = start;
      for (let i = 0; i < count; i++, cell += stride) {
        // Mould alone has one heat capacity.
        if (share[cell] === 0) continue;
        const t = after[i]!;
        const way = Math.sign((t <= solidus ? 0 : t <= liquidus ? 1 : 2) - pieces[i]!);
        if (way === 0) continue;
        settled = false;
        pieces[i] = pieces[i]! + way;
        this.#takePiece(i, cell);
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

  /** Puts cell `i` of the run on its piece of the heat law. */
  #takePiece(i: number, cell: number): void {
    const { heat, content } = this.field;
    const { solidus, liquidus, below, within, above } = heat;
    const piece = this.#pieces[i]!;
    const slope = [below, within, above][piece]![cell]!;
    const lift = piece === 2 ? (above[cell]! - within[cell]!) * (liquidus - solidus) : 0;
    this.#capacity[i] = slope;
    this.#before[i] = solidus + (content[cell]! + lift) / slope;
  }

  /** To the surroundings through half a cell, W/(mm²·K). */
  #outward(cell: number, half: number, around: Surroundings): number {
    if (this.closed) return 0;
    const { temperature, problem } = this.field;
    const { emissivity, metalEmissivity = emissivity } = around;
    const own = emissivity + problem.share[cell]! * (metalEmissivity - emissivity);
    const [a, b] = [temperature[cell]! + 273.15, around.temperature + 273.15];
    const film = this.exposed * (around.convection + own * stefanBoltzmann * (a * a + b * b) * (a + b));
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
