import {
  type Bolt,
  boltAllowables,
  type CountersinkSeat,
  cleatBolt,
  edgeDistance,
  headLand,
  jamThroat,
  leastPinWall,
  leastPlate,
  nearStep,
  upStep,
} from '../../core/hardware/index.js';
import { maths } from '../../core/maths/maths.js';
import { pullOfLine } from '../hardware/load-fields.js';
import { askedScrew, seatOf, withCountersunkHead } from '../hardware/screw-field.js';
import type { JamCleatParameters } from './parameters.js';

/**
 * Every size of a jam cleat, mm and radians. Along X the post ends and the throat begins at x = 0; the throat opens
 * towards +X. Y counts up from the deck.
 */
export interface JamCleatSizes {
  readonly line: number;
  readonly screw: Bolt;
  readonly seat: CountersinkSeat;
  readonly mouth: number;
  readonly end: number;
  readonly taper: number;
  /** From the post to the mouth. */
  readonly throat: number;
  readonly width: number;
  readonly hornHeight: number;
  readonly tipHeight: number;
  /** How much lower the horns' tips are than the post between them. */
  readonly drop: number;
  readonly post: number;
  /** 0 for none. */
  readonly backHorn: number;
  /** Free height under the other horn at the post, and how much more at its tip. */
  readonly backClearance: number;
  readonly backRise: number;
  readonly baseThickness: number;
  /** Ends of the base. */
  readonly left: number;
  readonly right: number;
  /** Top of the horns. */
  readonly top: number;
  readonly edge: number;
  readonly fillet: number;
  /** Rounding of the base's ends. */
  readonly footRadius: number;
  /** Screw in the post and screw in the base's free end. */
  readonly postScrew: number;
  readonly baseScrew: number;
}

/** A shorter other horn is none, mm. */
const leastHorn = 2;

/** Bolts are reckoned as stainless: what is sold for boats. */
export const jamBoltMaterial = 'stainless steel A2-70';

/** The thinnest screw that keeps the half-diameter rule and bears the pull, on a base of the usual size. */
function screwOf(p: JamCleatParameters): Bolt {
  const asked = askedScrew(p.screw);
  if (asked !== undefined) return asked;
  const d = p.line;
  const base = {
    hornClearance: 1.4 * d,
    lineDiameter: d,
    baseLength: 9 * d,
    fastenerSpan: 6.5 * d,
    fasteners: 2,
  };
  return withCountersunkHead(cleatBolt(p.series, pullOfLine(p), base, boltAllowables(jamBoltMaterial)));
}

/** The sizes the parameters stand for; a given one is never changed. */
export function jamCleatSizes(p: JamCleatParameters): JamCleatSizes {
  const near = (value: number): number => nearStep(p.series, value);
  const up = (value: number): number => upStep(p.series, value);
  const d = p.line;
  const screw = screwOf(p);
  const seat = seatOf(screw);
  const sound = seat.holeDiameter + 2 * leastPinWall(seat.holeDiameter);
  const head = seat.mouthDiameter + 2 * headLand(seat.mouthDiameter);
  const rule = jamThroat(d);
  const mouth = p.mouth ?? near(rule.mouth);
  const end = p.end ?? near(rule.end);
  const throat = (mouth - end) / maths.tan(p.taper);
  const width = p.width ?? up(Math.max(1.75 * d, sound, head));
  const edge = p.edge ?? Math.min(Math.max(0.5, 0.2 * d), 0.2 * width);
  const hornHeight = p.hornHeight ?? near(1.75 * d);
  const post = p.post ?? up(Math.max(2.4 * d, sound, head));
  const baseThickness = p.baseThickness ?? up(Math.max(0.8 * d, leastPlate(seat)));
  const fillet = p.fillet ?? near(Math.max(1, d / 2));
  const backHorn = p.backHorn ?? near(2.25 * d);
  const drop = Math.min(0.3 * d, 0.15 * hornHeight);
  const footRadius = Math.min(0.45 * baseThickness, 0.4 * d);
  const foot = Math.max(edgeDistance(screw) - post / 2, fillet + footRadius + 0.5);
  // The free screw stands where a driver gets past the horn.
  const baseScrew = throat + up(seat.mouthDiameter / 2 + 1 + edge);
  return {
    line: d,
    screw,
    seat,
    mouth,
    end,
    taper: p.taper,
    throat,
    width,
    hornHeight,
    tipHeight: hornHeight - (mouth - end) - drop,
    drop,
    post,
    backHorn: backHorn < leastHorn ? 0 : backHorn,
    backClearance: 1.25 * d,
    backRise: 0.15 * d,
    baseThickness,
    left: -post - up(foot),
    right: baseScrew + up(edgeDistance(screw)),
    top: baseThickness + end + hornHeight,
    edge,
    fillet,
    footRadius,
    postScrew: -post / 2,
    baseScrew,
  };
}
