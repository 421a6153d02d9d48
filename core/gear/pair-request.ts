import type { ThinningSplit } from './backlash.js';
import type { BacklashRequest } from './backlash-plan.js';
import { type BasicRack, type BasicRackName, basicRackProfiles } from './basic-rack.js';
import type { MeshKind } from './mesh-backlash.js';
import { moduleFromDiametralPitch, moduleSeriesI, moduleSeriesII, moduleSeriesOf } from './module-series.js';
import type { LoadRequest } from './pair-load.js';
import type { ShiftSplit } from './shift-split.js';

/** Both ends count. */
export interface Interval {
  readonly from: number;
  readonly to: number;
}

/** What is asked of a pair; everything left out is free. Lengths mm, angles rad. */
export interface PairRequest {
  /** Ring and rack come as spur and helical only. */
  readonly gearType: 'spur' | 'helical' | 'double-helical';
  /** External when left out. Gear 1 is the pinion in a ring or on a rack. */
  readonly mesh?: MeshKind;
  /** Tooth numbers of gear 1 and gear 2; or the ratio z₂ / z₁ within a relative tolerance (0.02 when left out). */
  readonly teeth?: readonly [gear: number, mate: number];
  readonly ratio?: number;
  readonly ratioTolerance?: number;
  /** Tooth number of one gear alone, with a ratio or a centre distance. */
  readonly gearTeeth?: number;
  readonly mateTeeth?: number;
  /** To be met exactly; on a rack the mounting distance, from the pinion's axis to the rack's datum line. */
  readonly centreDistance?: number;
  /** Normal module, or normal diametral pitch, one value or between limits. */
  readonly module?: number | Interval;
  readonly diametralPitch?: number | Interval;
  /** Free on helical gears when left out. */
  readonly helixAngle?: number;
  /** Of both halves together on double-helical gears; 10 modules when left out. */
  readonly faceWidth?: number;
  /** Space: the largest outside diameter of either gear, of a ring with its rim, and the largest centre distance. */
  readonly largestDiameter?: number;
  readonly largestCentreDistance?: number;
  /** How far the rack is to travel, and how far in one turn of the pinion (within the ratio's tolerance). */
  readonly travel?: number;
  readonly travelPerTurn?: number;
  /** Whether profile shift may be used; true when left out. */
  readonly profileShift?: boolean;
  readonly split?: ShiftSplit;
  /** Gear 2 is there already, with standard teeth: no shift, no thinning, full tips. */
  readonly keepMate?: boolean;
  /** The least for flanks dressed to size when left out. */
  readonly backlash?: BacklashRequest;
  readonly thinningSplit?: ThinningSplit;
  readonly load?: LoadRequest;
  readonly rack?: BasicRack | BasicRackName;
  /** Least tooth number of either gear; 10, or 17 without profile shift, when left out. */
  readonly leastTeeth?: number;
  /** How many candidates to give; 6 when left out. */
  readonly count?: number;
}

/** Preferred diametral pitches, ANSI/AGMA 1003 and 201 (from memory). */
export const preferredDiametralPitches: readonly number[] = [
  1, 1.25, 1.5, 1.75, 2, 2.25, 2.5, 3, 4, 6, 8, 10, 12, 16, 20, 24, 32, 40, 48, 64,
];

/** A module to try and where it comes from. */
export interface ModuleChoice {
  readonly module: number;
  readonly series: 'I' | 'II' | 'DP' | 'asked';
  readonly diametralPitch?: number;
}

/** Cast teeth are not sought outside these modules unless asked for, mm. */
const soughtModules: Interval = { from: 1, to: 12 };

const within = (value: number, { from, to }: Interval): boolean => value >= from - 1e-9 && value <= to + 1e-9;

/** The modules a request allows, series I before II. Empty when an interval holds none. */
export function moduleChoices(request: PairRequest): readonly ModuleChoice[] {
  const { module, diametralPitch } = request;
  if (typeof module === 'number') return [{ module, series: moduleSeriesOf(module) ?? 'asked' }];
  if (diametralPitch !== undefined) {
    const pitches =
      typeof diametralPitch === 'number'
        ? [diametralPitch]
        : preferredDiametralPitches.filter((p) => within(p, diametralPitch));
    return pitches.map((p) => ({ module: moduleFromDiametralPitch(p), series: 'DP', diametralPitch: p }));
  }
  const range = module ?? soughtModules;
  return [
    ...moduleSeriesI.filter((m) => within(m, range)).map((m) => ({ module: m, series: 'I' as const })),
    ...moduleSeriesII.filter((m) => within(m, range)).map((m) => ({ module: m, series: 'II' as const })),
  ];
}

export const requestedRack = (request: PairRequest): BasicRack =>
  typeof request.rack === 'object' ? request.rack : basicRackProfiles[request.rack ?? 'A'];

/** Face width where none is asked for, modules (common practice, no source). */
const usualWidth = 10;

export const requestedWidth = (request: PairRequest, normalModule: number): number =>
  request.faceWidth ?? usualWidth * normalModule;

/** Face width of one run of teeth: half of a double-helical gear's. */
export const runWidth = (request: PairRequest, normalModule: number): number =>
  requestedWidth(request, normalModule) / (request.gearType === 'double-helical' ? 2 : 1);

/** Relative tolerance of a ratio when none is asked for. */
export const usualRatioTolerance = 0.02;

/** How the thinning is shared: a mate that is there already stays as it is. */
export const requestedSplit = (request: PairRequest): ThinningSplit =>
  request.keepMate ? 'gear-1' : (request.thinningSplit ?? 'equal');
