import { maths } from '../maths/maths.js';
import { type BasicRack, gearFromRack } from './basic-rack.js';
import { gearGeometry } from './gear-geometry.js';
import { internalCentreDistance, internalReferenceDistance, internalShiftSum } from './internal.js';
import { inv } from './involute.js';
import type { MeshKind } from './mesh-backlash.js';
import { centreDistance, profileShiftSum, referenceCentreDistance } from './pair.js';
import { type PairRequest, runWidth } from './pair-request.js';
import { shiftRange } from './shift-split.js';
import type { GearSpec } from './spec.js';
import { lengthText, type Refusal, roundedDown, roundedUp, type TriedPair } from './tried-pair.js';

const degrees = Math.PI / 180;

/**
 * Helix angles sought when free: single helices keep their thrust small, double helices have none to mind. From the
 * least that is worth cutting to the most that castings leave the mould with (common practice, no source).
 */
export const freeHelix = {
  helical: { from: 8 * degrees, to: 30 * degrees, usual: 15 * degrees },
  'double-helical': { from: 15 * degrees, to: 45 * degrees, usual: 25 * degrees },
} as const;

/** Profile shifts of a ring, ISO 21771's sign (common practice, no source). */
export const ringShifts: Range = [-0.8, 0.6];

type Range = readonly [least: number, most: number];
type Teeth = readonly [gear: number, mate: number];

/** A gear made to an old mate may be as undercut as the standard one it replaces. */
export function loneRange(gear: GearSpec): Range {
  const [least, most] = shiftRange(gear);
  return [Math.min(0, least), most];
}

/** How centre distance and the sum of profile shifts hang together in one kind of mesh. On a rack only x₁ counts. */
interface MeshRules {
  /** Tooth numbers whose m / 2 makes the reference distance of a spur pair. */
  readonly teeth: (teeth: Teeth) => number;
  readonly distance: (gear: GearSpec, mate: GearSpec, sum: number) => number;
  /** Infinite where nothing meshes at the distance. */
  readonly sum: (gear: GearSpec, mate: GearSpec, distance: number) => number;
  readonly range: (gear: GearSpec, mate: GearSpec, keepMate: boolean) => Range;
  /** How far from the reference distance shift may take the axes at all, modules: inwards and outwards. */
  readonly reach: Range;
}

const rules: Readonly<Record<MeshKind, MeshRules>> = {
  external: {
    teeth: ([z1, z2]) => z1 + z2,
    distance: (gear, mate, sum) =>
      centreDistance({ ...gear, profileShift: sum }, { ...mate, profileShift: 0 }),
    sum: (gear, mate, distance) => {
      const base =
        referenceCentreDistance(gear, mate) * maths.cos(gearGeometry(gear).transversePressureAngle);
      return distance > base ? profileShiftSum(gear, mate, distance) : Number.NEGATIVE_INFINITY;
    },
    range: (gear, mate, keepMate) => (keepMate ? loneRange(gear) : added(shiftRange(gear), shiftRange(mate))),
    reach: [-1, 2],
  },
  internal: {
    teeth: ([z1, z2]) => z2 - z1,
    distance: (gear, ring, sum) =>
      internalCentreDistance({ ...gear, profileShift: sum }, { ...ring, profileShift: 0 }),
    sum: (gear, ring, distance) => {
      const base =
        internalReferenceDistance(gear, ring) * maths.cos(gearGeometry(ring).transversePressureAngle);
      return distance > base ? internalShiftSum(gear, ring, distance) : Number.POSITIVE_INFINITY;
    },
    range: (gear, ring, keepMate) => {
      const [least, most] = keepMate ? loneRange(gear) : added(shiftRange(gear), ringShifts);
      // Beyond this sum the flanks mesh at no distance.
      const bound =
        (inv(gearGeometry(ring).transversePressureAngle) * (ring.teeth - gear.teeth)) /
        (2 * maths.tan(ring.normalPressureAngle));
      return [least, Math.min(most, 0.95 * bound)];
    },
    reach: [-2, 1.5],
  },
  rack: {
    teeth: ([z1]) => z1,
    distance: (gear, _, sum) => gearGeometry(gear).referenceDiameter / 2 + sum * gear.normalModule,
    sum: (gear, _, distance) => (distance - gearGeometry(gear).referenceDiameter / 2) / gear.normalModule,
    range: (gear, _, keepMate) => (keepMate ? loneRange(gear) : shiftRange(gear)),
    reach: [-1, 1],
  },
};

const added = ([a, b]: Range, [c, d]: Range): Range => [a + c, b + d];

/** Reference distance of spur teeth, mm: m (z₁ + z₂) / 2 and its like. */
export const plainDistance = (mesh: MeshKind, module: number, teeth: Teeth): number =>
  (module * rules[mesh].teeth(teeth)) / 2;

/** Where teeth mesh of themselves with a sum of shifts, mm. RangeError where they do not. */
export const distanceOf = (mesh: MeshKind, gear: GearSpec, mate: GearSpec, sum: number): number =>
  rules[mesh].distance(gear, mate, sum);

/** The sum of shifts for a distance, the gears' own ignored; infinite where nothing meshes there. */
export const shiftSumAt = (mesh: MeshKind, gear: GearSpec, mate: GearSpec, distance: number): number =>
  rules[mesh].sum(gear, mate, distance);

/** Sums of profile shifts that both members bear. */
export const shiftSums = (request: PairRequest, gear: GearSpec, mate: GearSpec): Range =>
  rules[request.mesh ?? 'external'].range(gear, mate, request.keepMate ?? false);

export type Placed = Pick<TriedPair, 'by'> & { readonly helixAngle: number; readonly sum: number };

/** `17 and 41 teeth of module 2`; `17 teeth of module 2 on the rack` */
export const nameTeeth = (mesh: MeshKind, [z1, z2]: Teeth, module: number): string => {
  const figure = Number(module.toFixed(4));
  if (mesh === 'rack') return `${z1} teeth of module ${figure} on the rack`;
  return `${z1} ${mesh === 'internal' ? 'in' : 'and'} ${z2} teeth of module ${figure}`;
};

const angleText = (angle: number): string => `${Number((angle / degrees).toFixed(3))}°`;

/** Helix angle and shift sum that put the pair on its centre distance. */
export function placeOnCentres(
  request: PairRequest,
  rack: BasicRack,
  m: number,
  teeth: Teeth,
): Placed | Refusal {
  const mesh = request.mesh ?? 'external';
  const rule = rules[mesh];
  const helix = helixOf(request, m);
  const wanted = request.centreDistance;
  const mayShift = request.profileShift !== false;
  const bare = (beta: number): readonly [GearSpec, GearSpec] => [
    gearFromRack(rack, { normalModule: m, teeth: teeth[0], helixAngle: beta }),
    gearFromRack(rack, { normalModule: m, teeth: teeth[1], helixAngle: beta }),
  ];
  if (wanted === undefined)
    return { helixAngle: helix.usual, sum: freeSum(request, bare(helix.usual)), by: 'free' };
  const plain = plainDistance(mesh, m, teeth);
  const cos = plain / wanted;
  if (helix.from !== helix.to && cos <= maths.cos(helix.from) && cos >= maths.cos(helix.to)) {
    return { helixAngle: maths.acos(cos), sum: 0, by: 'helix' };
  }
  const beta =
    Math.abs(cos - maths.cos(helix.from)) < Math.abs(cos - maths.cos(helix.to)) ? helix.from : helix.to;
  const reference = plain / maths.cos(beta);
  if (Math.abs(reference - wanted) < 1e-9 * wanted) return { helixAngle: beta, sum: 0, by: 'reference' };
  const [gear, mate] = bare(beta);
  const refusal = (reachable: number, how: string): Refusal => ({
    stage: 2,
    code: 'centre-distance-not-met',
    miss: Math.abs(reachable - wanted),
    message: `Centre distance ${lengthText(wanted)}: the nearest, ${nameTeeth(mesh, teeth, m)}${beta > 0 ? ` at ${angleText(beta)}` : ''}, ${how} ${lengthText(reachable)}, ${lengthText(Math.abs(reachable - wanted))} ${reachable < wanted ? 'too little' : 'too much'}.`,
    // Without shift it must be met to the last figure, of which not all are printed.
    remedy: mayShift
      ? `Ask for a centre distance of ${lengthText(reachable)}, another module or a wider ratio.`
      : 'Leave the centre distance free, take another module or a wider ratio, or allow profile shift.',
    parameters: ['centreDistance'],
  });
  if (!mayShift) return refusal(reference, 'runs at');
  const [inwards, outwards] = rule.reach;
  const range = (): Range => rule.range(gear, mate, request.keepMate ?? false);
  const sum = (): number => rule.sum(gear, mate, wanted);
  const atLimit = ([least, most]: Range): Refusal => {
    const limit = most < least ? reference : rule.distance(gear, mate, sum() < least ? least : most);
    return refusal(
      limit < wanted ? roundedDown(limit) : roundedUp(limit),
      'reaches with the profile shift its teeth bear',
    );
  };
  // Far off: what shift would do is worked out only for the pair that is shown.
  if (wanted < reference + inwards * m || wanted > reference + outwards * m)
    return {
      ...refusal(reference + (wanted > reference ? outwards : inwards) * m, 'reaches no further than about'),
      closer: () => atLimit(range()),
    };
  const [least, most] = range();
  const needed = sum();
  if (needed < least - 1e-9 || needed > most + 1e-9) return atLimit([least, most]);
  return { helixAngle: beta, sum: needed, by: helix.from === helix.to ? 'shift' : 'helix and shift' };
}

/** The least sum that leaves neither undercut, and none where the gears need none; a ring takes back the pinion's. */
function freeSum(request: PairRequest, [gear, mate]: readonly [GearSpec, GearSpec]): number {
  if (request.profileShift === false || request.mesh === 'internal') return 0;
  const least = shiftRange(gear)[0];
  if (request.mesh === 'rack') return Math.max(0, least);
  return Math.max(0, least + (request.keepMate ? 0 : shiftRange(mate)[0]));
}

interface HelixChoice {
  readonly from: number;
  readonly to: number;
  readonly usual: number;
}

function helixOf(request: PairRequest, m: number): HelixChoice {
  if (request.gearType === 'spur') return { from: 0, to: 0, usual: 0 };
  if (request.helixAngle !== undefined)
    return { from: request.helixAngle, to: request.helixAngle, usual: request.helixAngle };
  const range = freeHelix[request.gearType];
  if (request.faceWidth === undefined) return range;
  // ε_β = 1 with a little to spare, to the next whole degree.
  const sine = (1.02 * Math.PI * m) / runWidth(request, m);
  const smooth = sine >= 1 ? range.to : Math.ceil(maths.asin(sine) / degrees) * degrees;
  return { ...range, usual: Math.min(Math.max(smooth, range.from), range.usual + 5 * degrees) };
}
