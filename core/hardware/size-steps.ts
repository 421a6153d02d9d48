/** What worked-out sizes are rounded to. mm. */
import type { FastenerSeries } from './fastener.js';

/** Half a millimetre, a thirty-second of an inch. */
export const sizeStep: Readonly<Record<FastenerSeries, number>> = { metric: 0.5, inch: 25.4 / 32 };

/** To the nearest step, never to nought. */
export const nearStep = (series: FastenerSeries, value: number): number =>
  Math.max(sizeStep[series], Math.round(value / sizeStep[series]) * sizeStep[series]);

/** To the next step above, unless it is on one. */
export const upStep = (series: FastenerSeries, value: number): number =>
  Math.ceil(value / sizeStep[series] - 1e-9) * sizeStep[series];
