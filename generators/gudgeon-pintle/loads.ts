import {
  checkLoad,
  gudgeonRule,
  knot,
  type LoadCheck,
  lugStresses,
  pintleMembers,
  pintleReactions,
  rodAllowables,
  rudderForce,
  stockRods,
  stressCheck,
} from '../../core/hardware/index.js';
import { strengthAllowables } from '../hardware/load-fields.js';
import type { GudgeonPintleParameters } from './parameters.js';

/** What the fitting is checked with, finished, mm. */
export interface PintleLoadSizes {
  readonly pinDiameter: number;
  readonly holeDiameter: number;
  readonly strapWidth: number;
  readonly wall: number;
}

/** Room that opens between pintle's shoulder and gudgeon as they wear, mm (common practice, no source). */
const wornGap = 1;

/** Force on the harder pressed of the two pintles, N. */
export function pintleForce(p: GudgeonPintleParameters): number {
  const area = p.size * (p.bladeWidth ?? 0.4 * p.size);
  const force = rudderForce(area, p.size, p.speed * knot);
  const lower = p.lowerHeight ?? 0.5 * p.size;
  const on = pintleReactions(force, p.size / 2, lower + (p.spacing ?? 0.6 * p.size), lower);
  return Math.max(Math.abs(on.upper), Math.abs(on.lower));
}

/** Pin, bearing and the lug round the gudgeon's hole. */
export function checkPintle(p: GudgeonPintleParameters, s: PintleLoadSizes): LoadCheck {
  const casting = strengthAllowables(p.strengthOf);
  const pin = p.pin === 'rod' ? rodAllowables(p.pinMaterial) : casting;
  const force = pintleForce(p);
  const lug = lugStresses(force, {
    width: s.holeDiameter + 2 * s.wall,
    thickness: s.strapWidth,
    holeDiameter: s.holeDiameter,
    pinDiameter: s.pinDiameter,
    edge: s.holeDiameter / 2 + s.wall,
  });
  return checkLoad(force, [
    ...pintleMembers(
      force,
      { diameter: s.pinDiameter, gudgeonHeight: s.strapWidth, gap: wornGap },
      pin,
      casting,
    ),
    stressCheck('gudgeon', 'tension beside the hole', lug.netTension, casting),
    stressCheck('gudgeon', 'shear-out behind the hole', lug.shearOut, casting, 'shear'),
  ]);
}

/** The thinnest stock rod whose pintle bears the force; the thickest there is if none does. mm */
export function pintleByLoad(p: GudgeonPintleParameters): number {
  const row = stockRods[p.series].filter((rod) => rod >= 5.5);
  const bears = row.find((rod) => {
    const rule = gudgeonRule(rod);
    const check = checkPintle(p, {
      pinDiameter: rod,
      holeDiameter: rod + rule.clearance,
      strapWidth: p.strapWidth ?? rule.strapWidth,
      wall: rule.wall,
    });
    return check.utilisation <= 1;
  });
  return bears ?? (row[row.length - 1] as number);
}
