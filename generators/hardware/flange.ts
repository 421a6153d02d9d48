import {
  type Bolt,
  edgeDistance,
  type FastenerSeries,
  headLand,
  leastPitch,
  upStep,
} from '../../core/hardware/index.js';
import { type Finding, stop, warn } from '../../core/part/finding.js';
import type { Outline } from '../../core/shape/index.js';
import type { Vec2 } from '../../core/solid/types.js';
import { leafOutline, waistedOutline } from './base-outline.js';
import { seatOf } from './screw-field.js';

/** A base plate with countersunk screws at both ends of what stands on it, mm. */
export interface Flange {
  readonly length: number;
  readonly width: number;
  readonly thickness: number;
  /** Rounding of its upper edge. */
  readonly edgeRadius: number;
  readonly screw: Bolt;
  readonly screws: 2 | 4;
  /** Screws at (±along, ±across); across 0 for two. */
  readonly along: number;
  readonly across: number;
  /** Metal round a screw's middle to the edge. */
  readonly land: number;
}

export interface FlangeRequest {
  readonly series: FastenerSeries;
  /** Half of what stands on the plate, along and across it; `fillet` past it, nothing is over a screw's head. */
  readonly foot: Vec2;
  readonly fillet: number;
  readonly thickness: number;
  readonly screw: Bolt;
  readonly screws: 2 | 4;
  /** Given sizes are kept. */
  readonly length?: number | undefined;
  readonly width?: number | undefined;
}

/** Between a screw's head and a fillet, mm. */
const headGap = 0.75;

/** The base that a foot and its screws need, or the given one with its screws as far out as it allows. */
export function flangeFor(request: FlangeRequest): Flange {
  const { series, foot, fillet, thickness, screw, screws } = request;
  const up = (value: number): number => upStep(series, value);
  const { mouthDiameter } = seatOf(screw);
  const edgeRadius = Math.min(0.35 * thickness, 4);
  // The mouth stays in the flat, clear of the rounded edge.
  const land = Math.max(edgeDistance(screw), mouthDiameter / 2 + edgeRadius + 0.3);
  const beside = foot[0] + fillet + mouthDiameter / 2 + headGap;
  const free = Math.ceil(2 * beside) / 2;
  const length = request.length ?? up(2 * (free + land));
  const apart = screws === 4 ? leastPitch(screw) / 2 : 0;
  const width = request.width ?? up(Math.max(2 * (apart + land), 2 * (foot[1] + fillet + edgeRadius)));
  return {
    length,
    width,
    thickness,
    edgeRadius,
    screw,
    screws,
    along: request.length === undefined ? free : Math.max(length / 2 - land, length / 8),
    across: screws === 4 ? Math.max(width / 2 - land, width / 8) : 0,
    land,
  };
}

/** Its outline: a leaf for two screws, a plate with drawn-in sides for four. */
export function flangeOutline(f: Flange, foot: Vec2, fillet: number): Outline {
  const along = f.length / 2 - f.along;
  if (f.screws === 2) {
    const end = Math.min(along, f.width / 2);
    return leafOutline(f.length / 2 - end, end, f.width / 2);
  }
  const corner = Math.min(along, f.width / 2 - f.across);
  const waist = Math.max(foot[1] + fillet + f.edgeRadius, 0.7 * (f.width / 2));
  return waistedOutline(f.length / 2 - corner, f.width / 2 - corner, corner, waist);
}

export const flangeScrews = ({ screws, along: x, across: y }: Flange): readonly Vec2[] =>
  screws === 2
    ? [
        [x, 0],
        [-x, 0],
      ]
    : [
        [x, y],
        [-x, y],
        [x, -y],
        [-x, -y],
      ];

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

/** Whether the foot stands on the plate, and the screws in it. The parameters are `baseLength`, `baseWidth`, `screw`. */
export function flangeFindings(f: Flange, foot: Vec2, fillet: number): readonly Finding[] {
  const findings: Finding[] = [];
  const mouth = seatOf(f.screw).mouthDiameter;
  const long = 2 * (foot[0] + 0.5 * f.edgeRadius + 0.5);
  const wide = 2 * (foot[1] + 0.5 * f.edgeRadius + 0.5);
  if (f.length < long || f.width < wide) {
    findings.push(
      stop(
        'base-small-for-foot',
        `the base is ${mm(f.length)} × ${mm(f.width)} under a foot of ${mm(2 * foot[0])} × ${mm(2 * foot[1])}`,
        `make it ${mm(Math.ceil(long))} × ${mm(Math.ceil(wide))} or larger`,
        'baseLength',
        'baseWidth',
      ),
    );
  }
  if (f.width > f.length) {
    findings.push(
      stop(
        'base-wide',
        `the base is ${mm(f.width)} wide and only ${mm(f.length)} long`,
        'make it longer than wide',
        'baseLength',
        'baseWidth',
      ),
    );
  }
  const land = Math.min(f.length / 2 - f.along, f.screws === 2 ? f.width / 2 : f.width / 2 - f.across);
  if (land < Math.max(mouth / 2 + Math.min(1, headLand(mouth)), f.edgeRadius + 0.3)) {
    findings.push(
      stop(
        'screws-over-edge',
        `screw heads ${mm(mouth)} wide are ${mm(Math.max(0, land))} from the base's edge, measured from their middle`,
        'make the base larger or the screws thinner',
        'baseLength',
        'baseWidth',
        'screw',
      ),
    );
  }
  if (f.screws === 4 && 2 * Math.min(f.along, f.across) < mouth + 1) {
    findings.push(
      stop(
        'screws-meet',
        `screw heads ${mm(mouth)} wide meet, ${mm(2 * Math.min(f.along, f.across))} apart`,
        'make the base larger or the screws thinner',
        'baseWidth',
        'baseLength',
        'screw',
      ),
    );
  }
  // Past the foot, or beside it.
  const free =
    Math.max(f.along - foot[0], f.screws === 4 ? f.across - foot[1] : Number.NEGATIVE_INFINITY) - mouth / 2;
  if (free < 0) {
    findings.push(
      stop(
        'screws-in-foot',
        `screw heads ${mm(mouth)} wide, ${mm(f.along)} from the middle, run into what stands on the base`,
        'make the base longer or the screws thinner',
        'baseLength',
        'screw',
      ),
    );
  } else if (free < fillet - 0.01) {
    findings.push(
      warn(
        'screws-in-fillet',
        `screw heads come within ${mm(free)} of the foot, into its fillet of ${mm(fillet)} or under what overhangs it`,
        'make the base longer, or the fillet smaller',
        'baseLength',
        'fillet',
      ),
    );
  }
  return findings;
}
