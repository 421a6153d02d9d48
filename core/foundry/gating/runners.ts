import { maths } from '../../maths/maths.js';
import type { GatePlace } from '../../part/contract.js';
import { circleRound } from '../../shape/circle-round.js';
import type { Vec2, Vec3 } from '../../solid/types.js';
import type { RisingPath } from './clearance.js';
import type { GateDesign } from './gate-size.js';
import { footHeights, neckLength, roofAngle, sprueMouth } from './sprue.js';

/** A gate with the runner that brings it metal. */
export type RunnerGate = Pick<GateDesign, 'place' | 'inner' | 'outer' | 'diameter'>;

/** Least lean of a runner above the horizontal: a little steeper than the 45° that prints without support. */
export const runnerLean = roofAngle;

/** Upright piece between the part's highest point and where a runner may lean, mm. */
const stub = 2;

/**
 * Half of a leaning runner's length along its lean at any level, mm: a round one of radius r leaning by φ is an ellipse
 * there, r/sin φ along and r across. One value for all runners of a diameter: at the least lean.
 */
export const halfAlong = (diameter: number): number => diameter / 2 / maths.sin(runnerLean);

/** How far the middle moves over the turn from round to ellipse, whose back stays where the round's was, mm. */
const turnShift = (diameter: number): number => halfAlong(diameter) - diameter / 2;

/** Height of that turn as a share of the diameter: its front then leans no lower than the runner. */
const turnShare = 0.4;

/** z at which a gate's runner is upright and round for the last time. */
export const leanFrom = (gate: RunnerGate, partTop: number): number => {
  const foot = footHeights(gate.inner, gate.outer, gate.diameter);
  return Math.max(gate.place.at[2] + foot.top + neckLength, partTop + stub);
};

const leanStart = (gate: RunnerGate, partTop: number): number =>
  leanFrom(gate, partTop) + turnShare * gate.diameter;

/** Middle in plan of the smallest circle round the places: where the sprue's foot makes the runners shortest. */
export const middleOf = (places: readonly GatePlace[]): Vec2 => {
  const { x, y } = circleRound(places.flatMap(({ at }) => [at[0], at[1]]));
  return [x, y];
};

/** How far the thinnest runner's middle is from the sprue's axis where the sprue begins, as a share of `halfAlong`. */
const mouthOffset = 0.75;

type Width = Pick<RunnerGate, 'diameter'>;

const thinnest = (gates: readonly Width[]): number => Math.min(...gates.map((g) => g.diameter));

/** How far under the junction the sprue begins, its mouth still inside the runners, mm. */
export const mouthDepth = (gates: readonly RunnerGate[]): number =>
  mouthOffset * halfAlong(thinnest(gates)) * maths.tan(runnerLean);

/**
 * Diameter of the metal's way at the junction, where the runners have become one and the sprue, which widens as they
 * lean, has not reached its full width, mm.
 */
export const junctionDiameter = (gates: readonly Width[]): number =>
  Math.max(overMouth(thinnest(gates)), ...gates.map((g) => g.diameter));

/** That way over runners of one diameter: it grows as they do. */
const overMouth = (diameter: number): number => sprueMouth(diameter) + 2 * mouthOffset * halfAlong(diameter);

/** How wide all runners are for that way to be so wide, mm. */
export const runnerForJunction = (diameter: number): number => diameter / overMouth(1);

/** Where the runners meet: over the middle, high enough that none leans lower than it may. */
export const junctionOf = (gates: readonly RunnerGate[], partTop: number): Vec3 => {
  const [x, y] = middleOf(gates.map((g) => g.place));
  const heights = gates.map((gate) => {
    const out = maths.hypot(gate.place.at[0] - x, gate.place.at[1] - y) - turnShift(gate.diameter);
    return leanStart(gate, partTop) + Math.max(gate.diameter / 2, out * maths.tan(runnerLean));
  });
  return [x, y, Math.max(...heights)];
};

/** Centre line: up from the gate, through the turn, then straight to the junction. */
export const runnerPath = (gate: RunnerGate, junction: Vec3, partTop: number): RisingPath => {
  const [x, y, z] = gate.place.at;
  const [dx, dy] = [junction[0] - x, junction[1] - y];
  const out = maths.hypot(dx, dy);
  const share = out === 0 ? 0 : Math.min(1, turnShift(gate.diameter) / out);
  return [
    [x, y, z],
    [x, y, leanFrom(gate, partTop)],
    [x + share * dx, y + share * dy, leanStart(gate, partTop)],
    junction,
  ];
};
