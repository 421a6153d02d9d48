import type { BacklashKind, ThinningSplit } from './backlash.js';
import {
  type CastBacklash,
  type CastBacklashRequest,
  castBacklash,
  leastNormalBacklash,
} from './cast-backlash.js';
import { gearGeometry } from './gear-geometry.js';
import { circumferentialPerNormal, type Mesh, meshCircumferential, thinnedMesh } from './mesh-backlash.js';
import type { GearSpec } from './spec.js';

/** Backlash as it is asked for: a size of one kind, mm, or what teeth that run as cast need. */
export type BacklashRequest =
  | { readonly kind: BacklashKind; readonly value: number }
  | ({ readonly kind: 'as-cast' } & Pick<
      CastBacklashRequest,
      'toothGrade' | 'centreGrade' | 'centreTolerance' | 'runout'
    >);

/** The backlash a pair is drawn with and where it comes from. */
export interface BacklashPlan {
  /** `least`: nothing was asked for, and the least of ISO/TR 10064-2 is taken, for flanks dressed to size. */
  readonly kind: BacklashKind | 'as-cast' | 'least';
  /** In the way it was asked for, mm; null for `as-cast`. */
  readonly asked: number | null;
  /** j_wt, mm. */
  readonly circumferential: number;
  /** Total, and of either member, mm (normal, at the reference cylinder). */
  readonly thinning: { readonly total: number; readonly gear: number; readonly mate: number };
  readonly split: ThinningSplit;
  /** The reckoning of `as-cast`. */
  readonly cast: CastBacklash | null;
}

export type BacklashResult =
  | { readonly ok: true; readonly plan: BacklashPlan; readonly mesh: Mesh }
  | { readonly ok: false; readonly miss: number; readonly message: string; readonly remedy: string };

/** A tooth keeps at least this share of its thickness (common practice, no source). */
const mostThinned = 0.45;
/** Most that a part's own thinning can be, mm. */
const largestThinning = 2;

const mm = (value: number): string => `${Number(value.toFixed(3))} mm`;

/** Decides the backlash and thins the teeth for it. Refuses one that the teeth cannot give. */
export function planBacklash(
  request: BacklashRequest | undefined,
  split: ThinningSplit,
  bare: Mesh,
): BacklashResult {
  const decided = decideBacklash(request, bare);
  if (decided === null) {
    const asked = request && 'value' in request ? request.value : 0;
    return {
      ok: false,
      miss: asked,
      message: `The axes cannot move by ${mm(asked)}: there is no mesh so far off.`,
      remedy: 'Ask for less backlash or a larger module.',
    };
  }
  const mesh = thinnedMesh(bare, decided.circumferential, split);
  const [tightest, other] = [spared('gear 1', mesh.gear), spared('gear 2', mesh.mate)].sort(
    (a, b) => b.thinning / b.most - a.thinning / a.most,
  ) as [Spared, Spared];
  if (tightest.thinning > tightest.most) {
    const { name, thinning, thickness, most } = tightest;
    // Thinning goes with the backlash: the rest is in proportion.
    const largest = Math.floor(decided.circumferential * (most / thinning) * 1000) / 1000;
    const ways = [
      `Ask for at most ${mm(largest)} of it`,
      ...(decided.kind === 'as-cast' ? ['a finer casting grade'] : []),
      ...(split === 'wheel' && other.thinning < other.most ? ['thinning split equally'] : []),
    ];
    return {
      ok: false,
      miss: thinning - most,
      message: `A circumferential backlash of ${mm(decided.circumferential)} takes ${mm(thinning)} off the teeth of ${name}, which are ${mm(thickness)} thick: ${mm(thinning - most)} more than the ${mm(most)} they can spare.`,
      remedy: `${ways.join(', ')} or a larger module.`,
    };
  }
  const [gear, mate] = [mesh.gear.thinning, mesh.mate.thinning];
  return { ok: true, plan: { ...decided, thinning: { total: gear + mate, gear, mate }, split }, mesh };
}

export interface Spared {
  readonly name: string;
  readonly thinning: number;
  readonly thickness: number;
  /** Most that the teeth can lose. */
  readonly most: number;
}

/** What the teeth of a gear can spare of their thickness, mm. */
export function spared(name: string, spec: GearSpec): Spared {
  const thickness = gearGeometry({ ...spec, thinning: 0 }).normalThickness;
  return {
    name,
    thinning: spec.thinning,
    thickness,
    most: Math.min(largestThinning, mostThinned * thickness),
  };
}

/** Null when there is no mesh at the distance that the backlash would have the axes moved to. */
export function decideBacklash(
  request: BacklashRequest | undefined,
  mesh: Mesh,
): Pick<BacklashPlan, 'kind' | 'asked' | 'circumferential' | 'cast'> | null {
  const { gear, mate, distance, kind: meshKind } = mesh;
  if (request === undefined) {
    const asked = leastNormalBacklash(distance, gear.normalModule);
    return { kind: 'least', asked, circumferential: asked * circumferentialPerNormal(mesh), cast: null };
  }
  if (request.kind === 'as-cast') {
    const cast = castBacklash(gear, mate, { ...request, distance, mesh: meshKind });
    return { kind: 'as-cast', asked: null, circumferential: cast.recommended, cast };
  }
  try {
    const circumferential = meshCircumferential(request.kind, request.value, mesh);
    return { kind: request.kind, asked: request.value, circumferential, cast: null };
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}
