/** Steps a field's value is moved by, round in the reader's unit. */
import { maths } from '../maths/maths.js';
import type { LengthUnit } from '../units/index.js';
import { roundStepOver } from '../units/round-step.js';
import type { FieldInfo } from './fields.js';

const finestFraction = 1 / 64;

/** Thousandths and their 1-2-5 multiples below 1/64 in, halvings of the inch from there. */
function inchStep(size: number): number {
  if (size > 1) return roundStepOver(size);
  const fraction = maths.pow(2, Math.ceil(maths.log2(size) - 1e-9));
  return fraction < finestFraction ? Math.min(roundStepOver(size), finestFraction) : fraction;
}

/** The round step that is not below `size`; all in the unit that is shown. Whole for counts. */
export function roundStep(info: FieldInfo, size: number, lengthUnit: LengthUnit): number {
  if (info.kind === 'count') return Math.max(1, roundStepOver(Math.max(size, 1)));
  return info.kind === 'length' && lengthUnit === 'in' ? inchStep(size) : roundStepOver(size);
}

/** `count` whole steps as a number without the crumbs of adding: 3 × 0.1 is 0.3. */
export const wholeSteps = (steps: number, step: number): number =>
  step >= 1 || Number.isInteger(maths.log2(step)) ? steps * step : steps / Math.round(1 / step);
