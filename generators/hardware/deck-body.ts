import type { BuildKit, GatePlace, VentPlace } from '../../core/part/contract.js';
import type { Stock } from '../../core/part/stock.js';
import { type Field, fieldSolid, type Outline, offsetOutline } from '../../core/shape/index.js';
import type { Solid, Vec3 } from '../../core/solid/types.js';
import { type Circle, flatRoom } from './flat-room.js';

/**
 * Fittings that stand on a deck are thought of with the deck at z = 0 and the fitting above. They are poured upside
 * down: the flat underside, which is faced anyway, is uppermost and takes gate and vents, and what grips the line
 * fills first and cleanest. The part's own coordinates are those of the pour: the deck's turned over about the X axis.
 */
export const poured = ([x, y, z]: Vec3): Vec3 => [x, -y, -z];

/** How far a body given as a field reaches under the deck, where it is cut off, mm. */
export const underDeck = 3;

/**
 * The solid of a fitting in its pouring position: the field's body with the skin's stock, cut off flat at the
 * underside with the mating stock, less the tools. The field must reach under the deck by `underDeck` and more than
 * the mating stock.
 */
export function deckSolid(
  field: Field,
  tools: readonly Solid[],
  stock: Stock,
  { kernel, tolerance }: BuildKit,
): Solid {
  const { min, max } = field.bounds;
  const reach = 10 + stock.skin;
  const below = kernel.box(
    [min[0] - reach, min[1] - reach, min[2] - reach],
    [max[0] + reach, max[1] + reach, -stock.mating],
  );
  const body = fieldSolid(kernel, field, tolerance, stock.skin);
  return body.subtract(below, ...tools).rotate('x', Math.PI);
}

/** No vent is named on a flat smaller than this, mm: the smallest of the usual vents. */
const leastVent = 1.5;
/** Wider vents are of no use, mm. */
const widestVent = 8;
/** Mould between a gate and a vent, mm. */
const ventToGate = 3.5;

/**
 * Gate in the middle of the underside, vents towards both ends, in pouring coordinates. `outline` is the finished
 * base's, symmetrical about both axes; `mouths` as they are in this state.
 */
export function undersidePlaces(
  outline: Outline,
  mouths: readonly Circle[],
  stock: Stock,
): { readonly gates: readonly GatePlace[]; readonly vents: readonly VentPlace[] } {
  const cast = stock.skin > 0 ? offsetOutline(outline, stock.skin) : outline;
  const room = flatRoom(cast, [], mouths);
  const gateRadius = room(0, 0);
  let end = 0;
  const inside = flatRoom(cast);
  while (inside(end, 0) > 0) end += 0.5;
  const best = { x: 0, radius: 0 };
  const tries = 200;
  for (let i = 0; i <= tries; i++) {
    const x = (end * i) / tries;
    const radius = Math.min(room(x, 0), x - gateRadius - ventToGate, widestVent / 2);
    // The further out the better, as long as the vent is not smaller.
    if (radius >= best.radius - 1e-9) Object.assign(best, { x, radius });
  }
  const z = stock.mating;
  return {
    gates: [
      { name: 'middle of the underside', at: [0, 0, z], innerDiameter: 0, outerDiameter: 2 * gateRadius },
    ],
    vents:
      2 * best.radius < leastVent
        ? []
        : [
            { name: 'underside, one end', at: [best.x, 0, z], footDiameter: 2 * best.radius },
            { name: 'underside, other end', at: [-best.x, 0, z], footDiameter: 2 * best.radius },
          ],
  };
}
