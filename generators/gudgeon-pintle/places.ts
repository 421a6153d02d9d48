import { maths } from '../../core/maths/maths.js';
import type { GatePlace, VentPlace } from '../../core/part/contract.js';
import type { Stock } from '../../core/part/stock.js';
import { offsetOutline } from '../../core/shape/index.js';
import type { Vec2 } from '../../core/solid/types.js';
import { flatRoom, roomiest } from '../hardware/flat-room.js';
import { rootFilletIn, tipInset } from './body.js';
import { planOutline } from './outline.js';
import type { RudderSizes } from './sizes.js';
import { outerHalf } from './strap-shape.js';

const leastVent = 1.5;
const widestVent = 3;
/** Mould between a gate and a vent, mm. */
const ventToGate = 3.5;

/**
 * Metal enters on the web or plate behind the pin, or at the pin's tip if that has more room, or on a boss left solid;
 * air leaves at the ends.
 */
export function rudderPlaces(
  s: RudderSizes,
  stock: Stock,
  bossSolid: boolean,
): { readonly gates: readonly GatePlace[]; readonly vents: readonly VentPlace[] } {
  const { mating, face } = stock;
  const top = s.width + face;
  const keepOff = s.castPin
    ? s.pinDiameter / 2 + mating + rootFilletIn(s, stock) + 0.4
    : s.holeDiameter / 2 + s.chamfer + face;
  const solid = bossSolid && !s.castPin;
  const room = flatRoom(
    offsetOutline(planOutline(s), -s.edge),
    [],
    solid ? [] : [{ at: [0, 0], radius: keepOff }],
  );
  const half = s.mount === 'strap' ? outerHalf(s) : s.reach;
  const web = roomiest(room, {
    x: [-s.bossRadius, s.standOff],
    y: [0, s.mount === 'strap' ? half : s.bossRadius],
  });
  const onWeb: GatePlace = {
    name: solid ? 'boss' : s.mount === 'strap' ? 'web, beside the pin' : 'plate, beside the boss',
    at: [web.at[0], web.at[1], top],
    innerDiameter: 0,
    outerDiameter: 2 * web.radius,
  };
  const tipHeight = s.width + s.pintleLength + mating;
  const tipRadius = s.pinDiameter / 2 + mating - tipInset(s, stock) - 0.1;
  const onTip: GatePlace = {
    name: "pin's tip",
    at: [0, 0, tipHeight],
    innerDiameter: 0,
    outerDiameter: 2 * tipRadius,
  };
  const tipFirst = s.castPin && tipRadius > web.radius;
  const gate = tipFirst ? onTip : onWeb;
  const ends: readonly Vec2[] =
    s.mount === 'strap'
      ? [1, -1].map(
          (hand): Vec2 => [s.standOff + s.reach - s.thickness / 2 - 1, hand * (s.wood / 2 + s.thickness / 2)],
        )
      : [1, -1].map((hand): Vec2 => [(s.front + s.standOff) / 2, hand * (s.reach - s.thickness / 2 - 1)]);
  const vents: VentPlace[] = [];
  if (s.castPin && !tipFirst) {
    vents.push({
      name: "pin's tip",
      at: [0, 0, tipHeight],
      footDiameter: Math.min(widestVent, 2 * tipRadius),
    });
  }
  for (const [x, y] of ends) {
    const foot = 2 * Math.min(room(x, y), widestVent / 2);
    const clear = maths.hypot(x - gate.at[0], y - gate.at[1]) - gate.outerDiameter / 2 - foot / 2;
    if (foot < leastVent || clear < ventToGate) continue;
    vents.push({
      name: s.mount === 'strap' ? 'end of a strap' : 'end of the plate',
      at: [x, y, top],
      footDiameter: foot,
    });
  }
  return { gates: s.castPin ? (tipFirst ? [onTip, onWeb] : [onWeb, onTip]) : [onWeb], vents };
}
