import type { BuildKit } from '../../core/part/contract.js';
import type { LoftSection, Polygon, Solid, Vec3 } from '../../core/solid/types.js';
import type { PullState } from './levels.js';
import { pullOutline, stadiumAt, stadiumPoints } from './outline.js';

const level = (outline: Polygon, z: number): LoftSection => ({
  points: outline.map(([x, y]): Vec3 => [x, y, z]),
});

/** Whether the cross hole is in this state, or two dimples to start a drill in, or neither. */
export type HoleForm = 'hole' | 'dimples';

/** The pull's solid in one state. The checks must have passed. */
export function pullSolid(state: PullState, hole: HoleForm, kit: BuildKit): Solid {
  const body = bevelled(state, kit).subtract(eye(state, kit));
  const lipped = state.lip === null ? body : body.subtract(lipCutter(state, state.lip.creaseX, kit));
  return lipped.subtract(...(hole === 'hole' ? [crossHole(state, kit)] : drillDimples(state, kit)));
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
 * that bevel is the elliptical cone ρ + h = constant. Its normal is the same all along a generator, so the cone
 * moved by the skin is again made of straight lines: each generator, moved along its own normal.
 */
function lipCutter(state: PullState, creaseX: number, { kernel, tolerance }: BuildKit): Solid {
  const { plan, skin, bottom, top, freeEnd } = state;
  const { thickness, bevel, lipAngle } = state.sizes;
  const slope = Math.tan(lipAngle);
  const start = creaseX - 1;
  const side = plan.halfY + plan.outer + skin + 2;
  const front = freeEnd + skin + 2;
  const planeH = thickness + creaseX * slope + skin / Math.cos(lipAngle);
  // Deep enough that the kept body's lower end is under the show face all over the cutter.
  const drop = planeH - (bottom - 2 + (start - 1) * slope);

  const sectionAt = (depth: number): LoftSection => {
    const atPlane = (x: number, y: number): Vec3 => [x, y, planeH - depth - x * slope];
    if (bevel === 0) {
      return {
        points: [
          atPlane(start - 1, -side - 1),
          atPlane(front + 1, -side - 1),
          atPlane(front + 1, side + 1),
          atPlane(start - 1, side + 1),
        ],
      };
    }
    return {
      points: stadiumPoints(plan, plan.outer - bevel + drop, tolerance).map(({ centre, direction }) => {
        const [cos, sin] = [Math.cos(direction), Math.sin(direction)];
        const steep = Math.hypot(cos + slope, sin, 1);
        const along = (skin * (1 + slope * cos + slope * slope)) / steep - skin / Math.cos(lipAngle);
        const reach = plan.outer - bevel + along + depth;
        return atPlane(
          centre[0] + reach * cos + (skin * (cos + slope)) / steep,
          centre[1] + reach * sin + (skin * sin) / steep,
        );
      }),
    };
  };
  const kept = kernel.loft([sectionAt(drop), sectionAt(0)]);
  return kernel.box([start, -side, bottom - 1], [front, side, top + 1]).subtract(kept);
}

/** Turns a body about Z into one about the pin's axis. */
const onPinAxis = (state: PullState, body: Solid): Solid =>
  body.rotate('x', -Math.PI / 2).translate([-state.pinX, 0, state.sizes.thickness / 2]);

function crossHole(state: PullState, { kernel, tolerance }: BuildKit): Solid {
  const reach = state.plan.halfY + state.plan.outer + state.plan.fillet + state.mating + 1;
  const r = state.holeRadius;
  return onPinAxis(state, kernel.frustum([0, 0], -reach, r, reach, r, tolerance));
}

/** How deep drill dimples go under the finished side, mm, so that facing the tab leaves them to be seen. */
const dimpleUnderSide = 0.8;

/** 90° cones in both sides of the tab on the pin's axis, inside the hole to be drilled. */
function drillDimples(state: PullState, { kernel, tolerance }: BuildKit): readonly Solid[] {
  const face = state.plan.tabHalf + state.mating;
  const depth = Math.min(state.mating + dimpleUnderSide, 0.4 * state.sizes.holeDiameter);
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
