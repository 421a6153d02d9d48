import { type Finding, stop, warn } from '../part/finding.js';
import { type DoubleHelicalForces, doubleHelicalForces, type ToothForces, toothForces } from './forces.js';
import type { GearMaterial } from './gear-material.js';
import { type CrankEffort, shortEffort, steadyCrank } from './hand-crank.js';
import { type MeshKind, meshPitchDiameter } from './mesh-backlash.js';
import type { GearSpec } from './spec.js';
import { type PairStrength, pairStrength } from './strength.js';

/** What gear 1, the driver, is to carry; with nothing but the metals the teeth's own limit is reckoned. */
export interface LoadRequest {
  readonly materials: readonly [gear: GearMaterial, mate: GearMaterial];
  /** N·mm, W and rad/s of gear 1; two of the three give the third. Without a speed the gears are taken as slow. */
  readonly torque?: number;
  readonly power?: number;
  readonly speed?: number;
  /** A person at a crank on gear 1's shaft, mm; in place of torque and power. */
  readonly crankRadius?: number;
}

/** What a pair carries and what it is asked to. N, N·mm, W, rad/s. */
export interface PairLoad {
  readonly strength: PairStrength;
  /** The load that the forces are of: asked for, of a person at a crank, or the most allowed. */
  readonly from: 'asked' | 'crank' | 'allowable';
  readonly torque: number;
  readonly speed: number;
  readonly power: number;
  /** At the working pitch circle; the halves' own on double-helical gears. */
  readonly forces: ToothForces | DoubleHelicalForces;
  /** On gear 2's shaft; null for a rack, which is pushed by F_t. */
  readonly mateTorque: number | null;
  /** The load over the allowable one. */
  readonly share: number;
  readonly crank: (CrankEffort & { readonly radius: number }) | null;
  readonly findings: readonly Finding[];
}

export type LoadResult =
  | { readonly ok: true; readonly load: PairLoad }
  | { readonly ok: false; readonly findings: readonly Finding[] };

/** What the load wants of a pair. */
export interface LoadedPair {
  readonly mesh: MeshKind;
  readonly gear: GearSpec;
  readonly mate: GearSpec;
  readonly faceWidth: number;
  readonly distance: number;
  readonly doubleHelical: boolean;
}

const bad = (message: string, remedy: string, ...parameters: string[]): Finding =>
  stop('bad-load', message, remedy, ...parameters);

/** What is wrong with a load in itself. */
export function checkLoad({ torque, power, speed, crankRadius }: LoadRequest): readonly Finding[] {
  const findings: Finding[] = [];
  for (const [name, value] of [
    ['torque', torque],
    ['power', power],
    ['speed', speed],
    ['crank radius', crankRadius],
  ] as const) {
    if (value !== undefined && !(value > 0 && Number.isFinite(value)))
      findings.push(
        bad(`The ${name} asked for is ${value}.`, 'Give a value above 0.', name.replace(' r', 'R')),
      );
  }
  if (crankRadius !== undefined && (torque !== undefined || power !== undefined))
    findings.push(
      bad(
        'A crank and a torque or power are given; a person at the crank gives the torque.',
        'Keep one of the two.',
        'crankRadius',
        'torque',
        'power',
      ),
    );
  if (torque !== undefined && power !== undefined && speed !== undefined)
    findings.push(
      bad(
        'Torque, power and speed are all given; two of them give the third.',
        'Leave one of them out.',
        'torque',
        'power',
        'speed',
      ),
    );
  if (power !== undefined && speed === undefined && torque === undefined && crankRadius === undefined)
    findings.push(
      bad('A power is given without a speed or torque.', 'Give the speed of gear 1.', 'power', 'speed'),
    );
  return findings;
}

/** Torque and speed that are asked for; torque null where only the limit is wanted. */
export function askedLoad(request: LoadRequest): { readonly torque: number | null; readonly speed: number } {
  const { torque, power, speed, crankRadius } = request;
  if (crankRadius !== undefined) {
    const crank = steadyCrank(crankRadius);
    return { torque: crank.torque, speed: speed ?? crank.speed };
  }
  if (power !== undefined && speed !== undefined) return { torque: (power * 1000) / speed, speed };
  if (power !== undefined && torque !== undefined) return { torque, speed: (power * 1000) / torque };
  return { torque: torque ?? null, speed: speed ?? 0 };
}

const newtonMetres = (torque: number): string => `${Number((torque / 1000).toPrecision(3))} N·m`;

/** Strength and forces of a pair; a finding where a tooth cannot be reckoned. */
export function pairLoad(pair: LoadedPair, request: LoadRequest): LoadResult {
  const wrong = checkLoad(request);
  if (wrong.length > 0) return { ok: false, findings: wrong };
  const { gear, mate, mesh, faceWidth } = pair;
  const { torque: wanted, speed } = askedLoad(request);
  const result = pairStrength(gear, mate, { faceWidth, speed, materials: request.materials, mesh });
  if (!result.ok) return result;
  const { strength } = result;
  const torque = wanted ?? strength.gearTorque;
  const pitchDiameter = meshPitchDiameter({ kind: mesh, gear, mate, distance: pair.distance });
  const forces = (pair.doubleHelical ? doubleHelicalForces : toothForces)(gear, torque, pitchDiameter);
  const radius = request.crankRadius;
  return {
    ok: true,
    load: {
      strength,
      from: wanted === null ? 'allowable' : radius === undefined ? 'asked' : 'crank',
      torque,
      speed,
      power: (torque * speed) / 1000,
      forces,
      mateTorque: mesh === 'rack' ? null : (torque * mate.teeth) / gear.teeth,
      share: torque / strength.gearTorque,
      crank: radius === undefined ? null : { ...steadyCrank(radius), radius },
      findings: wanted === null ? [] : judgeLoad(torque, strength, radius !== undefined),
    },
  };
}

function judgeLoad(torque: number, strength: PairStrength, byHand: boolean): readonly Finding[] {
  const allowed = strength.gearTorque;
  const remedy = 'Use a larger module, a wider face, a stronger alloy or more teeth.';
  const limit = strength.limit === 'wear' ? 'wear of the flanks' : strength.limit;
  if (torque > allowed * (1 + 1e-9))
    return [
      warn(
        'load-above-allowable',
        `The torque of ${newtonMetres(torque)} on gear 1 is ${newtonMetres(torque - allowed)} more than the ${newtonMetres(allowed)} that ${limit} allows.`,
        remedy,
        'module',
        'faceWidth',
        'torque',
      ),
    ];
  if (byHand && shortEffort * torque > allowed * (1 + 1e-9))
    return [
      warn(
        'heave-above-allowable',
        `A hard heave at the crank is about ${newtonMetres(shortEffort * torque)} on gear 1, more than the ${newtonMetres(allowed)} that ${limit} allows.`,
        `${remedy.replace(/\.$/, '')}, or a shorter crank.`,
        'module',
        'faceWidth',
        'crankRadius',
      ),
    ];
  return [];
}
