import { maths } from '../../maths/maths.js';
import type { Vec2 } from '../../solid/types.js';
import { type RackForm, sampleRack } from '../rack-form.js';
import type { ToothForm } from '../tooth-form.js';
import { planPitch } from '../transverse-profile.js';
import { type RunningPair, turnAt } from './running-pair.js';
import { type FlankSide, matePitch, rackPitch, type Stand, standsAt } from './stand.js';

/** The metal of one member about the mesh, in a transverse plane, as it is built: a few teeth and the body behind them. */
export interface MemberSection {
  /** A closed outline, mm, the toothed edge first. */
  readonly outline: readonly Vec2[];
  /** How many of its points are of the toothed edge. */
  readonly edge: number;
}

export interface PairSection {
  readonly gear: MemberSection;
  readonly mate: MemberSection;
}

/** Body drawn behind the roots, in tooth depths. */
const bodyDepths = 1.2;
/** rad between the points of the body's own edge. */
const bodyStep = 0.02;

/**
 * Sections about the pitch point that reach `reach` mm either way along the pitch line, chords within `tolerance` mm of
 * the exact teeth. They are drawn once; {@link sectionStands} says where they stand as the pair turns.
 */
export function pairSection(pair: RunningPair, reach: number, tolerance = 0.002): PairSection {
  const { gearForm, mateForm, mesh } = pair;
  const depth = gearForm.tipRadius - gearForm.rootRadius;
  return {
    gear: toothedArc(gearForm, reach, tolerance, gearForm.rootRadius - bodyDepths * depth),
    mate:
      'pitch' in mateForm
        ? toothedBar(mateForm, reach, tolerance, mateForm.rootHeight - bodyDepths * depth)
        : toothedArc(
            mateForm,
            reach,
            tolerance,
            mesh.kind === 'internal'
              ? mateForm.tipRadius + bodyDepths * depth
              : mateForm.rootRadius - bodyDepths * depth,
          ),
  };
}

const turned = ([x, y]: Vec2, angle: number): Vec2 => {
  const [c, s] = [maths.cos(angle), maths.sin(angle)];
  return [c * x - s * y, s * x + c * y];
};

/** Teeth, or the spaces of a ring, about +X. */
function toothedArc(form: ToothForm, reach: number, tolerance: number, bodyRadius: number): MemberSection {
  const { points } = planPitch(form, tolerance).sample();
  const pitch = (2 * Math.PI) / form.teeth;
  const half = maths.asin(Math.min(1, reach / form.rack.radius));
  // One pitch more either way for the turn within a pitch, one for where the first corner lies.
  const side = Math.ceil(half / pitch) + 2;
  const whole = 2 * side >= form.teeth;
  const [from, to] = whole ? [0, form.teeth] : [-side, side];
  const edge = Array.from({ length: to - from }, (_, k) =>
    points.map((p) => turned(p, (from + k) * pitch)),
  ).flat();
  const close = turned(points[0] as Vec2, to * pitch);
  edge.push(close);
  const [first, last] = [edge[0] as Vec2, close].map(([x, y]) => maths.atan2(y, x)) as [number, number];
  const span = whole ? 2 * Math.PI : last - first;
  const r = Math.max(0, bodyRadius);
  const steps = Math.max(2, Math.ceil(span / bodyStep));
  const body = Array.from({ length: steps + 1 }, (_, i): Vec2 => {
    const angle = first + span * (1 - i / steps);
    return [r * maths.cos(angle), r * maths.sin(angle)];
  });
  return { outline: [...edge, ...body], edge: edge.length };
}

/** Rack teeth about a space at x = 0. */
function toothedBar(form: RackForm, reach: number, tolerance: number, back: number): MemberSection {
  const side = Math.ceil(reach / form.pitch) + 2;
  const edge = sampleRack(form, 0.5 - side, 2 * side, tolerance);
  const [[x0], [x1]] = [edge[0] as Vec2, edge.at(-1) as Vec2];
  return { outline: [...edge, [x1, back], [x0, back]], edge: edge.length };
}

const within = (value: number, pitch: number): number => value - pitch * Math.round(value / pitch);

/**
 * Where the sections of {@link pairSection} stand in the plane at a height, the gear turned by `angle`. Every pitch looks
 * like the next, so they turn to and fro within one and never leave the mesh.
 */
export function sectionStands(
  pair: RunningPair,
  angle: number,
  z: number,
  side: FlankSide,
): { readonly gear: Stand; readonly mate: Stand } {
  const { gear, mate } = standsAt(pair, angle + turnAt(pair, z), side);
  const { kind } = pair.mesh;
  const facing = kind === 'external' ? Math.PI : 0;
  return {
    gear: { ...gear, turn: within(gear.turn, (2 * Math.PI) / pair.mesh.gear.teeth) },
    mate:
      kind === 'rack'
        ? { ...mate, at: [mate.at[0], within(mate.at[1], rackPitch(pair))] }
        : { ...mate, turn: facing + within(mate.turn - facing, matePitch(pair)) },
  };
}
