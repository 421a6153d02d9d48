/** Refusals of impossible input, kept as data so the command line and the page can phrase them. */

/** Input that no plan can be made from: which value, what it is, what would be right. */
export class FoundryInputError extends Error {
  readonly code = 'foundry-input';
  constructor(
    readonly parameter: string,
    readonly got: unknown,
    readonly expected: string,
  ) {
    super(`${parameter} is ${String(got)}; ${expected}`);
    this.name = 'FoundryInputError';
  }
}

/**
 * Gives `value` back when it is a finite number in [min, max].
 * @throws FoundryInputError naming the parameter, the value and the limits.
 */
export function checkRange(parameter: string, value: number, min: number, max: number, unit = ''): number {
  if (Number.isFinite(value) && value >= min && value <= max) return value;
  const u = unit === '' ? '' : ` ${unit}`;
  const limits = max === Number.POSITIVE_INFINITY ? `at least ${min}${u}` : `from ${min} to ${max}${u}`;
  throw new FoundryInputError(parameter, value, `it must be a number ${limits}`);
}

/**
 * Gives `value` back when it is finite and greater than zero.
 * @throws FoundryInputError otherwise.
 */
export function checkPositive(parameter: string, value: number, unit = ''): number {
  if (Number.isFinite(value) && value > 0) return value;
  throw new FoundryInputError(
    parameter,
    value,
    `it must be a number greater than 0${unit === '' ? '' : ` ${unit}`}`,
  );
}
