import { maths } from '../../core/maths/maths.js';
import type { GatePlace, VentPlace } from '../../core/part/contract.js';
import { noStock, type Stock } from '../../core/part/stock.js';
import { offsetOutline } from '../../core/shape/index.js';
import { type Circle, flatRoom, leastRoom, roomiest } from '../hardware/flat-room.js';
import type { ScrewHolePlan } from '../hardware/screw-holes.js';
import { mouthAtFace } from '../hinge/leaf-screws.js';
import { openingOutline, plateOutline } from './body.js';
import { cupSide, flareEnd, recessSide } from './profile.js';
import { type FlushPullSizes, faceEdge } from './sizes.js';

/** Room on the face's flat, between the roundings of its edge and of the rim. */
export const flatOfFace = (s: FlushPullSizes, mouths: readonly Circle[], stock: Stock = noStock) =>
  flatRoom(
    offsetOutline(plateOutline(s), -faceEdge),
    [offsetOutline(openingOutline(s), flareEnd(recessSide(s, stock)))],
    mouths,
  );

/** Room on the plate's underside, clear of the cup's fillet. */
export const clearOfCup = (s: FlushPullSizes) =>
  flatRoom(plateOutline(s), [offsetOutline(openingOutline(s), flareEnd(cupSide(s, noStock)))]);

/** Widest gate, and widest and smallest vent, mm. */
const widestGate = 16;
const [widestVent, leastVent] = [6, 1.5];
/** Mould between a gate and a vent, mm. */
const ventToGate = 3.5;

/** Whether the sprue stands where a screw goes: its mark goes with the countersink. */
export const gateOnScrew = (wish: 'auto' | 'cored' | 'drilled'): boolean => wish !== 'cored';

/**
 * Metal enters at one end, over a screw hole that is left solid, or on the roomiest flat where all are cored; air
 * leaves at the other end and at both sides.
 */
export function flushPlaces(
  s: FlushPullSizes,
  stock: Stock,
  plan: ScrewHolePlan,
  onScrew: boolean,
): { readonly gates: readonly GatePlace[]; readonly vents: readonly VentPlace[] } {
  const z = s.top + stock.face;
  const mouth = Math.max(mouthAtFace(s, { skin: stock.face, bore: stock.bore }, plan), plan.diameter) / 2;
  const mouths = s.screws.slice(onScrew ? 1 : 0).map((at) => ({ at, radius: mouth }));
  const face = flatOfFace(s, mouth > 0 ? mouths : [], stock);
  const [endX, endY] = [s.plateLength / 2, s.plateWidth / 2];
  const gate: Circle = onScrew
    ? { at: s.screws[0]!, radius: Math.min(face(...s.screws[0]!), widestGate / 2) }
    : roomiest(face, { x: [endX, 0], y: [0, endY] }, widestGate / 2);
  const vents: VentPlace[] = [];
  const vent = (name: string, { at, radius }: Circle): void => {
    const apart = maths.hypot(at[0] - gate.at[0], at[1] - gate.at[1]) - gate.radius - radius;
    if (2 * radius >= leastVent && apart >= ventToGate)
      vents.push({ name, at: [at[0], at[1], z], footDiameter: 2 * radius });
  };
  const most = widestVent / 2;
  const far = roomiest(face, { x: [-endX, -s.recessLength / 4], y: [0, endY] }, most);
  vent('face, far end', far);
  // As far round as the first, so that the two of them drain the end evenly.
  if (far.at[1] > far.radius + 1) vent('face, far end, other side', { ...far, at: [far.at[0], -far.at[1]] });
  for (const hand of [1, -1] as const)
    vent(
      hand > 0 ? 'face, one side' : 'face, other side',
      roomiest(face, { x: [0, 0], y: [(hand * s.recessWidth) / 2, hand * endY] }, most),
    );
  const roomy = roomiest(face, { x: [-endX, -s.recessLength / 4], y: [0, endY] }, widestGate / 2);
  const further: readonly Circle[] =
    roomy.at[1] > roomy.radius ? [roomy, { ...roomy, at: [roomy.at[0], -roomy.at[1]] }] : [roomy];
  return {
    gates:
      gate.radius < leastRoom
        ? []
        : [
            {
              name: onScrew ? 'face, over a screw hole' : 'face, roomiest flat',
              at: [gate.at[0], gate.at[1], z],
              innerDiameter: 0,
              outerDiameter: 2 * gate.radius,
            },
            ...further.map(
              ({ at, radius }, i): GatePlace => ({
                name: i === 0 ? 'face, far end' : 'face, far end, other side',
                at: [at[0], at[1], z],
                innerDiameter: 0,
                outerDiameter: 2 * radius,
                further: true,
              }),
            ),
          ],
    vents,
  };
}
