import { type Outline, polygonOutline } from '../../core/shape/index.js';
import { turningDistance } from '../hinge/turning-distance.js';
import { planOutline } from './outline.js';
import type { RudderSizes } from './sizes.js';

const most = Math.PI / 2;
const step = Math.PI / 90;
/** Transom and blade go on this far, mm: beyond whatever they meet up to a right angle. */
const endless = 2000;

/**
 * How far the rudder swings to each side, radians, at most a right angle, until something is as near as half the
 * clearance of pin and hole: that much the axis may shift. Over the gudgeon turn the pintle's boss and straps, with
 * the blade in them, before the transom; at the gudgeon's height the blade turns before gudgeon and transom. Blade
 * and transom (or sternpost) are taken as square and flat.
 */
export function swingLimit(pintle: RudderSizes, gudgeon: RudderSizes): number {
  const blade = wood(pintle.standOff, pintle.wood / 2);
  const transom = wood(gudgeon.standOff, endless);
  const distances = [
    turningDistance(transom, planOutline(pintle)),
    turningDistance(transom, blade),
    turningDistance(planOutline(gudgeon), blade),
  ];
  const margin = (gudgeon.holeDiameter - pintle.pinDiameter) / 2;
  const clear = (swing: number): boolean =>
    distances.every((distance) => distance(Math.PI - swing) >= margin - 1e-9);
  if (!clear(0)) return 0;
  let free = 0;
  while (free < most && clear(Math.min(most, free + step))) free += step;
  if (free >= most) return most;
  let blocked = free + step;
  for (let i = 0; i < 16; i++) {
    const middle = (free + blocked) / 2;
    if (clear(middle)) free = middle;
    else blocked = middle;
  }
  return free;
}

const wood = (from: number, half: number): Outline =>
  polygonOutline([
    [from, -half],
    [from + endless, -half],
    [from + endless, half],
    [from, half],
  ]);
