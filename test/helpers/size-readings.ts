import { expect } from 'vitest';
import type { DimensionRow, PartSummary } from '../../core/job/summary.js';
import { sizeOverBalls, sizeOverNeighbours, sizeOverThreeBalls } from './ball-gauge.js';
import {
  chordAtHeight,
  type GearToMeasure,
  measureGear,
  spanOverTeeth,
  toothDirections,
} from './gear-gauge.js';
import { measurePull } from './pull-gauge.js';
import type { WeldedMesh } from './welded-mesh.js';

export const gearOf = (part: PartSummary, mesh: WeldedMesh): GearToMeasure => ({
  mesh,
  teeth: part.parameters.teeth as number,
  halves: part.part === 'double-helical-gear' ? 2 : 1,
});

type Sizes = Readonly<Record<string, number | undefined>>;

/** What a bench finds on the mesh, by the symbols of the summary. */
export function measure(
  part: PartSummary,
  mesh: WeldedMesh,
  row: (symbol: string) => number,
  grown: number,
): Sizes {
  if (part.part === 'hatch-pull') return measurePull(mesh);
  const gear = gearOf(part, mesh);
  const { half, tipRadius, rootRadius, ...sizes } = measureGear(gear);
  const listed = part.dimensions.map((d) => d.symbol);
  const more: Record<string, number> = { ...reference(part, grown), ...leadOf(part, gear) };
  for (const symbol of listed) {
    const [kind, pin] = symbol.split('_') as [string, string];
    // Over root pins is measured like any other: a small ball comes to rest on the root.
    if (kind === 'M' || kind === 'R') more[symbol] = sizeOverBalls(gear, Number(pin));
    if (kind === 'M3') more[symbol] = sizeOverThreeBalls(gear, Number(pin));
    if (kind === 'P') more[symbol] = sizeOverNeighbours(gear, Number(pin));
  }
  more.τ = indexOf(gear);
  for (const [chord, height] of [
    ['s_c', 'h_c'],
    ['s_cc', 'h_cc'],
  ] as const) {
    if (!listed.includes(height)) continue;
    // The height is where the tongue is set; the chord is what is read there.
    more[height] = row(height);
    more[chord] = chordAtHeight(gear, row(height));
  }
  const span = part.dimensions.find((d) => d.symbol.startsWith('W_'));
  if (!span) return { ...sizes, ...more };
  const reading = spanOverTeeth(gear, Number(span.symbol.slice(2)));
  // A reading counts when the jaws touch the flanks, to within the facets, and not only the ends of their reach.
  expect(reading.span - reading.middleSpan).toBeLessThan(2 * 0.01);
  return { ...sizes, ...more, [span.symbol]: reading.span };
}

/** Middle one of the turns from each tooth to the next. */
function indexOf(gear: GearToMeasure): number {
  const { half } = measureGear(gear);
  const turns = [...toothDirections(gear, (half[0] + half[1]) / 2)].sort((a, b) => a - b);
  const steps = turns.slice(1).map((turn, i) => turn - (turns[i] as number));
  return [...steps].sort((a, b) => a - b)[Math.floor(steps.length / 2)] as number;
}

const number = (part: PartSummary, name: string): number =>
  (part.parameters[name] as number | undefined) ?? 0;

/**
 * Calculated sizes, written down once more from ISO 21771: d = z m_n / cos β, and d_b from the base pitch,
 * z p_bn / (π cos β_b); stock changes neither.
 */
function reference(part: PartSummary, grown: number): { readonly d: number; readonly d_b: number } {
  const [m, z, alpha, beta] = ['module', 'teeth', 'pressureAngle', 'helixAngle'].map((n) =>
    number(part, n),
  ) as [number, number, number, number];
  const cosBaseHelix = Math.sqrt(1 - (Math.sin(beta) * Math.cos(alpha)) ** 2);
  return { d: (grown * z * m) / Math.cos(beta), d_b: (grown * z * m * Math.cos(alpha)) / cosBaseHelix };
}

/** Between which heights the lead is taken. */
function leadHeights(gear: GearToMeasure): readonly [number, number] {
  const { half } = measureGear(gear);
  const inset = 0.2 * (half[1] - half[0]);
  return [half[0] + inset, half[1] - inset];
}

/** Lead and axial pitch as a bench finds them: how far one tooth turns from one height to another. */
function leadOf(part: PartSummary, gear: GearToMeasure): Record<string, number> {
  if (part.part === 'spur-gear') return {};
  const [low, high] = leadHeights(gear);
  const pitch = (2 * Math.PI) / gear.teeth;
  const steps = 8;
  let turned = 0;
  for (let i = 0; i < steps; i++) {
    const at = (k: number): number => toothDirections(gear, low + (k / steps) * (high - low))[0] as number;
    const turn = at(i + 1) - at(i);
    turned += turn - pitch * Math.round(turn / pitch);
  }
  const lead = (2 * Math.PI * (high - low)) / Math.abs(turned);
  return { p_z: lead, p_x: lead / gear.teeth };
}

/**
 * The chord tolerance, 0.01 mm on part and pattern, for each curved surface a reading lies between: two for these,
 * one for the rest. On a radius it counts once and so on a diameter twice.
 */
const twoSurfaces = /^(d_f|R_[\d.]+|d_h|D|W_\d+|s_c|s_cc|w_e|l_e)$/;
/**
 * What the chord tolerance `chord` on each flank makes of a reading. A ball in its space sinks by chord / (sin φ
 * cos β_b), φ being the angle of its wedge in the section; each of the two directions that a lead is found from
 * turns by chord at the reference circle.
 */
export function allowance(part: PartSummary, row: DimensionRow, mesh: WeldedMesh, chord: number): number {
  if (row.unit === 'rad') return 1e-4;
  const { d, d_b } = reference(part, 1);
  if (row.role === 'reference' && /^d(_b)?$/.test(row.symbol)) return 1e-9;
  if (/^(M|M3|P)_/.test(row.symbol)) {
    const cosBaseHelix =
      (number(part, 'module') * number(part, 'teeth') * Math.cos(number(part, 'pressureAngle'))) / d_b;
    const between = row.part - Number(row.symbol.split('_')[1]);
    // Centres lie on a circle; neighbours are a pitch apart on it.
    const apart = Math.sin(Math.PI / number(part, 'teeth'));
    const centres = row.symbol.startsWith('P') ? between / apart : between;
    const sinks = (2 * chord) / (Math.sqrt(1 - (d_b / centres) ** 2) * cosBaseHelix);
    if (!row.symbol.startsWith('P')) return sinks;
    // Neighbours come together as they sink, and each may be pushed aside along its wedge's other side.
    return sinks * apart + (2 * chord) / ((d_b / centres) * cosBaseHelix);
  }
  if (/^p_[zx]$/.test(row.symbol)) {
    const [low, high] = leadHeights(gearOf(part, mesh));
    const lead = row.symbol === 'p_z' ? row.part : row.part * number(part, 'teeth');
    return (row.part * (2 * chord) * lead) / ((d / 2) * 2 * Math.PI * (high - low));
  }
  return chord * (twoSurfaces.test(row.symbol) ? 2 : 1);
}

/** Sizes that lie across X–Y and Z at once: on the file they hold where the printer is corrected alike in both. */
export const oblique = (part: PartSummary, { symbol, unit }: DimensionRow): boolean =>
  unit === 'rad' ||
  symbol === 'r_s' ||
  (/^(W_|s_c|M3?_|P_|R_)/.test(symbol) && part.part !== 'spur-gear') ||
  (symbol === 'd_h' && part.part === 'hatch-pull');
