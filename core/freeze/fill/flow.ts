import { standardGravity } from '../../foundry/gating/choke.js';
import { air, type Vent, ventBackPressure, ventOutflow } from '../../foundry/gating/vents.js';
import { maths } from '../../maths/maths.js';
import { type Passage, passageLoss } from './losses.js';
import { rootOfFalling } from './root.js';

/** One of the ways from the sprue's foot into a casting; its outlet's velocity head is lost and counted in `drag`. */
export interface Branch extends Passage {
  /** z of the gate's mouth, mm. */
  readonly outlet: number;
}

/** What carries metal into a mould: mm, pattern's coordinates. */
export interface FlowProblem {
  /** z of the metal in the cup, which is kept there. */
  readonly cupLevel: number;
  /** z of the cup's bottom: metal above it is poured in, not led. */
  readonly cupFloor: number;
  /** From the cup to the sprue's foot. */
  readonly sprue: Passage;
  /** mm across where it is narrowest. */
  readonly sprueDiameter: number;
  readonly branches: readonly Branch[];
  readonly vents: readonly Vent[];
  /** Liquid metal, g/mm³. */
  readonly density: number;
  /** s that the pourer takes for the castings, who may be slower than the sprue; left out: the cup is always full. */
  readonly pourTime?: number;
  /** mm/s²; left out: standard gravity. */
  readonly gravity?: number;
}

export interface Flow {
  /** mm³/s into all castings together. */
  readonly flow: number;
  /** Pa over the surroundings: of the air in the cavity. */
  readonly backPressure: number;
}

/** mm: levels nearer than this are one. */
const levelCrumb = 1e-6;

/** g/mm³ */
const airDensity = air.density * 1e-6;

/** Of Wallis' law, for sharp-edged tubes. */
const floodingConstant = 0.725;

/**
 * mm³/s of metal that can run down a sprue while the same volume of air rises through it: counter-current flooding,
 * √j*_air + √j*_metal = 0.725, j* = j √(ρ/(g D Δρ)) (G. B. Wallis, One-dimensional Two-phase Flow, 1969, from memory).
 * Surface tension, which in a sprue of a few millimetres may stop it altogether, is left out.
 */
export function floodingFlow(diameter: number, density: number, gravity = standardGravity): number {
  const both = (maths.pow(density, 0.25) + maths.pow(airDensity, 0.25)) ** 2;
  const speed = (floodingConstant ** 2 * Math.sqrt(gravity * diameter * (density - airDensity))) / both;
  return (Math.PI / 4) * diameter ** 2 * speed;
}

/**
 * Flow into the mould while the metal in it stands at z = `level` and its air at `pressure` Pa: Bernoulli from the cup
 * to each gate's mouth, or to the level where that stands over it, with losses. Falls with both.
 */
export function inflow(problem: FlowProblem, level: number, pressure: number): number {
  const { cupLevel, sprue, branches, density, gravity = standardGravity } = problem;
  const driving = branches.map(
    ({ outlet }) => gravity * (cupLevel - Math.max(outlet, level)) - pressure / density,
  );
  if (!driving.some((d) => d > 0)) return 0;
  const [only, ...others] = branches;
  if (only && others.length === 0)
    return carried((q) => passageLoss(sprue, q) + passageLoss(only, q), driving[0]!, sprue.drag + only.drag);
  const through = (lost: number): number =>
    branches.reduce(
      (sum, branch, i) => sum + carried((q) => passageLoss(branch, q), driving[i]! - lost, branch.drag),
      0,
    );
  return rootOfFalling((q) => through(passageLoss(sprue, q)) - q, 0, through(0));
}

/** The flow at which a loss that rises with it, by at least `drag` times its square, uses up `energy`. */
const carried = (loss: (flow: number) => number, energy: number, drag: number): number =>
  energy <= 0 ? 0 : rootOfFalling((q) => energy - loss(q), 0, Math.sqrt(energy / drag));

/**
 * Flow and pressure of the air while the metal in the mould stands at z = `level`: as much air leaves as metal comes,
 * and no more metal than is `poured`, mm³/s. Vents count until the castings are full. What they cannot let out may rise
 * past the metal in the sprue, the only way where there are none: see `floodingFlow`.
 */
export function flowAt(problem: FlowProblem, level: number, poured = Number.POSITIVE_INFINITY): Flow {
  const { cupLevel, sprueDiameter, vents, density, gravity = standardGravity } = problem;
  const head = cupLevel - Math.max(lowestOutlet(problem), level);
  const most = density * gravity * head;
  if (!(head > levelCrumb)) return { flow: 0, backPressure: 0 };
  const past = floodingFlow(sprueDiameter, density, gravity);
  const free = inflow(problem, level, 0);
  if (free <= past) return { flow: Math.min(free, poured), backPressure: 0 };
  const outflow = (pressure: number): number => Math.max(past, ventOutflow(vents, pressure));
  const backPressure = rootOfFalling((p) => inflow(problem, level, p) - outflow(p), 0, most);
  const flow = inflow(problem, level, backPressure);
  if (flow <= poured) return { flow, backPressure };
  return {
    flow: poured,
    backPressure: vents.length === 0 ? 0 : Math.min(backPressure, ventBackPressure(vents, poured)),
  };
}

/** z of the lowest gate's mouth: up to it a level changes nothing. */
const lowestOutlet = ({ branches }: FlowProblem): number =>
  branches.reduce((least, b) => Math.min(least, b.outlet), Number.POSITIVE_INFINITY);
