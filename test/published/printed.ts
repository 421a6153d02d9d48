import { expect } from 'vitest';

/** Agreement with a printed number: within half its last printed digit. */
export function printed(value: number, text: string): void {
  const decimals = text.split('.')[1]?.length ?? 0;
  // The sliver above one half is for figures that round exactly on the half.
  const slack = 0.5 * 10 ** -decimals * 1.0001;
  expect(
    Math.abs(value - Number(text)),
    `printed ${text}, computed ${value.toFixed(decimals + 3)}`,
  ).toBeLessThanOrEqual(slack);
}
