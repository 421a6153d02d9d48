import { maths } from '../maths/maths.js';
import type { PlaneCurve } from '../solid/sample-curve.js';
import type { PinMeasurement } from './over-pins.js';
import type { ToothForm } from './tooth-form.js';

/*
 * More that is measured over pins or balls whose centres lie on one circle: plain geometry of points 360°/z apart on it.
 */

/**
 * Size over three pins of a gear with an odd tooth number, mm: a flat rests on two in neighbouring spaces, the other on
 * the third opposite, M = d_c (1 + cos(180°/z)) / 2 + D_M.
 */
export const overThreePins = ({ centreDiameter, pinDiameter }: PinMeasurement, teeth: number): number =>
  (centreDiameter / 2) * (1 + maths.cos(Math.PI / teeth)) + pinDiameter;

/** Size over two pins in neighbouring spaces, mm, which shows each tooth's own pitch: d_c sin(180°/z) + D_M. */
export const overNeighbours = ({ centreDiameter, pinDiameter }: PinMeasurement, teeth: number): number =>
  centreDiameter * maths.sin(Math.PI / teeth) + pinDiameter;

/** Whether pins in neighbouring spaces keep clear of each other, by a tenth of their diameter. */
export const neighboursClear = ({ centreDiameter, pinDiameter }: PinMeasurement, teeth: number): boolean =>
  centreDiameter * maths.sin(Math.PI / teeth) > 1.1 * pinDiameter;

/** Distance of centres in opposite, for odd z nearly opposite, spaces as a share of their circle's diameter. */
const across = (teeth: number): number => (teeth % 2 === 0 ? 1 : maths.cos(Math.PI / (2 * teeth)));

/** Size over two pins that lie on the roots of opposite (odd z: nearly opposite) spaces, mm. */
export const overRootPins = (rootDiameter: number, teeth: number, pinDiameter: number): number =>
  (rootDiameter + pinDiameter) * across(teeth) + pinDiameter;

/** Root diameter from the size over such a pair, mm. */
export const rootFromPins = (size: number, teeth: number, pinDiameter: number): number =>
  (size - pinDiameter) / across(teeth) - pinDiameter;

const looks = 64;
/** Clear of fillet and flank by this much, mm, so that the pin surely touches the root and nothing else. */
const clearance = 0.02;

/**
 * Whether a pin or ball in the middle of a space touches the root before it touches flank or fillet. On a helical gear a
 * ball's nearest point of the flank lies out of the section: at least the distance in it times cos β.
 * @param grown the tooth is the form's times this, the pin as it is
 */
export function rootPinFits(form: ToothForm, pinDiameter: number, helixAngle: number, grown = 1): boolean {
  const radius = pinDiameter / 2 / grown;
  const centre = form.rootRadius + radius;
  const middle = Math.PI / form.teeth;
  const [cx, cy] = [centre * maths.cos(middle), centre * maths.sin(middle)];
  const tipLean = maths.cos(maths.atan((maths.tan(helixAngle) * form.tipRadius) / form.rack.radius));
  return form.curves.every((curve) => leastDistance(curve, cx, cy) * tipLean > radius + clearance);
}

/** Of the curve's points that stand higher than the root. */
function leastDistance({ from, to, at }: PlaneCurve, cx: number, cy: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i <= looks; i++) {
    const [x, y] = at(from + ((to - from) * i) / looks);
    least = Math.min(least, maths.hypot(x - cx, y - cy));
  }
  return least;
}
