import type { GatingPlan } from '../../foundry/plans.js';
import { maths } from '../../maths/maths.js';
import type { Vec3 } from '../../solid/types.js';

/** Never "-0.0". */
const tenths = (mm: number): string => (Math.round(mm * 10) / 10 + 0).toFixed(1);

/** What a place is told by. */
export interface Landmarks {
  readonly gates: GatingPlan['gates'];
  /** z of the lowest metal, mm. */
  readonly bottom: number;
}

/** `26.0 mm up and 12.0 mm from the gate at rim 1`: straight to the nearest gate. Coordinates stand in the tables. */
export function placeText(at: Vec3, { gates, bottom }: Landmarks): string {
  const [x, y, z] = at;
  const up = `${tenths(z - bottom)} mm up`;
  const away = gates.map((g) => ({
    name: g.name,
    mm: maths.hypot(x - g.at[0], y - g.at[1], z - g.at[2]),
  }));
  if (away.length === 0) return up;
  const nearest = away.reduce((a, b) => (b.mm < a.mm ? b : a));
  return `${up} and ${tenths(nearest.mm)} mm from the gate at ${nearest.name}`;
}

/** `0.35 ml`, and mm³ of what is smaller than 0.1 ml. */
export const volumeText = (mm3: number): string =>
  mm3 < 100 ? `${mm3 < 10 ? mm3.toFixed(1) : mm3.toFixed(0)} mm³` : `${(mm3 / 1000).toFixed(2)} ml`;
