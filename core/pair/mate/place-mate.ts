import type { MeshKind } from '../../gear/mesh-backlash.js';
import { distanceOf, ringShifts, shiftSumAt } from '../../gear/place-on-centres.js';
import { shiftRange } from '../../gear/shift-split.js';
import type { GearSpec } from '../../gear/spec.js';
import { lengthText, roundedDown, roundedUp } from '../../gear/tried-pair.js';
import { type Finding, stop } from '../../part/finding.js';

/** Where the mate stands and the profile shift it takes for it. */
export interface PlacedMate {
  readonly distance: number;
  /** 0 for a rack, which has none. */
  readonly shift: number;
}

export type MatePlacing =
  | { readonly ok: true; readonly placed: PlacedMate }
  /** `miss` orders refusals: the nearest is told. */
  | { readonly ok: false; readonly finding: Finding; readonly miss: number };

/** What is known of a mesh before the mate has its shift: either member may be the chosen one. */
export interface BareMesh {
  readonly kind: MeshKind;
  readonly gear: GearSpec;
  readonly mate: GearSpec;
  /** Whether `gear` is the chosen member. */
  readonly chosenFirst: boolean;
}

type Range = readonly [least: number, most: number];

/** Profile shifts that the new member bears. */
function rangeOfNew({ kind, gear, mate, chosenFirst }: BareMesh): Range {
  if (!chosenFirst) return shiftRange(gear);
  if (kind === 'rack') return [0, 0];
  return kind === 'internal' ? ringShifts : shiftRange(mate);
}

/** The chosen member's own shift, as far as it counts. */
const ownShift = ({ kind, gear, mate, chosenFirst }: BareMesh): number =>
  chosenFirst ? gear.profileShift : kind === 'rack' ? 0 : mate.profileShift;

/** Free of backlash but for thinning, the new member shifted so far, mm. RangeError where nothing meshes. */
export const ownDistance = (mesh: BareMesh, shift: number): number =>
  distanceOf(mesh.kind, mesh.gear, mesh.mate, ownShift(mesh) + shift);

/** The mate's shift and where it runs, the chosen member's own kept. `freeSum`: of both, where a ring's axes are free. */
export function placeMate(
  mesh: BareMesh,
  wanted: number | undefined,
  freeSum: number,
  subject: string,
): MatePlacing {
  const range = rangeOfNew(mesh);
  const own = ownShift(mesh);
  if (wanted === undefined) {
    const shift = freeShift(mesh, range, freeSum - own);
    return { ok: true, placed: { shift, distance: ownDistance(mesh, shift) } };
  }
  if (mesh.kind === 'rack' && mesh.chosenFirst) return placeRack(mesh, wanted, subject);
  const shift = shiftSumAt(mesh.kind, mesh.gear, mesh.mate, wanted) - own;
  if (shift >= range[0] - 1e-9 && shift <= range[1] + 1e-9)
    return { ok: true, placed: { shift, distance: wanted } };
  const ends = reachOf(mesh, range);
  const [low, high] = [roundedUp(ends[0]), roundedDown(ends[1])];
  const away = wanted < ends[0] ? low - wanted : wanted - high;
  const shiftText =
    Math.abs(own) < 1e-9 ? 'which has no profile shift' : `whose profile shift is ${figure(own)}`;
  return {
    ok: false,
    miss: Math.abs(away),
    finding: stop(
      'centre-distance-not-met',
      `A centre distance of ${lengthText(wanted)} is ${lengthText(Math.abs(away))} too ${wanted < ends[0] ? 'little' : 'much'} for ${subject}: with the chosen part, ${shiftText}, the mate’s own shift of ${figure(range[0])} to ${figure(range[1])} reaches ${lengthText(low)} to ${lengthText(high)}.`,
      `Ask for a distance between those, or other teeth${otherShift(mesh, shift, range)}.`,
      'centreDistance',
      'profileShift',
    ),
  };
}

/** What the chosen part's own shift might do about it, where that is little: the mate at the end of its range. */
function otherShift({ kind }: BareMesh, shift: number, [least, most]: Range): string {
  const by = Math.ceil(100 * Math.max(least - shift, shift - most)) / 100;
  if (kind === 'rack' || !(by <= mostOtherShift)) return '';
  return `, or ${shift < least ? 'lower' : 'raise'} the profile shift of the chosen part by ${figure(by, 2)}`;
}
/** More than this is another gear. */
const mostOtherShift = 0.5;

/** The distances between which the new member's shift may put the axes, mm: as far towards either end as there is a mesh. */
function reachOf(mesh: BareMesh, [least, most]: Range): Range {
  const parts = 20;
  const distances = Array.from({ length: parts + 1 }, (_, i) => {
    try {
      return ownDistance(mesh, least + ((most - least) * i) / parts);
    } catch (error) {
      if (error instanceof RangeError) return Number.NaN;
      throw error;
    }
  }).filter(Number.isFinite);
  if (distances.length === 0) throw new RangeError('no shift of the mate meshes');
  return [Math.min(...distances), Math.max(...distances)];
}

/** A rack may stand off further than free of backlash, never nearer. */
function placeRack(mesh: BareMesh, wanted: number, subject: string): MatePlacing {
  const least = ownDistance(mesh, 0);
  const most = least + 0.25 * mesh.gear.normalModule;
  if (wanted >= least - 1e-9 && wanted <= most + 1e-9)
    return { ok: true, placed: { shift: 0, distance: wanted } };
  const [low, high] = [roundedUp(least), roundedDown(most)];
  const away = wanted < least ? low - wanted : wanted - high;
  return {
    ok: false,
    miss: Math.abs(away),
    finding: stop(
      'centre-distance-not-met',
      `A distance of ${lengthText(wanted)} from axis to pitch line is ${lengthText(Math.abs(away))} too ${wanted < least ? 'little' : 'much'} for ${subject}: a rack has no profile shift to make up for it.`,
      `Ask for ${lengthText(low)} to ${lengthText(high)}, or change the profile shift of the chosen gear by ${wanted < least ? '−' : ''}${figure(Math.abs(away) / mesh.gear.normalModule, 2)}.`,
      'centreDistance',
      'profileShift',
    ),
  };
}

const figure = (value: number, digits = 3): string => {
  const text = String(Number(value.toFixed(digits)));
  return text.startsWith('-') ? `−${text.slice(1)}` : text;
};

/** Least shift without undercut, none where none is needed; in a ring the one that takes back the pinion's. */
function freeShift(mesh: BareMesh, [least, most]: Range, inRing: number): number {
  if (mesh.kind !== 'internal') return Math.max(0, least);
  return Math.min(most, Math.max(least, inRing));
}
