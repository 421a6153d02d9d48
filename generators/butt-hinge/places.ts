import { maths } from '../../core/maths/maths.js';
import type { GatePlace, VentPlace } from '../../core/part/contract.js';
import type { Stock } from '../../core/part/stock.js';
import type { Vec2 } from '../../core/solid/types.js';
import { barrelVents } from '../hinge/barrel-vents.js';
import { faceStart, grownSection } from '../hinge/knuckle-section.js';
import { knuckleSpans, type LeafSide } from '../hinge/knuckles.js';
import { axisHeight, faceHeight } from './body.js';
import type { ButtHingeSizes } from './sizes.js';

/** Kept between the rim of a gate or vent and the edge of the flat it stands on, mm. */
const margin = 0.1;
/** No vent is named on a place smaller than this, mm. */
const leastVent = 1.5;
const widestVent = 3;
/** Mould between a gate and a vent, mm. */
const ventToGate = 3.5;

/** Metal enters on the inner face, between the screws; air leaves at the top of every knuckle and at the free corners. */
export function leafPlaces(
  s: ButtHingeSizes,
  side: LeafSide,
  stock: Stock,
): { readonly gates: readonly GatePlace[]; readonly vents: readonly VentPlace[] } {
  const { skin } = stock;
  const section = grownSection(s.section, skin);
  const face = faceHeight(s) + skin;
  const from = Math.max(faceStart(section), s.notchFloor);
  const to = section.reach - section.edge;
  const half = s.length / 2 + skin - section.edge;
  const mouth = s.screw.seat.mouthDiameter / 2 + skin;
  const room = (x: number, y: number): number =>
    Math.min(
      x - from,
      to - x,
      half - Math.abs(y),
      ...s.screwsAt.map(([sx, sy]) => maths.hypot(x - sx, y - sy) - mouth),
    ) - margin;
  const gate = widest(room, from, to, half);
  const vents: VentPlace[] = [...barrelVents(section, knuckleSpans(s.row, side), axisHeight(s))];
  for (const hand of [1, -1]) {
    const inset = widestVent / 2 + margin;
    const at: Vec2 = [to - inset, hand * (half - inset)];
    const foot = 2 * Math.min(room(at[0], at[1]), widestVent / 2);
    const clear = maths.hypot(at[0] - gate.x, at[1] - gate.y) - gate.radius - foot / 2;
    if (foot < leastVent || clear < ventToGate) continue;
    vents.push({ name: 'corner of the leaf', at: [at[0], at[1], face], footDiameter: foot });
  }
  return {
    gates: [
      {
        name: 'inner face',
        at: [gate.x, gate.y, face],
        innerDiameter: 0,
        outerDiameter: Math.max(0, 2 * gate.radius),
      },
    ],
    vents,
  };
}

interface Circle {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

/** The largest circle on the flat; of nearly equal ones that nearest its middle. */
function widest(room: (x: number, y: number) => number, from: number, to: number, half: number): Circle {
  const [nx, ny] = [24, 60];
  const middle = (from + to) / 2;
  let best: Circle = { x: middle, y: 0, radius: room(middle, 0) };
  const worth = (c: Circle): number => c.radius - 0.02 * maths.hypot(c.x - middle, c.y);
  for (let i = 1; i < nx; i++) {
    for (let j = 0; j <= ny; j++) {
      const x = from + ((to - from) * i) / nx;
      const y = half * ((2 * j) / ny - 1);
      const c = { x, y, radius: room(x, y) };
      if (worth(c) > worth(best)) best = c;
    }
  }
  return best;
}
