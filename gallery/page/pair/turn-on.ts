/** Where a turning gear is and which way it goes. */
export interface Turning {
  /** rad, counter-clockwise. */
  readonly angle: number;
  readonly way: 1 | -1;
}

/** Limits that lie nowhere leave a gear to go round; a rack is run to and fro between its ends. */
export type TurnLimits = readonly [least: number, most: number];

const full = 2 * Math.PI;

/** On by `by` rad, ≥ 0, the way it goes; turned back where it comes to a limit. */
export function turnOn({ angle, way }: Turning, by: number, [least, most]: TurnLimits): Turning {
  if (!Number.isFinite(most - least)) return { angle: angle + way * by, way };
  const span = most - least;
  // Unrolled: going out and coming back are one way of twice the length.
  const along = way > 0 ? angle - least : 2 * span - (angle - least);
  const on = (((along + by) % (2 * span)) + 2 * span) % (2 * span);
  return on <= span ? { angle: least + on, way: 1 } : { angle: least + 2 * span - on, way: -1 };
}

/** The angle, or the limit that it is beyond. */
export function withinLimits(angle: number, [least, most]: TurnLimits): number {
  return Math.min(most, Math.max(least, angle));
}

/** Degrees from 0 to below 360, for showing; within limits as it is. */
export function shownDegrees(angle: number, [least, most]: TurnLimits): number {
  const turned = Number.isFinite(most - least) ? angle : angle - full * Math.floor(angle / full);
  return (turned * 360) / full;
}
