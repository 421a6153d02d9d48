import { type Finding, stop } from '../part/finding.js';
import type { BacklashKind } from './backlash.js';
import { type BasicRack, type BasicRackName, basicRackProfiles } from './basic-rack.js';
import { moduleFromDiametralPitch, moduleSeriesI, moduleSeriesII, moduleSeriesOf } from './module-series.js';
import type { ShiftSplit } from './shift-split.js';

/** Both ends count. */
export interface Interval {
  readonly from: number;
  readonly to: number;
}

/** What is asked of a pair; everything left out is free. Lengths mm, angles rad. */
export interface PairRequest {
  readonly gearType: 'spur' | 'helical' | 'double-helical';
  /** Tooth numbers of gear 1 and gear 2; or the ratio z₂ / z₁ within a relative tolerance (0.02 when left out). */
  readonly teeth?: readonly [gear: number, mate: number];
  readonly ratio?: number;
  readonly ratioTolerance?: number;
  /** Tooth number of gear 1 alone, with a ratio. */
  readonly gearTeeth?: number;
  /** To be met exactly. */
  readonly centreDistance?: number;
  /** Normal module, or normal diametral pitch, one value or between limits. */
  readonly module?: number | Interval;
  readonly diametralPitch?: number | Interval;
  /** Free on helical gears when left out. */
  readonly helixAngle?: number;
  /** Of both halves together on double-helical gears. */
  readonly faceWidth?: number;
  /** Space: the largest outside diameter of either gear, and the largest centre distance. */
  readonly largestDiameter?: number;
  readonly largestCentreDistance?: number;
  /** Whether profile shift may be used; true when left out. */
  readonly profileShift?: boolean;
  readonly split?: ShiftSplit;
  /** 0.04 m_n circumferential when left out. */
  readonly backlash?: { readonly kind: BacklashKind; readonly value: number };
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

/** What is wrong with the request in itself; empty when a search makes sense. */
export function checkRequest(request: PairRequest): readonly Finding[] {
  const findings: Finding[] = [];
  const bad = (name: string, value: unknown, right: string) =>
    findings.push(
      stop(
        'bad-request',
        `The ${name} asked for is ${String(value)}.`,
        `Give ${right}.`,
        name.replace(/ (\w)/g, (_, c: string) => c.toUpperCase()),
      ),
    );
  const positive = (name: string, value: number | undefined) => {
    if (value !== undefined && !(value > 0 && Number.isFinite(value))) bad(name, value, 'a number above 0');
  };
  positive('ratio', request.ratio);
  positive('centre distance', request.centreDistance);
  positive('face width', request.faceWidth);
  positive('largest diameter', request.largestDiameter);
  positive('largest centre distance', request.largestCentreDistance);
  for (const [name, value] of [
    ['module', request.module],
    ['diametral pitch', request.diametralPitch],
  ] as const) {
    if (typeof value === 'number') positive(name, value);
    else if (value && !(value.from > 0 && value.to >= value.from))
      bad(name, `${value.from} to ${value.to}`, 'two numbers above 0, the smaller first');
  }
  const tolerance = request.ratioTolerance;
  if (tolerance !== undefined && !(tolerance >= 0 && tolerance < 1))
    bad('ratio tolerance', tolerance, 'a share from 0 to below 1');
  for (const teeth of [
    ...(request.teeth ?? []),
    ...(request.gearTeeth === undefined ? [] : [request.gearTeeth]),
  ]) {
    if (!Number.isInteger(teeth) || teeth < 5 || teeth > 400)
      bad('teeth', teeth, 'a whole number of teeth from 5 to 400');
  }
  const helix = request.helixAngle;
  if (helix !== undefined && !(helix >= 0 && helix < (50 * Math.PI) / 180))
    bad('helix angle', `${(helix * 180) / Math.PI}°`, 'an angle from 0 to below 50°');
  if (request.gearType === 'spur' && helix !== undefined && helix !== 0)
    bad(
      'helix angle',
      `${Number(((helix * 180) / Math.PI).toFixed(3))}° on spur gears`,
      'no helix angle, or ask for helical gears',
    );
  if (request.module !== undefined && request.diametralPitch !== undefined) {
    findings.push(
      stop(
        'module-and-diametral-pitch',
        'Both a module and a diametral pitch are given; they say the same thing.',
        'Keep one of the two.',
        'module',
        'diametralPitch',
      ),
    );
  }
  if (request.teeth === undefined && request.ratio === undefined) {
    findings.push(
      stop(
        'ratio-not-given',
        'Neither tooth numbers nor a ratio are given.',
        'Give one of the two.',
        'teeth',
        'ratio',
      ),
    );
  }
  const { module, diametralPitch, centreDistance, largestDiameter, largestCentreDistance, faceWidth } =
    request;
  if (
    [module, diametralPitch, centreDistance, largestDiameter, largestCentreDistance, faceWidth].every(
      (v) => v === undefined,
    )
  ) {
    findings.push(
      stop(
        'size-not-given',
        'Nothing says how large the pair is to be.',
        'Give a module or diametral pitch, a centre distance, a face width or the space there is.',
        'module',
        'centreDistance',
        'largestDiameter',
      ),
    );
  }
  if (request.backlash && !(request.backlash.value >= 0))
    bad('backlash', request.backlash.value, 'a length of 0 or more');
  return findings;
}
