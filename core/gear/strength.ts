import { maths } from '../maths/maths.js';
import type { Finding } from '../part/finding.js';
import { gearGeometry } from './gear-geometry.js';
import type { GearMaterial } from './gear-material.js';
import { equivalentTeeth, internalLewisBeam, type LewisResult, lewisBeam, rackLewisBeam } from './lewis.js';
import type { MeshKind } from './mesh-backlash.js';
import type { GearSpec } from './spec.js';

/**
 * Barth's velocity factor, a reducing factor: 3.05 / (3.05 + v) for cast teeth, 6.1 / (6.1 + v) for cut ones, v in
 * m/s at the pitch circle (Shigley, eq. 14-6, from memory; (600 + V)/600 and (1200 + V)/1200 in ft/min).
 * @param velocity mm/s
 */
export const velocityFactor = (velocity: number, teeth: 'cast' | 'cut' = 'cast'): number => {
  const constant = teeth === 'cast' ? 3050 : 6100;
  return constant / (constant + Math.abs(velocity));
};

/** Lewis's load F_t = σ b m_n Y K_v, N. Face width and module in mm, stress MPa. */
export const lewisLoad = (
  stress: number,
  faceWidth: number,
  normalModule: number,
  formFactor: number,
  factor = 1,
): number => stress * faceWidth * normalModule * formFactor * factor;

/**
 * Buckingham's load-stress factor K = σ_es² sin α_n (1/E₁ + 1/E₂) / 1.4, MPa (E. Buckingham, Analytical Mechanics
 * of Gears, 1949, as handbooks repeat it, from memory).
 */
export const loadStressFactor = (
  surfaceEndurance: number,
  pressureAngle: number,
  modulus: number,
  mateModulus: number,
): number => (surfaceEndurance ** 2 * maths.sin(pressureAngle) * (1 / modulus + 1 / mateModulus)) / 1.4;

/**
 * Buckingham's limiting load for wear F_w = d₁ b Q K / cos² β, N, with Q = 2 z₂ / (z₁ + z₂), for an internal gear
 * 2 z₂ / (z₂ − z₁) and for a rack, whose tooth number is without limit, 2; gear 1 is the pinion.
 */
export function wearLoad(
  pinion: GearSpec,
  wheelTeeth: number,
  faceWidth: number,
  factor: number,
  mesh: MeshKind = 'external',
): number {
  const others = mesh === 'external' ? pinion.teeth : -pinion.teeth;
  const q = mesh === 'rack' ? 2 : (2 * wheelTeeth) / (wheelTeeth + others);
  return (
    (gearGeometry(pinion).referenceDiameter * faceWidth * q * factor) / maths.cos(pinion.helixAngle) ** 2
  );
}

export interface StrengthRequest {
  /** Face width that carries, mm; both halves of a double-helical gear together. */
  readonly faceWidth: number;
  /** Speed of gear 1, rad/s. */
  readonly speed: number;
  readonly materials: readonly [gear: GearMaterial, mate: GearMaterial];
  /** How the teeth are made; cast by default. */
  readonly teeth?: 'cast' | 'cut';
  /** External when left out; gear 1 is the pinion of an internal or rack pair. */
  readonly mesh?: MeshKind;
}

export interface MemberStrength {
  readonly material: GearMaterial;
  readonly equivalentTeeth: number;
  /** Y of the exact tooth. */
  readonly formFactor: number;
  /** F_t that bends this gear's teeth to their allowable stress at this speed, N. */
  readonly bendingLoad: number;
}

/** What a pair may carry. Torques N·mm, power W. */
export interface PairStrength {
  readonly gear: MemberStrength;
  readonly mate: MemberStrength;
  /** Pitch-line velocity, mm/s, and Barth's factor at it. */
  readonly velocity: number;
  readonly velocityFactor: number;
  /** F_w, N, for long running; null where no surface endurance limit is known for both materials. */
  readonly wearLoad: number | null;
  readonly weaker: 'gear' | 'mate';
  readonly limit: 'bending of gear 1' | 'bending of gear 2' | 'wear';
  /** F_t allowed, the least of the loads above, N: on a rack the force along it. */
  readonly tangentialForce: number;
  readonly gearTorque: number;
  /** Null for a rack. */
  readonly mateTorque: number | null;
  readonly power: number;
}

export type StrengthResult =
  | { readonly ok: true; readonly strength: PairStrength }
  | { readonly ok: false; readonly findings: readonly Finding[] };

/** What the rating leaves out; it goes with every figure. */
export const strengthCaveats: readonly string[] = [
  'This is a bench estimate by Lewis and Buckingham, not a rating to a design code (ISO 6336, AGMA 2001), and no proof of safety.',
  'It takes the whole load at the tip of one tooth across the full face, and leaves out stress concentration at the fillet, fatigue, shock, misalignment, pitch errors of cast teeth, lubrication and heat.',
  'It assumes sound castings: porosity, shrinkage or cold shuts in a tooth can take away most of its strength.',
  'Where a failure could drop a load, hurt someone or release stored energy, have the drive designed by a qualified engineer.',
];

/** Allowable load of a pair, gear 1 turning at a given speed. Finding instead when a tooth cannot be made. */
export function pairStrength(gear: GearSpec, mate: GearSpec, request: StrengthRequest): StrengthResult {
  const { faceWidth, materials, mesh = 'external' } = request;
  const g = gearGeometry(gear);
  const velocity = (Math.abs(request.speed) * g.referenceDiameter) / 2;
  const factor = velocityFactor(velocity, request.teeth);
  const beams = [lewisBeam(gear), mateBeam(mate, mesh)] as const;
  const [gearBeam, matesBeam] = beams;
  if (!gearBeam.ok) return gearBeam;
  if (!matesBeam.ok) return matesBeam;
  const member = (i: 0 | 1, formFactor: number, teeth: number): MemberStrength => ({
    material: materials[i],
    equivalentTeeth: teeth,
    formFactor,
    bendingLoad: lewisLoad(materials[i].allowableStress, faceWidth, gear.normalModule, formFactor, factor),
  });
  const first = member(0, gearBeam.beam.formFactor, equivalentTeeth(gear));
  const second = member(
    1,
    matesBeam.beam.formFactor,
    mesh === 'rack' ? Number.POSITIVE_INFINITY : equivalentTeeth(mate),
  );
  const wear = wearOf(gear, mate, mesh, faceWidth, materials);
  const weaker = first.bendingLoad <= second.bendingLoad ? 'gear' : 'mate';
  const bending = Math.min(first.bendingLoad, second.bendingLoad);
  const tangentialForce = Math.min(bending, wear ?? Number.POSITIVE_INFINITY);
  const gearTorque = (tangentialForce * g.referenceDiameter) / 2;
  const bendingOf = weaker === 'gear' ? 'bending of gear 1' : 'bending of gear 2';
  return {
    ok: true,
    strength: {
      gear: first,
      mate: second,
      velocity,
      velocityFactor: factor,
      wearLoad: wear,
      weaker,
      limit: wear !== null && wear < bending ? 'wear' : bendingOf,
      tangentialForce,
      gearTorque,
      mateTorque: mesh === 'rack' ? null : (gearTorque * mate.teeth) / gear.teeth,
      power: (tangentialForce * velocity) / 1000,
    },
  };
}

const mateBeam = (mate: GearSpec, mesh: MeshKind): LewisResult =>
  mesh === 'external' ? lewisBeam(mate) : mesh === 'internal' ? internalLewisBeam(mate) : rackLewisBeam(mate);

function wearOf(
  gear: GearSpec,
  mate: GearSpec,
  mesh: MeshKind,
  faceWidth: number,
  [first, second]: StrengthRequest['materials'],
): number | null {
  if (first.surfaceEndurance === null || second.surfaceEndurance === null) return null;
  const [pinion, wheel] = mesh !== 'external' || gear.teeth <= mate.teeth ? [gear, mate] : [mate, gear];
  const factor = loadStressFactor(
    Math.min(first.surfaceEndurance, second.surfaceEndurance),
    gear.normalPressureAngle,
    first.elasticModulus,
    second.elasticModulus,
  );
  return wearLoad(pinion, wheel.teeth, faceWidth, factor, mesh);
}
