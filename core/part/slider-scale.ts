/** The stops of a slider: round values inside a field's range, closer together where values are small. */
import type { LengthUnit } from '../units/index.js';
import { toShown } from './field-text.js';
import type { FieldInfo } from './fields.js';
import { roundStep, wholeSteps } from './round-step.js';

export interface SliderScale {
  /** In the unit that is shown, ascending. */
  readonly stops: readonly number[];
  /** What it spans, in the unit that is shown, and whether the range goes on beyond. */
  readonly low: number;
  readonly high: number;
  readonly moreBelow: boolean;
  readonly moreAbove: boolean;
}

/** Above this ratio of its ends a slider is logarithmic. */
const widestEven = 20;
/** Above this one it shows a window about the value, by this factor to each side. */
const widestWhole = 60;
const windowFactor = 4;
/** A window shows this share of the range at least. */
const leastShare = 0.001;
/** A count is a window where it has more whole numbers than a slider can tell apart. */
const mostWhole = 100;
/** From nothing to more than this, a slider needs a value to be made about. */
const mostUnknown = 1000;
/** Parts an even slider is cut into at least. */
const evenParts = 100;
/** A value is about this many of its steps, before they are made round. */
const stepsInValue = 70;

/**
 * Made for a field with both bounds; `undefined` where there is nothing to slide along. `anchor` is the value it is made
 * about (mm, radians …), where there is one; the same anchor gives the same scale.
 */
export function sliderScale(
  info: FieldInfo,
  lengthUnit: LengthUnit,
  anchor: number | undefined,
): SliderScale | undefined {
  if (info.min === undefined || info.max === undefined || info.max <= info.min) return undefined;
  const [min, max] = [toShown(info, info.min, lengthUnit), toShown(info, info.max, lengthUnit)];
  const about = anchor === undefined ? undefined : toShown(info, anchor, lengthUnit);
  if (about === undefined && min === 0 && max > mostUnknown) return undefined;
  const [low, high] = windowAbout(info, min, max, about);
  const stops = stopsBetween(info, low, high, lengthUnit).filter((stop) => inside(stop, min, max));
  if (stops.length < 2) return undefined;
  return { stops, low, high, moreBelow: low > min, moreAbove: high < max };
}

/** A bound in inches or degrees carries crumbs of conversion; readers of values allow for them too. */
const inside = (stop: number, min: number, max: number): boolean =>
  stop >= min - 1e-10 * Math.max(1, Math.abs(min)) && stop <= max + 1e-10 * Math.max(1, Math.abs(max));

function windowAbout(
  info: FieldInfo,
  min: number,
  max: number,
  about: number | undefined,
): readonly [number, number] {
  if (about === undefined || about <= 0 || min < 0) return [min, max];
  const wide = info.kind === 'count' ? max - min > mostWhole : min === 0 || max / min > widestWhole;
  if (!wide) return [min, max];
  const low = min === 0 ? 0 : Math.max(min, about / windowFactor);
  // A value near an end still gets room.
  return [
    low,
    Math.min(max, Math.max(about * windowFactor, low * windowFactor, low + (max - min) * leastShare)),
  ];
}

function stopsBetween(info: FieldInfo, low: number, high: number, lengthUnit: LengthUnit): number[] {
  const stops: number[] = [];
  const even = low <= 0 || high / low <= widestEven;
  const evenStep = roundStep(info, (high - low) / (2 * evenParts), lengthUnit);
  let at = low;
  for (;;) {
    const step = even ? evenStep : roundStep(info, at / stepsInValue, lengthUnit);
    // A low end that is round itself is the first stop.
    const last = stops.at(-1);
    const steps = last === undefined ? Math.ceil(at / step - 1e-9) : Math.floor(last / step + 1e-9) + 1;
    at = wholeSteps(steps, step);
    if (at > high + 1e-9 * Math.max(1, high)) return stops;
    stops.push(at);
  }
}

/** The stop nearest to a value in the unit that is shown. */
export function nearestStop({ stops }: SliderScale, shown: number): number {
  const after = stops.findIndex((stop) => stop >= shown);
  if (after <= 0) return after === 0 ? 0 : stops.length - 1;
  return shown - stops[after - 1]! < stops[after]! - shown ? after - 1 : after;
}

/** Whether a value lies at an end of a window that the range goes on beyond: it wants a new window. */
export function outgrown(scale: SliderScale, shown: number): boolean {
  const margin = (scale.high - scale.low) / 16;
  return (
    (scale.moreAbove && shown > scale.high - margin) || (scale.moreBelow && shown < scale.low + margin / 4)
  );
}

/** The next round value up or down, kept in the range; in the unit that is shown. `by` steps at once. */
export function stepValue(
  info: FieldInfo,
  shown: number,
  direction: 1 | -1,
  by: number,
  lengthUnit: LengthUnit,
): number {
  const min = info.min === undefined ? Number.NEGATIVE_INFINITY : toShown(info, info.min, lengthUnit);
  const max = info.max === undefined ? Number.POSITIVE_INFINITY : toShown(info, info.max, lengthUnit);
  const span = Number.isFinite(max - min) ? max - min : 100;
  const step = roundStep(info, Math.max(Math.abs(shown) / stepsInValue, span / 2000), lengthUnit);
  const from = shown / step;
  const next = direction > 0 ? Math.floor(from + 1e-9) + by : Math.ceil(from - 1e-9) - by;
  return wholeSteps(
    Math.min(Math.max(next, Math.ceil(min / step - 1e-9)), Math.floor(max / step + 1e-9)),
    step,
  );
}
