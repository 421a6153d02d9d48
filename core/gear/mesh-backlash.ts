import { maths } from '../maths/maths.js';
import { type BacklashKind, circumferentialFrom, type ThinningSplit, withThinning } from './backlash.js';
import { gearGeometry } from './gear-geometry.js';
import { internalBacklash, internalPressureAngleAt } from './internal.js';
import { inv } from './involute.js';
import { backlash, workingPressureAngleAt } from './pair.js';
import type { RackSpec } from './rack-form.js';
import type { GearSpec } from './spec.js';

/** What meshes: two external gears, a pinion in a ring, a pinion on a rack. */
export const meshKinds = ['external', 'internal', 'rack'] as const;
export type MeshKind = (typeof meshKinds)[number];

/**
 * Two sets of teeth and where they run. `gear` is the pinion where the mate is a ring or a rack; a rack's tooth number
 * and profile shift do not count. `distance` is between the axes, or from the axis to the rack's datum line, mm.
 */
export interface Mesh {
  readonly kind: MeshKind;
  readonly gear: GearSpec;
  readonly mate: GearSpec;
  readonly distance: number;
}

/** α_wt, rad; a rack works at its own α_t wherever it stands. Errors as the functions of each kind. */
export function meshPressureAngle({ kind, gear, mate, distance }: Mesh): number {
  if (kind === 'rack') return gearGeometry(gear).transversePressureAngle;
  return kind === 'internal'
    ? internalPressureAngleAt(gear, mate, distance)
    : workingPressureAngleAt(gear, mate, distance);
}

/** Diameter of the gear's working pitch circle, mm: where it rolls on its mate's. */
export function meshPitchDiameter({ kind, gear, mate, distance }: Mesh): number {
  if (kind === 'rack') return gearGeometry(gear).referenceDiameter;
  const sum = kind === 'internal' ? mate.teeth - gear.teeth : mate.teeth + gear.teeth;
  return (2 * distance * gear.teeth) / sum;
}

/**
 * Backlash of a pinion on a rack at a mounting distance, mm: what tooth thickness and rack thickness at the pitch
 * line leave of the pitch, j_t = 2 (a − r − x m_n) tan α_t + (Δs_1 + Δs_2) / cos β.
 */
export function rackBacklash(pinion: GearSpec, rack: RackSpec, mounting: number) {
  const g = gearGeometry(pinion);
  const open = mounting - g.referenceDiameter / 2 - pinion.profileShift * pinion.normalModule;
  const circumferential =
    2 * open * maths.tan(g.transversePressureAngle) +
    (pinion.thinning + rack.thinning) / maths.cos(pinion.helixAngle);
  return {
    circumferential,
    normal: circumferential * maths.cos(g.transversePressureAngle) * maths.cos(g.baseHelixAngle),
  };
}

/** Circumferential (at the working pitch circle) and normal backlash, mm. */
export function meshBacklash({ kind, gear, mate, distance }: Mesh): {
  readonly circumferential: number;
  readonly normal: number;
} {
  if (kind === 'rack') return rackBacklash(gear, mate, distance);
  return kind === 'internal' ? internalBacklash(gear, mate, distance) : backlash(gear, mate, distance);
}

/** Circumferential over normal backlash: 1 / (cos α_wt cos β_b). */
export const circumferentialPerNormal = (mesh: Mesh): number =>
  1 / (maths.cos(meshPressureAngle(mesh)) * maths.cos(gearGeometry(mesh.gear).baseHelixAngle));

/**
 * A backlash of one kind as circumferential backlash, mm. As a centre distance it is how far the axes may go before
 * the teeth bind: closer together, but a pinion in a ring further apart. Errors as `circumferentialFrom`.
 */
export function meshCircumferential(kind: BacklashKind, value: number, mesh: Mesh): number {
  if (kind === 'circumferential') return value;
  if (kind === 'normal') return value * circumferentialPerNormal(mesh);
  const { gear, mate, distance } = mesh;
  if (mesh.kind === 'external') return circumferentialFrom(kind, value, gear, mate, distance);
  if (mesh.kind === 'rack') return 2 * value * maths.tan(meshPressureAngle(mesh));
  const apart = internalPressureAngleAt(gear, mate, distance + value);
  return 2 * distance * (inv(apart) - inv(meshPressureAngle(mesh)));
}

/** The inverse of the above for the centre distance: how far the axes may go before the teeth bind, mm. */
export function meshRoom(mesh: Mesh): number {
  const { circumferential } = meshBacklash(mesh);
  const tangent = maths.tan(meshPressureAngle(mesh));
  if (mesh.kind === 'rack') return circumferential / (2 * tangent);
  // j = 2 a |inv α' − inv α|, whose slope at the start is 2 tan α: Newton from the handbooks' first step.
  let room = circumferential / (2 * tangent);
  for (let i = 0; i < 30; i++) {
    const miss = meshCircumferential('centre-distance', room, mesh) - circumferential;
    room -= miss / (2 * tangent);
    if (Math.abs(miss) < 1e-13) break;
  }
  return room;
}

/** Total thinning (normal), mm, that gives a circumferential backlash, whatever thinning the teeth have now. */
export function meshThinning(circumferential: number, mesh: Mesh): number {
  const bare = {
    ...mesh,
    gear: { ...mesh.gear, thinning: 0 },
    mate: { ...mesh.mate, thinning: 0 },
  };
  const wanted = circumferential / circumferentialPerNormal(mesh);
  return (wanted - meshBacklash(bare).normal) / maths.cos(mesh.gear.normalPressureAngle);
}

/** The mesh with its teeth thinned for a circumferential backlash; a rack and a ring count as the wheel. */
export function thinnedMesh(mesh: Mesh, circumferential: number, split: ThinningSplit): Mesh {
  const exact = meshThinning(circumferential, mesh);
  const total = Math.abs(exact) < 1e-12 ? 0 : exact;
  if (mesh.kind === 'external' || split !== 'wheel') {
    const [gear, mate] = withThinning(mesh.gear, mesh.mate, total, split);
    return { ...mesh, gear, mate };
  }
  return {
    ...mesh,
    gear: { ...mesh.gear, thinning: 0 },
    mate: { ...mesh.mate, thinning: total },
  };
}
