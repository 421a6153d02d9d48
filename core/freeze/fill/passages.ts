import { circleArea } from '../../foundry/gating/choke.js';
import { junctionDiameter } from '../../foundry/gating/runners.js';
import { footHeights, neckLength, sprueShape } from '../../foundry/gating/sprue.js';
import type { Vent } from '../../foundry/gating/vents.js';
import type { GateSize, GatingPlan } from '../../foundry/plans.js';
import { maths } from '../../maths/maths.js';
import type { Vec3 } from '../../solid/types.js';
import type { Branch, FlowProblem } from './flow.js';
import {
  entryLoss,
  headsAt,
  kneeLoss,
  narrowingLoss,
  type Passage,
  taperLoss,
  wideningLoss,
} from './losses.js';

type Runner = NonNullable<GateSize['runner']>;

/**
 * The passages of a gating plan, in the order in which metal takes them: cup, tapered sprue, neck, then a gate or
 * runners with a gate each. Losses stand here in place of the plan's discharge coefficient, which is not used again. A
 * gate wider than what leads to it is not filled by the jet: the narrower of both is its outlet. The pourer is taken to
 * need all the time that the plan allows. `density`: of liquid metal, g/mm³.
 */
export function flowProblemOf(gating: GatingPlan, density: number): FlowProblem {
  const { gates, sprue, cup, topHeight } = gating;
  const runners = gates.flatMap((g) => (g.runner ? [g.runner] : []));
  const throat =
    runners.length > 0 ? Math.min(sprue.bottomDiameter, junctionDiameter(runners)) : sprue.bottomDiameter;
  const foot = circleArea(throat);
  const onward = runners.reduce((sum, r) => sum + circleArea(r.diameter), 0);
  return {
    cupLevel: topHeight,
    cupFloor: topHeight - cup.depth,
    sprue: spruePassage(gating, throat, onward),
    sprueDiameter: Math.min(sprue.bottomDiameter, sprue.topDiameter, throat),
    branches: gates.map((gate) =>
      gate.runner
        ? runnerBranch(gate, gate.runner, narrowingLoss(foot, onward))
        : outletBranch(gate, foot, { drag: 0, pipes: [] }),
    ),
    vents: gating.vents.flatMap(({ name, diameter, path: [first, second, ...rest] }): Vent[] =>
      first && second ? [{ name, diameter, path: [first, second, ...rest] }] : [],
    ),
    density,
    pourTime: gating.fill.pourTime,
  };
}

/** From the cup to the sprue's foot; with runners of `onward` mm² together, and its widening into them. */
function spruePassage(gating: GatingPlan, throat: number, onward: number): Passage {
  const shape = sprueShape(gating);
  const foot = footHeights(shape.gateInner, shape.gateOuter, shape.bottomDiameter);
  const area = circleArea(throat);
  const narrow = neckLength + (onward > 0 ? 0 : foot.top);
  return {
    drag:
      headsAt(entryLoss, circleArea(shape.topDiameter)) +
      headsAt(taperLoss, circleArea(Math.min(shape.bottomDiameter, shape.topDiameter))) +
      headsAt(narrowingLoss(circleArea(shape.bottomDiameter), area), area) +
      (onward > 0 ? headsAt(wideningLoss(area, onward), area) : 0),
    pipes: [
      {
        length: Math.max(0, shape.length - foot.top - neckLength),
        from: shape.topDiameter,
        to: shape.bottomDiameter,
      },
      { length: narrow, from: throat, to: throat },
    ],
  };
}

/** A gate as outlet: the whole velocity head of the narrower of gate and `before` mm² is lost in the casting. */
function outletBranch(gate: GateSize, before: number, way: Passage): Branch {
  const outlet = Math.min(before, gate.area);
  return {
    outlet: gate.at[2],
    drag: way.drag + headsAt(1 + narrowingLoss(before, gate.area), outlet),
    pipes: way.pipes,
  };
}

/** A runner with its knees, and its gate; `entry`: heads lost where the sprue narrows into all runners. */
function runnerBranch(gate: GateSize, { diameter, path }: Runner, entry: number): Branch {
  const area = circleArea(diameter);
  // From the sprue's downward run along the path to the gate, where it goes downward again.
  const down: Vec3 = [0, 0, -1];
  const ways = [...path].reverse();
  const runs = ways.slice(1).map((p, i) => minus(p, ways[i]!));
  const turns = [down, ...runs, down];
  const knees = turns.slice(1).reduce((sum, run, i) => sum + kneeLoss(between(turns[i]!, run)), 0);
  const length = runs.reduce((sum, run) => sum + maths.hypot(...run), 0);
  return outletBranch(gate, area, {
    drag: headsAt(entry + knees, area),
    pipes: [{ length, from: diameter, to: diameter }],
  });
}

const minus = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];

/** Angle between two ways, radians; 0 where one has no length. */
function between(a: Vec3, b: Vec3): number {
  const lengths = maths.hypot(...a) * maths.hypot(...b);
  const dot = a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  return lengths === 0 ? 0 : maths.acos(Math.min(1, Math.max(-1, dot / lengths)));
}
