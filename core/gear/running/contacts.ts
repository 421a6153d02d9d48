import { maths } from '../../maths/maths.js';
import type { Vec2, Vec3 } from '../../solid/types.js';
import { specificSliding } from '../contact.js';
import { type RunningPair, turnAt } from './running-pair.js';
import { type FlankSide, sideSign } from './stand.js';

/** A place where two flanks touch. */
export interface ContactPlace {
  /** Of the gear's teeth, counted counter-clockwise from the one on +X at no turn; 0 to z − 1. */
  readonly tooth: number;
  /** In the pair's frame, mm. */
  readonly at: Vec3;
  /** ρ₁ there, the distance from the gear's base tangent point, mm. */
  readonly curvature: number;
  /** Specific sliding ζ on the gear and on its mate; 0 at the pitch point. */
  readonly sliding: readonly [gear: number, mate: number];
}

/**
 * The point of the line of action at ρ₁, mm: T₁ + ρ₁ n. Where leading flanks touch T₁ = r_b (cos α, −sin α) and
 * n = (sin α, cos α); where trailing ones do, its mirror image in the line of centres (ISO 21771:2007, clause 5).
 */
export function onLineOfAction(pair: RunningPair, curvature: number, side: FlankSide): Vec2 {
  const [sin, cos] = [maths.sin(pair.pressureAngle), maths.cos(pair.pressureAngle)];
  const { baseRadius: r } = pair;
  return [r * cos + curvature * sin, (side === 'trailing' ? -1 : 1) * (curvature * cos - r * sin)];
}

/**
 * ρ₁ at which tooth k's flank crosses the line of action, the gear's section turned by `angle`:
 * r_b (ξ) = r_b (θ + ψ + α_wt), θ the angle of the tooth's middle (from the involute's θ = ψ − inv).
 */
export function curvatureOf(pair: RunningPair, angle: number, tooth: number, side: FlankSide): number {
  const middle = angle + (tooth * 2 * Math.PI) / pair.mesh.gear.teeth;
  const turned = side === 'trailing' ? -middle : middle;
  return pair.baseRadius * (turned + pair.baseHalfAngle + pair.pressureAngle);
}

/** Numbers of the teeth, not reduced to a turn, whose flanks touch within the path of contact. */
function touchingTeeth(pair: RunningPair, angle: number, side: FlankSide): readonly number[] {
  if (side === 'midway') return [];
  const sign = sideSign(side);
  const first = curvatureOf(pair, angle, 0, side);
  const { path, basePitch } = pair;
  const low = Math.ceil((path.from - first) / basePitch - 1e-9);
  const high = Math.floor((path.to - first) / basePitch + 1e-9);
  return Array.from({ length: Math.max(0, high - low + 1) }, (_, i) => sign * (low + i));
}

/** The contacts in the transverse plane at a height, mm, the gear turned by `angle`, rad: one a base pitch from A to E. */
export function contactsAt(
  pair: RunningPair,
  angle: number,
  z: number,
  side: FlankSide,
): readonly ContactPlace[] {
  const turned = angle + turnAt(pair, z);
  return touchingTeeth(pair, turned, side).map((k) => {
    const curvature = curvatureOf(pair, turned, k, side);
    return {
      tooth: toothNumber(pair, k),
      at: [...onLineOfAction(pair, curvature, side), z],
      curvature,
      sliding: slidingAt(pair, curvature),
    };
  });
}

const toothNumber = ({ mesh }: RunningPair, k: number): number => {
  const z = mesh.gear.teeth;
  return ((k % z) + z) % z;
};

/** Specific sliding of both flanks where they touch at ρ₁, mm; −Infinity at a base circle. */
export function slidingAt(pair: RunningPair, curvature: number): readonly [gear: number, mate: number] {
  const { mesh, pressureAngle, pitchRadius } = pair;
  if (mesh.kind === 'rack') {
    // The rack's flank slides along itself at ω r sin α wherever the contact is.
    const along = pitchRadius * maths.sin(pressureAngle);
    return [specificSliding(curvature, along, 1, 1), specificSliding(along, curvature, 1, 1)];
  }
  const whole = mesh.distance * maths.sin(pressureAngle);
  const other = mesh.kind === 'internal' ? curvature + whole : whole - curvature;
  const [z1, z2] = [mesh.gear.teeth, mesh.mate.teeth];
  return [specificSliding(curvature, other, z1, z2), specificSliding(other, curvature, z2, z1)];
}

/** Where one pair of flanks touches over the face: a line across it, straight but where an apex is rounded. */
export interface ContactLine {
  readonly tooth: number;
  readonly points: readonly Vec3[];
}

/** Parts into which a stretch is divided: a straight helix needs none, a rounded apex is followed closely. */
const parts = 12;

/** All lines of contact over the face width; of spur gears lines along the axis. */
export function contactLines(pair: RunningPair, angle: number, side: FlankSide): readonly ContactLine[] {
  if (side === 'midway') return [];
  return pair.run.flatMap((stretch) => {
    const heights = Array.from(
      { length: parts + 1 },
      (_, i) => stretch.z0 + ((stretch.z1 - stretch.z0) * i) / parts,
    );
    const turns = heights.map((z) => angle + stretch.turn(z));
    const teeth = new Set(turns.flatMap((turn) => touchingTeeth(pair, turn, side)));
    return [...teeth]
      .sort((a, b) => a - b)
      .flatMap((k): ContactLine[] => {
        const rows = heights.map((z, i) => [z, curvatureOf(pair, turns[i] as number, k, side)] as const);
        const points = clipped(rows, pair).map(([z, rho]): Vec3 => [...onLineOfAction(pair, rho, side), z]);
        return points.length > 1 ? [{ tooth: toothNumber(pair, k), points }] : [];
      });
  });
}

type Row = readonly [z: number, curvature: number];

/** What of a line lies within the path of contact; its course along z is monotone. */
function clipped(rows: readonly Row[], { path }: RunningPair): readonly Row[] {
  const { from, to } = path;
  const inside: Row[] = [];
  rows.forEach((row, i) => {
    const before = rows[i - 1];
    if (before) inside.push(...crossings(before, row, from, to));
    if (row[1] >= from - 1e-9 && row[1] <= to + 1e-9) inside.push(row);
  });
  return inside;
}

function crossings([z0, c0]: Row, [z1, c1]: Row, from: number, to: number): readonly Row[] {
  const at = (limit: number): Row[] => {
    const f = (limit - c0) / (c1 - c0);
    return f > 1e-9 && f < 1 - 1e-9 ? [[z0 + f * (z1 - z0), limit]] : [];
  };
  if (c0 === c1) return [];
  return c1 > c0 ? [...at(from), ...at(to)] : [...at(to), ...at(from)];
}

/** Numbers of the gear's teeth that touch anywhere over the face. */
export const teethInContact = (pair: RunningPair, angle: number, side: FlankSide): readonly number[] => [
  ...new Set(contactLines(pair, angle, side).map((line) => line.tooth)),
];
