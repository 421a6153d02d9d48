import {
  edgeDistance,
  headLand,
  hingePin,
  leastPitch,
  nearStep,
  strapHingeRule,
  upStep,
} from '../../core/hardware/index.js';
import type { Vec2 } from '../../core/solid/types.js';
import { type HingeCore, hingeCore, notchSizes, rivetMouth } from '../hinge/core-sizes.js';
import type { DoorUse } from '../hinge/door-load.js';
import { faceStart, type KnuckleSection } from '../hinge/knuckle-section.js';
import { chooseLeafScrew, type LeafScrew, screwBand } from '../hinge/leaf-screws.js';
import type { TurningSizes } from '../hinge/motion-findings.js';
import type { StrapHingeParameters } from './parameters.js';

/** Every size of a strap hinge, finished, mm. Pin's axis along Y, leaves towards +X. */
export interface StrapHingeSizes extends HingeCore {
  /** Axis to tip. */
  readonly length: number;
  /** Of strap and plate at the knuckles: the length of their row. */
  readonly rootWidth: number;
  readonly tipWidth: number;
  /** Of the tip's end: the disc's, or half the tip's width. */
  readonly tipRadius: number;
  readonly hasDisc: boolean;
  /** Where the plan of strap and plate begins: just past the barrel's fillet. */
  readonly leafStart: number;
  /** Where the root's straight sides end and the taper begins. */
  readonly taperStart: number;
  readonly edge: number;
  readonly plateWidth: number;
  /** Rounding of the plate's corners in plan. */
  readonly corner: number;
  readonly strapSection: KnuckleSection;
  readonly plateSection: KnuckleSection;
  readonly notchFloor: number;
  readonly notchRadius: number;
  readonly rivetMouth: number;
  readonly screw: LeafScrew;
  readonly strapScrewsAt: readonly Vec2[];
  readonly plateScrewsAt: readonly Vec2[];
  readonly use: DoorUse;
}

/** Share of the straight root that the rounding of the taper's corner leaves. */
export const straightShare = 0.6;

export const turningOf = (s: StrapHingeSizes): TurningSizes => ({
  sections: [s.plateSection, s.strapSection],
  notchFloor: s.notchFloor,
  notchRadius: s.notchRadius,
  gap: s.row.gap,
});

/** Strap widths and thickness by its length (see `strapHingeRule`); the thickness for cast metal, a fiftieth. */
export function strapHingeSizes(p: StrapHingeParameters): StrapHingeSizes {
  const near = (value: number): number => nearStep(p.series, value);
  const rule = strapHingeRule(2 * p.size);
  const usualThickness = Math.max(3, p.size / 50);
  const thin = p.thickness ?? near(usualThickness);
  const rootWidth =
    p.rootWidth ??
    upStep(p.series, Math.max(rule.rootWidth, 6 * (p.pinDiameter ?? hingePin(p.series, thin))));
  const use: DoorUse = { ...p, doorWidth: p.doorWidth ?? 2 * p.size };
  const core = hingeCore({ ...p, ...use, rowLength: rootWidth, usualThickness });
  const { thickness, barrelRadius, closedGap } = core;
  const tipWidth = p.tipWidth ?? Math.min(near(rule.tipWidth), rootWidth);
  const hasDisc = p.tip === 'disc';
  const edge = p.edge ?? Math.min(thickness / 3, Math.max(0.8, near(thickness / 4)));
  const fillet = p.fillet ?? Math.max(2, near(thickness / 2));
  const notch = notchSizes(p);
  const notchFloor = barrelRadius + notch.leafGap;
  const base: KnuckleSection = {
    barrelRadius,
    faceDrop: closedGap / 2,
    backDrop: barrelRadius,
    reach: p.size,
    fillet,
    backFillet: fillet,
    edge,
  };
  const start = (faceStart(base) || 0) + 0.3;
  const face = Math.max(notchFloor, faceStart(base) || 0);
  const screw = chooseLeafScrew(
    p.screw,
    p.series,
    { thickness, width: tipWidth, length: Math.max(38, 2 * rootWidth) },
    1,
  );
  const tipRadius = hasDisc
    ? upStep(p.series, Math.max(0.72 * tipWidth, screw.seat.mouthDiameter / 2 + 0.3 * tipWidth))
    : tipWidth / 2;
  const plateWidth =
    p.plateWidth ??
    upStep(p.series, Math.max(1.3 * rootWidth, face + screwBand(screw) + leastPitch(screw.fastener)));
  return {
    ...core,
    use,
    length: p.size,
    rootWidth,
    tipWidth,
    tipRadius,
    hasDisc,
    leafStart: start,
    taperStart: start + (edge + 3) / straightShare,
    edge,
    plateWidth,
    corner: Math.max(edge, Math.min(0.12 * rootWidth, 6)),
    strapSection: base,
    plateSection: { ...base, reach: plateWidth },
    notchFloor,
    notchRadius: notch.notchRadius,
    rivetMouth: rivetMouth(p.pinEnds, core),
    screw,
    strapScrewsAt: strapScrews(p.strapScrews ?? rule.screws, near, {
      from: upStep(p.series, face + edgeDistance(screw.fastener)),
      to: p.size - (hasDisc ? tipRadius : Math.max(tipRadius, edgeDistance(screw.fastener))),
    }),
    plateScrewsAt: plateScrews(p.plateScrews, {
      near: upStep(p.series, face + screw.seat.mouthDiameter / 2 + headLand(screw.seat.mouthDiameter)),
      far: plateWidth - upStep(p.series, edgeDistance(screw.fastener)),
      half: rootWidth / 2 - upStep(p.series, edgeDistance(screw.fastener)),
    }),
  };
}

/** Along the middle line, evenly, those between the first and the last on steps. */
const strapScrews = (
  count: number,
  onStep: (x: number) => number,
  { from, to }: { readonly from: number; readonly to: number },
): Vec2[] =>
  Array.from({ length: count }, (_, i): Vec2 => {
    const x = count === 1 ? (from + to) / 2 : from + ((to - from) * i) / (count - 1);
    return [i === 0 || i === count - 1 ? x : onStep(x), 0];
  });

/** In two columns, the far one with one more of an odd number. */
function plateScrews(
  count: number,
  { near, far, half }: { readonly near: number; readonly far: number; readonly half: number },
): Vec2[] {
  const column = (n: number, x: number): Vec2[] =>
    Array.from({ length: n }, (_, i): Vec2 => [x, n === 1 ? 0 : half * ((2 * i) / (n - 1) - 1)]);
  return [...column(Math.ceil(count / 2), far), ...column(Math.floor(count / 2), near)];
}
