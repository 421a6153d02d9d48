/**
 * What metal loses on its way through sprue, runners and gates, as energy a mass, mm²/s² (g × mm of head). One
 * convention: losses of the energy line, so that a change of velocity alone costs nothing.
 * Sources: D. Bernoulli, Hydrodynamica, 1738; J. Weisbach (knees); H. Blasius, 1913 (friction of smooth pipes); Borda
 * and Carnot (widening); F. M. White, Fluid Mechanics, ch. 6, minor losses (from memory).
 */

import { maths } from '../../maths/maths.js';

/** mm²/s, of liquid metals near their liquidus: 0.3 to 0.7 (T. Iida and R. I. L. Guthrie, from memory). */
const kinematicViscosity = 0.5;

/** Of velocity heads: from the cup's cone into the sprue, between sharp 0.5 and well rounded 0.04 (White, from memory). */
export const entryLoss = 0.25;

/** A slowly narrowing cone, in heads at its narrow end: 0.02 to 0.07 (White, from memory). */
export const taperLoss = 0.05;

/** A knee that turns the stream by `angle` radians: ζ = 0.9457 sin²(θ/2) + 2.047 sin⁴(θ/2) (Weisbach). */
export const kneeLoss = (angle: number): number => {
  const s = maths.sin(angle / 2) ** 2;
  return 0.9457 * s + 2.047 * s * s;
};

/** From `from` mm² to less, in heads of the narrower: ζ = 0.5 (1 − A₂/A₁) (White). 0 where it widens. */
export const narrowingLoss = (from: number, to: number): number => (to < from ? 0.5 * (1 - to / from) : 0);

/** From `from` mm² to more, in heads of the narrower: ζ = (1 − A₁/A₂)² (Borda and Carnot). 0 where it narrows. */
export const wideningLoss = (from: number, to: number): number => (to > from ? (1 - from / to) ** 2 : 0);

/** Velocity heads lost where the section is `area` mm², as energy over the flow's square, 1/mm⁴. */
export const headsAt = (heads: number, area: number): number => heads / (2 * area * area);

/** A round pipe, straight or tapered, mm. */
export interface Pipe {
  readonly length: number;
  readonly from: number;
  readonly to: number;
}

/**
 * Friction of a pipe at `flow` mm³/s, mm²/s²: λ (L/D) v²/2, with λ the greater of 64/Re and Blasius' 0.3164 Re^(−1/4),
 * so that it only rises with the flow. Along a taper D^(−5) is averaged in closed form, Re taken at the middle.
 */
export function pipeFriction({ length, from, to }: Pipe, flow: number): number {
  if (flow <= 0 || length <= 0) return 0;
  const middle = (from + to) / 2;
  const reynolds = (4 * flow) / (Math.PI * middle * kinematicViscosity);
  const friction = Math.max(64 / reynolds, 0.3164 * maths.pow(reynolds, -0.25));
  const fifth = ((from + to) * (from * from + to * to)) / (4 * maths.pow(from, 4) * maths.pow(to, 4));
  return (friction * length * fifth * 8 * flow * flow) / Math.PI ** 2;
}

/** Passages one after the other: what they lose with the flow's square, 1/mm⁴, and their friction. */
export interface Passage {
  readonly drag: number;
  readonly pipes: readonly Pipe[];
}

/** Energy lost in a passage at `flow` mm³/s, mm²/s²; rises with it. */
export function passageLoss({ drag, pipes }: Passage, flow: number): number {
  let sum = drag * flow * flow;
  for (const pipe of pipes) sum += pipeFriction(pipe, flow);
  return sum;
}
