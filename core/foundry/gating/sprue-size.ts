import { taperRatio } from './choke.js';
import { type Cup, type CupLimits, feedingCupVolume, frustumVolume, sizeCup } from './cup.js';
import { up } from './gate-size.js';
import { type SprueShape, sprueVolume } from './sprue.js';

/** What a sprue with its cup is sized by; mm, mm³. */
export interface SprueNeeds {
  /** From the sprue's bottom to the cup's level. */
  readonly height: number;
  /** Its foot: a gate's ring, or the runners' diameter. */
  readonly gateInner: number;
  readonly gateOuter: number;
  readonly bottomDiameter: number;
  /** It may not widen beyond this. */
  readonly widest: number;
  /** The cup's, for the flow. */
  readonly flowVolume: number;
  readonly feedDemand: number;
  /** Share of a feeder's volume left for the casting. */
  readonly feedShare: number;
  readonly cup: CupLimits;
}

/** Sprue by continuity of the falling stream, cup by flow, feed and freezing. */
export const sizeSprue = (needs: SprueNeeds): { readonly cup: Cup; readonly shape: SprueShape } => {
  const { height, bottomDiameter: bottom, flowVolume, feedShare: share } = needs;
  const shapeWith = (throat: number, cup: Cup): SprueShape => ({
    gateInner: needs.gateInner,
    gateOuter: needs.gateOuter,
    bottomDiameter: bottom,
    topDiameter: throat,
    length: height - cup.depth,
    cupDiameter: cup.topDiameter,
    cupDepth: cup.depth,
  });
  let throat = bottom;
  let fed = 0;
  let cup = sizeCup(throat, flowVolume, needs.cup);
  // The throat's taper depends on the cup's depth and the cup's volume on the throat and the sprue.
  for (let round = 0; round < 100; round++) {
    const before = cup.depth;
    throat = Math.min(needs.widest, bottom * Math.sqrt(taperRatio(Math.min(cup.depth, height), height)));
    const asked = Math.max(flowVolume, feedingCupVolume(throat, needs.cup.wallAngle), fed);
    cup = sizeCup(throat, asked, needs.cup);
    const shape = shapeWith(throat, cup);
    const sprueOnly = sprueVolume(shape) - frustumVolume(throat, cup.topDiameter, cup.depth);
    fed = share > 0 ? (up * needs.feedDemand) / share - Math.max(0, sprueOnly) : 0;
    if (Math.abs(cup.depth - before) < 1e-10) break;
  }
  return { cup, shape: shapeWith(throat, cup) };
};
