import {
  type Bolt,
  boltAllowables,
  type CountersinkSeat,
  cleatBolt,
  edgeDistance,
  headLand,
  hornCleatRule,
  leastCleatScrew,
  leastPinWall,
  leastPitch,
  leastPlate,
  nearStep,
  upStep,
} from '../../core/hardware/index.js';
import { maths } from '../../core/maths/maths.js';
import { pullOfLine } from '../hardware/load-fields.js';
import { askedScrew, countersunkBolts, seatOf } from '../hardware/screw-field.js';
import type { HornCleatParameters } from './parameters.js';

/** Every size of a horn cleat, mm; z counts up from the deck. */
export interface HornCleatSizes {
  readonly line: number;
  readonly length: number;
  readonly base: 'open' | 'closed';
  readonly fasteners: 2 | 4;
  readonly screw: Bolt;
  readonly seat: CountersinkSeat;
  readonly hornHeight: number;
  readonly hornWidth: number;
  readonly tipHeight: number;
  readonly sweep: number;
  readonly clearance: number;
  readonly legLength: number;
  readonly legWidth: number;
  /** Between the middles of the legs, halved, at half height; 0 for a neck. */
  readonly legAt: number;
  /** Clear width between the legs; 0 for a neck. */
  readonly opening: number;
  readonly baseLength: number;
  readonly baseWidth: number;
  readonly baseThickness: number;
  /** Rounding of the base's upper edge. */
  readonly edgeRadius: number;
  /** Screws at (±screwAlong, ±screwAcross); across 0 for two of them. */
  readonly screwAlong: number;
  readonly screwAcross: number;
  readonly fillet: number;
}

/** Bolts are reckoned as stainless: what is sold for boats. */
export const cleatBoltMaterial = 'stainless steel A2-70';

/** Horns are a little wider than high: they lie better in the hand and on the line. */
const hornBreadth = 1.08;

/** Between a screw's head and what stands beside it, mm. */
export const headGap = 0.75;

/** The sizes the parameters stand for; a given one is never changed. */
export function hornCleatSizes(p: HornCleatParameters): HornCleatSizes {
  const asked = askedScrew(p.screw);
  if (asked !== undefined) return sizesWith(p, asked);
  const row = countersunkBolts[p.series];
  let screw = row.find((bolt) => bolt.diameter >= leastCleatScrew(p.line) - 1e-9) ?? row[row.length - 1]!;
  let sizes = sizesWith(p, screw);
  // Thicker ones until they bear the pull, or their heads have no room left in the horns.
  for (;;) {
    const needed = cleatBolt(p.series, pullOfLine(p), boltedBase(sizes), boltAllowables(cleatBoltMaterial));
    if (needed.diameter <= screw.diameter + 1e-9) return sizes;
    const next = row[row.indexOf(screw) + 1];
    if (next === undefined) return sizes;
    const thicker = sizesWith(p, next);
    if (thicker.hornWidth > 1.55 * thicker.hornHeight) return sizes;
    [screw, sizes] = [next, thicker];
  }
}

/** What tilts and holds a cleat's base. */
export const boltedBase = (s: HornCleatSizes) => ({
  hornClearance: s.baseThickness + s.clearance,
  lineDiameter: s.line,
  baseLength: s.baseLength,
  fastenerSpan: 2 * s.screwAlong,
  fasteners: s.fasteners,
});

function sizesWith(p: HornCleatParameters, screw: Bolt): HornCleatSizes {
  const near = (value: number): number => nearStep(p.series, value);
  const up = (value: number): number => upStep(p.series, value);
  const rule = hornCleatRule(p.line, p.length);
  const { length } = rule;
  const fasteners = p.fasteners === 'auto' ? rule.fasteners : p.fasteners === '2' ? 2 : 4;
  const hornHeight = p.hornHeight ?? near(rule.hornDiameter.root);
  const clearance = p.clearance ?? up(rule.hornClearance.root);
  const fillet = p.fillet ?? near(Math.max(1.5, 0.38 * hornHeight));
  const seat = seatOf(screw);
  const mouth = seat.mouthDiameter;
  const hole = seat.holeDiameter;
  const through = fasteners === 2;
  const sound = hole + 2 * leastPinWall(hole);

  const legWidth = p.legWidth ?? near(Math.max(0.84 * hornHeight, through ? sound : 0));
  const hornWidth = Math.max(
    near(hornBreadth * hornHeight),
    up(legWidth + 1),
    through ? up(mouth + 2 * headLand(mouth)) : 0,
  );
  const baseThickness = p.baseThickness ?? up(Math.max(0.5 * hornHeight, through ? 3 : leastPlate(seat)));
  const neck = p.base === 'closed';
  const neckScrews = Math.max(0.07 * length, leastPitch(screw) / 2);
  const legLength =
    p.legLength ??
    (neck
      ? up(through ? Math.max(0.27 * length, 2 * neckScrews + 2.4 * hole) : 0.24 * length)
      : near(through ? Math.max(1.3 * hornHeight, sound) : 1.2 * hornHeight));
  const asked = p.opening ?? up(Math.max(1.75 * p.line, 2 * fillet + 2));
  // Screws through the legs spread them as the rule has it.
  const legAt = neck
    ? 0
    : p.opening === undefined && through
      ? Math.max(rule.fastenerSpan / 2, (asked + legLength) / 2)
      : (asked + legLength) / 2;

  const corner = edgeDistance(screw);
  const beside = placeScrews({ legAt, legLength, legWidth, hornWidth, fillet, mouth, corner, length });
  const screwAlong = through ? (neck ? neckScrews : legAt) : spread(p.baseLength, beside.along, corner);
  const screwAcross = through ? 0 : spread(p.baseWidth, beside.across, corner);
  const foot = legAt + legLength / 2 + fillet;
  const edgeRadius = Math.min(0.35 * baseThickness, 4);
  const baseLength =
    p.baseLength ??
    up(Math.max(0.42 * length, 2 * (through ? foot + edgeRadius + 1 : Math.max(screwAlong + corner, foot))));
  const baseWidth =
    p.baseWidth ??
    up(Math.max(rule.baseWidth, through ? legWidth + 2 * (fillet + edgeRadius) : 2 * (screwAcross + corner)));
  return {
    line: p.line,
    length,
    base: p.base,
    fasteners,
    screw,
    seat,
    hornHeight,
    hornWidth,
    tipHeight: p.tipHeight ?? near(0.58 * hornHeight),
    sweep: p.sweep ?? near(0.055 * length),
    clearance,
    legLength,
    legWidth,
    legAt,
    opening: neck ? 0 : 2 * legAt - legLength,
    baseLength,
    baseWidth,
    baseThickness,
    edgeRadius,
    screwAlong,
    screwAcross,
    fillet,
  };
}

/** Screws as far out as a given base allows, else where there is room. */
const spread = (given: number | undefined, needed: number, corner: number): number =>
  given === undefined ? needed : Math.max(given / 2 - corner, corner / 2);

interface Surroundings {
  readonly legAt: number;
  readonly legLength: number;
  readonly legWidth: number;
  readonly hornWidth: number;
  readonly fillet: number;
  readonly mouth: number;
  readonly corner: number;
  readonly length: number;
}

/**
 * Four screws beside the horns, so that they go in straight from above, and clear of the legs' fillets; as near
 * together along as that leaves, and no nearer than the usual share of the length.
 */
function placeScrews(s: Surroundings): { readonly along: number; readonly across: number } {
  const across = s.hornWidth / 2 + s.mouth / 2 + headGap;
  const free = s.mouth / 2 + s.fillet + headGap;
  let along = Math.max(0.14 * s.length, s.legAt);
  // Out in small steps, until the leg's foot (an ellipse, taken as its surrounding rounded box) is clear.
  while (
    maths.hypot(Math.max(0, along - s.legAt - 0.3 * s.legLength), Math.max(0, across - 0.3 * s.legWidth)) -
      0.2 * Math.max(s.legLength, s.legWidth) <
    free
  )
    along += 0.25;
  return { along: Math.ceil(2 * along) / 2, across: Math.ceil(2 * across) / 2 };
}
