import { maths } from '../../core/maths/maths.js';
import type { BuildKit } from '../../core/part/contract.js';
import type { LoftSection, Polygon, Solid, Vec2, Vec3 } from '../../core/solid/types.js';
import { dimpleDepth, type HoleForm } from './hole.js';
import type { PullState } from './levels.js';
import { arcChords, pullOutline, stadiumAt, stadiumPoints } from './outline.js';

const level = (outline: Polygon, z: number): LoftSection => ({
  points: outline.map(([x, y]): Vec3 => [x, y, z]),
});

/** The pull's solid in one state. The checks must have passed. */
export function pullSolid(state: PullState, hole: HoleForm, kit: BuildKit): Solid {
  const body = bevelled(state, kit).subtract(eye(state, kit));
  const lipped = state.lip === null ? body : body.subtract(lipCutter(state, state.lip.creaseX, kit));
  return lipped.subtract(...pinTools(state, hole, kit));
}

/** What the pin's hole takes away: the hole, dimples for the drill, or nothing. */
export function pinTools(state: PullState, hole: HoleForm, kit: BuildKit): readonly Solid[] {
  if (hole === 'solid') return [];
  return hole === 'hole' ? [crossHole(state, kit)] : drillDimples(state, kit);
}

/** Rim and tab without eye, lip and hole. */
function bevelled(state: PullState, { kernel, tolerance }: BuildKit): Solid {
  const { bottom, top, leg } = state;
  const section = (edge: 'face' | 'side', from: 'bottom' | 'top'): LoftSection => ({
    points: pullOutline(state, edge, tolerance).map(
      ({ x, y, depth }): Vec3 => [x, y, from === 'bottom' ? bottom + depth : top - depth],
    ),
  });
  if (leg === 0) return kernel.loft([section('side', 'bottom'), section('side', 'top')]);
  return kernel.loft([
    section('face', 'bottom'),
    section('side', 'bottom'),
    section('side', 'top'),
    section('face', 'top'),
  ]);
}

/** How far cutting bodies reach past what they cut, mm. */
const overhang = 0.5;

/** The eye's opening, with its bevels. */
function eye(state: PullState, { kernel, tolerance }: BuildKit): Solid {
  const { plan, skin, bottom, top, leg, flatInset } = state;
  const largest = plan.inner + flatInset + overhang;
  const points = stadiumPoints(plan, largest, tolerance);
  const at = (radius: number, z: number): LoftSection => level(stadiumAt(points, radius), z);
  const narrow = plan.inner - skin;
  if (leg === 0) return kernel.loft([at(narrow, bottom - overhang), at(narrow, top + overhang)]);
  return kernel.loft([
    at(largest, bottom - overhang),
    at(narrow, bottom + leg),
    at(narrow, top - leg),
    at(largest, top + overhang),
  ]);
}

/**
 * What the lip takes away: everything past its start that lies above the lip's plane, or outside the bevel along
 * the lip's edge. With h = z + x tan θ (constant on the lip's plane) and ρ the distance from the rim's centres,
 * that bevel is the elliptical cone ρ + h = constant. It is made of its tangent planes, each moved by the skin:
 * cos φ x + sin φ y + h = constant + skin × √((cos φ + tan θ)² + sin² φ + 1).
 * They touch where the rim's own wall has its corners, so that no edge of the one runs through an edge of the other.
 */
function lipCutter(state: PullState, creaseX: number, { kernel, tolerance }: BuildKit): Solid {
  const { plan, skin, bottom, top, freeEnd } = state;
  const { thickness, bevel, lipAngle } = state.sizes;
  const slope = maths.tan(lipAngle);
  const start = creaseX - 1;
  const side = plan.halfY + plan.outer + skin + 2;
  const front = freeEnd + skin + 2;
  const planeH = thickness + creaseX * slope + skin / maths.cos(lipAngle);
  // Deep enough that the kept body's lower end is under the show face all over the cutter.
  const drop = planeH - (bottom - 2 + (start - 1) * slope);

  const tangents =
    bevel === 0
      ? // No bevel: only the lip's plane cuts, and the kept body is wider than the cutter.
        [-start + 1, side + 1, front + 1, side + 1].map((support, i) => ({
          direction: (i - 2) * (Math.PI / 2),
          support,
        }))
      : rimDirections(state, tolerance).map((direction) => {
          const [cos, sin] = [maths.cos(direction), maths.sin(direction)];
          const steep = maths.hypot(cos + slope, sin, 1);
          const fromCentre = plan.outer - bevel + skin * (steep - 1 / maths.cos(lipAngle));
          return { direction, support: fromCentre + Math.abs(cos) * plan.halfX + Math.abs(sin) * plan.halfY };
        });
  const sectionAt = (depth: number): LoftSection => ({
    points: tangents.map((line, i) => {
      const [x, y] = meetingPoint(
        line,
        tangents[(i + 1) % tangents.length] as Tangent,
        bevel === 0 ? 0 : depth,
      );
      return [x, y, planeH - depth - x * slope];
    }),
  });
  const kept = kernel.loft([sectionAt(drop), sectionAt(0)]);
  return kernel.box([start, -side, bottom - 1], [front, side, top + 1]).subtract(kept);
}

/** A straight line in plan at a distance from the origin, square to a direction. */
interface Tangent {
  readonly direction: number;
  readonly support: number;
}

/** Where two lines meet, both moved out by `further`. */
function meetingPoint(a: Tangent, b: Tangent, further: number): Vec2 {
  const [p, q] = [a.support + further, b.support + further];
  const sine = maths.sin(b.direction - a.direction);
  return [
    (p * maths.sin(b.direction) - q * maths.sin(a.direction)) / sine,
    (q * maths.cos(a.direction) - p * maths.cos(b.direction)) / sine,
  ];
}

/** Directions of the rim's corners on its front, and their like all round, from −π up. */
function rimDirections({ plan, skin }: PullState, tolerance: number): readonly number[] {
  const chords = Math.max(2, arcChords(plan.outer + skin, Math.PI / 2, tolerance));
  return Array.from({ length: 4 * chords }, (_, i) => -Math.PI + (i / chords) * (Math.PI / 2));
}

/** Turns a body about Z into one about the pin's axis. */
const onPinAxis = (state: PullState, body: Solid): Solid =>
  body.rotate('x', -Math.PI / 2).translate([-state.pinX, 0, state.pinZ]);

function crossHole(state: PullState, { kernel, tolerance }: BuildKit): Solid {
  const reach = state.plan.halfY + state.plan.outer + state.plan.fillet + state.mating + 1;
  const r = state.holeRadius;
  return onPinAxis(state, kernel.frustum([0, 0], -reach, r, reach, r, tolerance));
}

/** 90° cones in both sides of the tab on the pin's axis, inside the hole to be drilled. */
function drillDimples(state: PullState, { kernel, tolerance }: BuildKit): readonly Solid[] {
  const face = state.plan.tabHalf + state.mating;
  const depth = dimpleDepth(state);
  return [1, -1].map((end) => {
    const [tip, mouth] = [end * (face - depth), end * (face + overhang)];
    const wide = depth + overhang;
    const cone =
      end > 0
        ? kernel.frustum([0, 0], tip, 0, mouth, wide, tolerance)
        : kernel.frustum([0, 0], mouth, wide, tip, 0, tolerance);
    return onPinAxis(state, cone);
  });
}
