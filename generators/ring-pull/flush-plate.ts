import { maths } from '../../core/maths/maths.js';
import type { BuildKit, GatePlace, VentPlace } from '../../core/part/contract.js';
import type { Stock } from '../../core/part/stock.js';
import {
  obroundOutline,
  offsetOutline,
  plateSolid,
  recessCutter,
  roundEdge,
} from '../../core/shape/index.js';
import type { Solid } from '../../core/solid/types.js';
import { flatRoom, leastRoom, roomiest } from '../hardware/flat-room.js';
import { type ScrewHolePlan, screwHoleTools } from '../hardware/screw-holes.js';
import {
  cupOutline,
  type FlushLayout,
  faceEdge,
  flangeOutline,
  flushLayout,
  grooveHalf,
  seatOutline,
  wellOutline,
  wellRim,
} from './flush-sizes.js';
import type { RingPullSizes } from './sizes.js';

/**
 * The flush plate, face up: a flange with a cup under it. The ring's seat, a finger well in its middle, and from below
 * a groove for the pin, whose closed side bears the pull. Eye's centre on the Z axis, the cup's bottom at z = 0.
 */
export function flushPlateSolid(
  s: RingPullSizes,
  stock: Stock,
  plans: { readonly groove: boolean; readonly screws: ScrewHolePlan },
  kit: BuildKit,
): Solid {
  const { kernel, tolerance } = kit;
  const { skin, mating, face } = stock;
  const at = flushLayout(s);
  const { fillets } = at;
  const flange = plateSolid(
    kernel,
    { outline: flangeOutline(at), z0: at.flangeUnder, z1: at.top, topEdge: roundEdge(faceEdge) },
    tolerance,
    { side: skin, top: face, bottom: mating },
  );
  // A cup under a face is what a recess in it would take away, only outside in.
  const outwards = { side: -skin, top: -mating, bottom: -skin };
  const cup = recessCutter(
    kernel,
    {
      outline: cupOutline(s, at),
      face: at.flangeUnder,
      depth: at.flangeUnder - at.cupUnder,
      floorFillet: fillets.outside,
      rim: roundEdge(fillets.under),
    },
    tolerance,
    outwards,
  );
  const bowl = recessCutter(
    kernel,
    {
      outline: wellOutline(s, at.wall),
      face: at.cupUnder,
      depth: at.cupUnder,
      floorFillet: fillets.outside,
      rim: roundEdge(fillets.under),
    },
    tolerance,
    { ...outwards, top: -skin },
  );
  const seat = recessCutter(
    kernel,
    {
      outline: seatOutline(s, mating - skin),
      face: at.top,
      depth: at.top - at.seatFloor,
      floorFillet: fillets.seat,
      rim: roundEdge(faceEdge),
    },
    tolerance,
    { side: skin, top: face, bottom: skin },
  );
  const well = recessCutter(
    kernel,
    {
      outline: wellOutline(s),
      face: at.seatFloor,
      depth: at.seatFloor - at.wellFloor,
      floorFillet: fillets.well,
      rim: roundEdge(wellRim),
    },
    tolerance,
    { side: skin, top: skin, bottom: skin },
  );
  const screws = screwHoleTools(
    { seat: s.seat, at: at.screws, mouth: s.plateThickness, sink: 0, clear: 0 },
    plans.screws,
    { bore: stock.bore, top: face, under: mating },
    kit,
  ).map((tool) => tool.translate([0, 0, at.flangeUnder]));
  const groove = plans.groove ? [grooveTool(s, at, stock, kit)] : [];
  return flange.add(cup, bowl).subtract(seat, well, ...screws, ...groove);
}

/** The groove's width as cast. */
export const grooveWidth = (s: RingPullSizes, stock: Stock): number => s.holeDiameter - 2 * stock.bore;

function grooveTool(s: RingPullSizes, at: FlushLayout, stock: Stock, { kernel, tolerance }: BuildKit): Solid {
  const half = grooveHalf(s) - stock.bore;
  // Drawn in [x, −z] and turned up.
  const outline = obroundOutline([-s.pinX, -at.pinZ], [-s.pinX, 10], grooveWidth(s, stock) / 2);
  return plateSolid(kernel, { outline, z0: -half, z1: half }, tolerance).rotate('x', -Math.PI / 2);
}

/** Metal enters on the flange beside the tab's slot; air leaves at the other corners of the face. */
export function flushPlatePlaces(
  s: RingPullSizes,
  stock: Stock,
  screws: ScrewHolePlan,
): { readonly gates: readonly GatePlace[]; readonly vents: readonly VentPlace[] } {
  const at = flushLayout(s);
  const z = at.top + stock.face;
  const flat = offsetOutline(flangeOutline(at), -faceEdge);
  const opening = offsetOutline(seatOutline(s, stock.mating - stock.skin), faceEdge);
  const mouths = at.screws.map((screw) => ({
    at: screw,
    radius: Math.max(screws.mouthDiameter, screws.diameter) / 2 + stock.face,
  }));
  const room = flatRoom(flat, [opening], mouths);
  const { x, y } = at.flange;
  const gate = roomiest(room, { x: [x[0], 0], y: [0, y] }, 8);
  const most = 3;
  const front = roomiest(room, { x: [s.plan.halfX + s.plan.outer, x[1]], y: [0, 0] }, most);
  const left = roomiest(room, { x: [0, 0], y: [s.plan.halfY + s.plan.outer, y] }, most);
  const vents: VentPlace[] = [];
  const vent = (name: string, px: number, py: number, radius: number): void => {
    if (2 * radius >= 1.5) vents.push({ name, at: [px, py, z], footDiameter: 2 * radius });
  };
  vent('front of the face', front.at[0], 0, front.radius);
  if (maths.hypot(gate.at[0] - left.at[0], gate.at[1] - left.at[1]) > gate.radius + left.radius + 4)
    vent('face, side of the gate', 0, left.at[1], left.radius);
  vent('face, other side', 0, -left.at[1], left.radius);
  vent('face, behind the ring', gate.at[0], -gate.at[1], Math.min(gate.radius, most));
  return {
    gates:
      gate.radius < leastRoom
        ? []
        : [
            {
              name: 'face beside the slot',
              at: [gate.at[0], gate.at[1], z],
              innerDiameter: 0,
              outerDiameter: 2 * gate.radius,
            },
          ],
    vents,
  };
}
