/** How a bare shell cools on its way from the kiln to the metal. */
import { maths } from '../../maths/maths.js';
import { checkPositive, checkRange } from '../input.js';
import type { Investment } from '../investment.js';
import { roomTemperature, stefanBoltzmann, stillAir } from '../surroundings.js';

export interface CoolingShell {
  readonly mould: Pick<Investment['mould'], 'density' | 'specificHeat' | 'conductivity'>;
  /** mm */
  readonly thickness: number;
}

export interface Surroundings {
  /** °C, default 20. */
  readonly air?: number;
  /** Default 0.9: rough fused silica with stucco (from memory: 0.8 to 0.95). */
  readonly emissivity?: number;
  /** W/(mm²·K) to still air; default 10e-6 (from memory: 5 to 25 W/(m²·K)). */
  readonly film?: number;
}

const kelvin = 273.15;
const cells = 12;

/**
 * °C of the shell's inner face after a time in the open: a plate that loses heat by radiation and to still air at its
 * outer face, none at its inner one (the cavity is closed and as hot all round). Explicit finite volumes, at most half
 * of the steps' stable length.
 * @param from °C all through, at the start
 * @param seconds ≥ 0
 */
export function coolShell(shell: CoolingShell, from: number, seconds: number, at: Surroundings = {}): number {
  const thickness = checkPositive('thickness', shell.thickness, 'mm');
  checkRange('seconds', seconds, 0, 24 * 3600, 's');
  const { air = roomTemperature, emissivity = 0.9, film = stillAir } = at;
  const { conductivity, density, specificHeat } = shell.mould;
  const dx = thickness / cells;
  const capacity = density * specificHeat * dx;
  const conductance = conductivity / dx;
  const strongest = film + 4 * emissivity * stefanBoltzmann * maths.pow(Math.max(from, air) + kelvin, 3);
  const steps = Math.ceil((seconds * 2 * (2 * conductance + strongest)) / capacity);
  const t = new Float64Array(cells).fill(from);
  // The outermost cell's middle is half a cell under its face: the two resistances are in series.
  const lost = (middle: number): number => {
    const radiated =
      emissivity * stefanBoltzmann * (maths.pow(middle + kelvin, 4) - maths.pow(air + kelvin, 4));
    const free = radiated + film * (middle - air);
    return middle === air ? 0 : free / (1 + free / (2 * conductance * (middle - air)));
  };
  const flow = new Float64Array(cells + 1);
  for (let step = 0; step < steps; step++) {
    for (let i = 1; i < cells; i++) flow[i] = conductance * (t[i - 1]! - t[i]!);
    flow[cells] = lost(t[cells - 1]!);
    for (let i = 0; i < cells; i++) t[i]! += ((flow[i]! - flow[i + 1]!) * seconds) / steps / capacity;
  }
  return t[0]!;
}

/** s from the kiln's door to metal in the cup, walked through cold. Common practice, no source. */
export const usualCarry = 30;

/**
 * °C at which a shell must leave the kiln for its inner face to have `wanted` when the metal comes.
 * @param hottest °C, not exceeded, though the shell be colder then
 */
export function leavesKilnAt(
  shell: CoolingShell,
  wanted: number,
  hottest: number,
  seconds = usualCarry,
): number {
  let [low, high] = [wanted, Math.max(wanted, hottest)];
  if (coolShell(shell, high, seconds) <= wanted) return high;
  while (high - low > 0.5) {
    const middle = (low + high) / 2;
    if (coolShell(shell, middle, seconds) < wanted) low = middle;
    else high = middle;
  }
  return high;
}
