/** Heat conduction in a mould: a round cylinder in finite volumes, implicit in time, with heats of change. */
import { checkPositive, FoundryInputError } from '../input.js';

/** Heat taken up once, on first passing from one temperature to the other: water driven off. */
export interface LatentHeat {
  /** °C, from < to. */
  readonly from: number;
  readonly to: number;
  /** J/mm³ of mould. */
  readonly heat: number;
}

export interface ConductionBody {
  /** mm */
  readonly radius: number;
  /** mm, both ends at the skin's temperature; null for a cylinder so long that its ends do not matter. */
  readonly height: number | null;
  /** W/(mm·K) */
  readonly conductivity: number;
  /** J/(mm³·K) */
  readonly heatCapacity: number;
  /** W/(mm²·K) between the kiln and the skin; left out, the skin has the kiln's temperature. */
  readonly film?: number;
  readonly latent?: readonly LatentHeat[];
}

export interface ConductionGrid {
  /** Default 12. */
  readonly rings?: number;
  /** In half the height. Default 8. */
  readonly layers?: number;
}

/** A body in the course of being heated; `step` changes it. */
export interface ConductionState {
  /**
   * Goes on by a time.
   * @param seconds > 0; first order accurate, stable whatever its length
   * @param outside the temperature outside at the end of the step, °C
   */
  readonly step: (seconds: number, outside: number) => void;
  /** °C at the centre, from the two innermost cells by a parabola. */
  readonly core: () => number;
  /** °C of cells from the axis outward, at mid height. */
  readonly profile: () => readonly number[];
  /** J that came in through the skin, and that the body holds beyond its start: equal but for rounding. */
  readonly heatIn: () => number;
  readonly heatHeld: () => number;
}

/**
 * Conduction in a cylinder (r, z) symmetric about its axis and mid height, by finite volumes: implicit Euler, one
 * direction after the other (locally one-dimensional splitting: Marchuk; for equal skin all over it keeps the
 * product of the radial and the axial solution). Enthalpy form: each line is solved for the enthalpy by the
 * linearisation of Swaminathan & Voller (Metall. Trans. B 23, 1992, 651), so that heat is conserved. Implicit Euler
 * trails the true temperature a little: the lag comes out large rather than small.
 * @throws FoundryInputError for sizes or properties that are not positive.
 */
export function startConduction(
  body: ConductionBody,
  start: number,
  { rings = 12, layers = 8 }: ConductionGrid = {},
): ConductionState {
  const radius = checkPositive('radius', body.radius, 'mm');
  const k = checkPositive('conductivity', body.conductivity, 'W/(mm·K)');
  const curve = enthalpyCurve(
    checkPositive('heatCapacity', body.heatCapacity, 'J/(mm³·K)'),
    body.latent ?? [],
  );
  const rows = body.height === null ? 1 : layers;
  const half = body.height === null ? 1 : checkPositive('height', body.height, 'mm') / 2;
  const skinResistance = body.film === undefined ? 0 : 1 / checkPositive('film', body.film, 'W/(mm²·K)');

  const [dr, dz] = [radius / rings, half / rows];
  const area = (i: number): number => Math.PI * dr * dr * (2 * i + 1);
  const cells = rings * rows;
  const volume = Float64Array.from({ length: cells }, (_, n) => area(n % rings) * dz);
  const temperature = new Float64Array(cells).fill(start);
  const hottest = new Float64Array(cells).fill(start);
  const enthalpy = new Float64Array(cells).fill(curve.at(start));
  const begun = curve.at(start);
  /** W/K from cell i to the next outward, the last one to the outside. */
  const radial = Float64Array.from({ length: rings }, (_, i) =>
    i < rings - 1
      ? (k * 2 * Math.PI * (i + 1) * dr * dz) / dr
      : (2 * Math.PI * radius * dz) / (dr / (2 * k) + skinResistance),
  );
  const axial = (i: number): Float64Array =>
    Float64Array.from({ length: rows }, (_, j) =>
      j < rows - 1 ? (k * area(i)) / dz : area(i) / (dz / (2 * k) + skinResistance),
    );
  const columns = body.height === null ? [] : Array.from({ length: rings }, (_, i) => axial(i));
  const line = createLine(Math.max(rings, rows), curve, { temperature, hottest, enthalpy, volume });
  let heatIn = 0;

  return {
    step: (seconds, outside) => {
      for (let j = 0; j < rows; j++) heatIn += line(j * rings, 1, rings, radial, seconds, outside);
      for (const [i, conductance] of columns.entries())
        heatIn += line(i, rings, rows, conductance, seconds, outside);
      for (let n = 0; n < cells; n++) if (temperature[n]! > hottest[n]!) hottest[n] = temperature[n]!;
    },
    core: () => {
      const [first, second] = [temperature[0]!, temperature[rings > 1 ? 1 : 0]!];
      const above = temperature[rows > 1 ? rings : 0]!;
      return first - (second - first) / 8 - (above - first) / 8;
    },
    profile: () => Array.from(temperature.subarray(0, rings)),
    heatIn: () => (body.height === null ? heatIn : 2 * heatIn),
    heatHeld: () =>
      (body.height === null ? 1 : 2) * enthalpy.reduce((sum, h, n) => sum + (h - begun) * volume[n]!, 0),
  };
}

/** J/mm³ by temperature, straight between knots and beyond them; slopes on the pieces. */
interface EnthalpyCurve {
  readonly at: (temperature: number) => number;
  readonly temperatures: Float64Array;
  readonly enthalpies: Float64Array;
  /** One more than knots: before the first, between, after the last. */
  readonly slopes: Float64Array;
  readonly sensible: number;
}

function enthalpyCurve(sensible: number, latent: readonly LatentHeat[]): EnthalpyCurve {
  for (const l of latent) {
    if (!(l.heat >= 0 && l.to > l.from && Number.isFinite(l.heat + l.to - l.from)))
      throw new FoundryInputError('latent', JSON.stringify(l), 'heat must be 0 or more, and to above from');
  }
  const at = (t: number): number =>
    latent.reduce(
      (sum, l) => sum + l.heat * Math.min(1, Math.max(0, (t - l.from) / (l.to - l.from))),
      sensible * t,
    );
  const knots = [...new Set(latent.flatMap((l) => [l.from, l.to]))].sort((a, b) => a - b);
  const slopes = [
    sensible,
    ...knots.slice(1).map((t, i) => (at(t) - at(knots[i]!)) / (t - knots[i]!)),
    ...(knots.length > 0 ? [sensible] : []),
  ];
  return {
    at,
    temperatures: Float64Array.from(knots),
    enthalpies: Float64Array.from(knots, at),
    slopes: Float64Array.from(slopes),
    sensible,
  };
}

interface Cells {
  readonly temperature: Float64Array;
  /** Hottest each has been: latent heat below it is spent. */
  readonly hottest: Float64Array;
  readonly enthalpy: Float64Array;
  readonly volume: Float64Array;
}

type Line = (
  first: number,
  stride: number,
  count: number,
  conductance: Float64Array,
  seconds: number,
  outside: number,
) => number;

/** Solves one line of cells over one step in place; gives the J that came in at its outer end. */
function createLine(longest: number, curve: EnthalpyCurve, cells: Cells): Line {
  const { temperature, hottest, enthalpy, volume } = cells;
  const { temperatures, enthalpies, slopes, sensible } = curve;
  const [before, slope, upper, right] = [0, 1, 2, 3].map(() => new Float64Array(longest)) as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  /** Sets a cell's temperature by its enthalpy; gives the slope there. */
  const settle = (n: number): number => {
    const spent = hottest[n]!;
    const cold = spent + (enthalpy[n]! - curve.at(spent)) / sensible;
    if (cold < spent) {
      temperature[n] = cold;
      return sensible;
    }
    let piece = 0;
    while (piece < temperatures.length && enthalpy[n]! >= enthalpies[piece]!) piece++;
    const knot = Math.max(0, piece - 1);
    temperature[n] =
      temperatures.length === 0
        ? enthalpy[n]! / sensible
        : temperatures[knot]! + (enthalpy[n]! - enthalpies[knot]!) / slopes[piece]!;
    return slopes[piece]!;
  };

  return (first, stride, count, conductance, seconds, outside) => {
    for (let i = 0; i < count; i++) {
      const n = first + i * stride;
      before[i] = enthalpy[n]!;
      slope[i] = settle(n);
    }
    for (let round = 0; round < 60; round++) {
      // Thomas's algorithm for the change of temperature; the line's inner end is closed.
      let worst = 0;
      for (let i = 0; i < count; i++) {
        const n = first + i * stride;
        const [g, inner] = [conductance[i]! * seconds, i > 0 ? conductance[i - 1]! * seconds : 0];
        const t = temperature[n]!;
        const next = i < count - 1 ? temperature[n + stride]! : outside;
        const rest =
          g * (next - t) +
          (i > 0 ? inner * (temperature[n - stride]! - t) : 0) -
          volume[n]! * (enthalpy[n]! - before[i]!);
        const diagonal = volume[n]! * slope[i]! + g + inner - (i > 0 ? inner * upper[i - 1]! : 0);
        upper[i] = i < count - 1 ? g / diagonal : 0;
        right[i] = (rest + (i > 0 ? inner * right[i - 1]! : 0)) / diagonal;
        worst = Math.max(worst, Math.abs(rest) / (volume[n]! * sensible));
      }
      if (worst < 1e-9) break;
      for (let i = count - 2; i >= 0; i--) right[i] = right[i]! + upper[i]! * right[i + 1]!;
      for (let i = 0; i < count; i++) {
        const n = first + i * stride;
        enthalpy[n] = enthalpy[n]! + slope[i]! * right[i]!;
        slope[i] = settle(n);
      }
    }
    const last = first + (count - 1) * stride;
    return conductance[count - 1]! * seconds * (outside - temperature[last]!);
  };
}
