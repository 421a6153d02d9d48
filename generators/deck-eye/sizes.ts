import {
  type Bolt,
  boltAllowables,
  cleatBolt,
  fairleadOpening,
  filletRadius,
  leastCleatScrew,
  leastPlate,
  mostUniformity,
  nearStep,
  rodAtLeast,
  sizeStep,
  upStep,
} from '../../core/hardware/index.js';
import type { Vec2 } from '../../core/solid/types.js';
import { type Flange, flangeFor } from '../hardware/flange.js';
import { screwCount } from '../hardware/flange-fields.js';
import { pullOfLine, strengthAllowables } from '../hardware/load-fields.js';
import { askedScrew, countersunkBolts, seatOf, withCountersunkHead } from '../hardware/screw-field.js';
import { type EyeSizes, eyeMembers } from './eye.js';
import type { DeckEyeParameters } from './parameters.js';

export interface DeckEyeSizes {
  readonly line: number;
  readonly eye: EyeSizes;
  readonly flange: Flange;
  /** Half of the eye's foot on the base. */
  readonly foot: Vec2;
  readonly fillet: number;
}

export const eyeBoltMaterial = 'stainless steel A2-70';

/** Height of the ring's middle over its base, as a share of its inner radius: the bar sinks into the base. */
const sunk = 0.75;

/** The sizes the parameters stand for; a given one is never changed. */
export function deckEyeSizes(p: DeckEyeParameters): DeckEyeSizes {
  const asked = askedScrew(p.screw);
  if (asked !== undefined) return sizesWith(p, asked);
  const row = countersunkBolts[p.series];
  let screw = row.find((bolt) => bolt.diameter >= leastCleatScrew(p.line) - 1e-9) ?? row[row.length - 1]!;
  let sizes = sizesWith(p, screw);
  for (;;) {
    const needed = cleatBolt(p.series, pullOfLine(p), boltedBase(sizes), boltAllowables(eyeBoltMaterial));
    const next = row[row.indexOf(screw) + 1];
    if (withCountersunkHead(needed).diameter <= screw.diameter + 1e-9 || next === undefined) return sizes;
    [screw, sizes] = [next, sizesWith(p, next)];
  }
}

/** What tilts and holds the base: the pull along the deck, at the height it takes hold. */
export const boltedBase = ({ eye, flange, line }: DeckEyeSizes) => ({
  hornClearance: eye.kind === 'ring' ? eye.centre + eye.opening / 2 - line / 2 : eye.centre - line / 2,
  lineDiameter: line,
  baseLength: flange.length,
  fastenerSpan: 2 * flange.along,
  fasteners: flange.screws,
});

function sizesWith(p: DeckEyeParameters, screw: Bolt): DeckEyeSizes {
  const near = (value: number): number => nearStep(p.series, value);
  const up = (value: number): number => upStep(p.series, value);
  // The eye stands on whatever the base is; its section is known before the base's thickness.
  const make = (base: number): EyeSizes => (p.eye === 'ring' ? ringFor(p, base) : lugFor(p, base));
  const thickest = (eye: EyeSizes): number => (eye.kind === 'ring' ? eye.bar : eye.thickness);
  const thickness =
    p.baseThickness ??
    up(Math.max(0.6 * p.line, leastPlate(seatOf(screw)), thickest(make(0.6 * p.line)) / mostUniformity));
  const eye = make(thickness);
  const section = eye.kind === 'ring' ? eye.bar : Math.min(eye.thickness, eye.radius);
  const room = eye.kind === 'ring' ? 0.3 * eye.opening : Number.POSITIVE_INFINITY;
  const fillet = p.fillet ?? Math.min(near(filletRadius(section, thickness).usual), room);
  const foot: Vec2 =
    eye.kind === 'ring' ? [ringReach(eye, thickness, fillet), eye.bar / 2] : [eye.radius, eye.thickness / 2];
  return {
    line: p.line,
    eye,
    foot,
    fillet,
    flange: flangeFor({
      series: p.series,
      foot,
      fillet,
      thickness,
      screw,
      screws: screwCount(p.fasteners, p.line),
      length: p.baseLength,
      width: p.baseWidth,
    }),
  };
}

/**
 * Half the length of a ring where its fillet, which is wide in so sharp a corner, begins on its base, or of all that
 * overhangs it; less the fillet.
 */
function ringReach(
  { opening, bar, centre }: Extract<EyeSizes, { kind: 'ring' }>,
  thickness: number,
  fillet: number,
): number {
  const outer = opening / 2 + bar + fillet;
  const rise = centre - thickness - fillet;
  return Math.max(Math.sqrt(Math.max(0, outer ** 2 - rise ** 2)), opening / 2 + bar) - fillet;
}

function ringFor(p: DeckEyeParameters, thickness: number): EyeSizes {
  const opening = p.opening ?? nearStep(p.series, fairleadOpening(p.line).usual);
  const ring = (bar: number): EyeSizes => ({
    kind: 'ring',
    opening,
    bar,
    centre: thickness + (sunk * opening) / 2,
  });
  return p.bar === undefined ? strongEnough(p, thickness, 0.8 * p.line, 2 * p.line, ring) : ring(p.bar);
}

function lugFor(p: DeckEyeParameters, base: number): EyeSizes {
  const pin = p.pin ?? rodAtLeast(p.series, 0.8 * p.line);
  const hole = pin + p.pinClearance;
  const thickness = p.lugThickness ?? nearStep(p.series, 1.1 * pin);
  const lug = (radius: number): EyeSizes => ({
    kind: 'lug',
    pin,
    hole,
    thickness,
    radius,
    // Room for the shackle's eyes, which are about two pins wide, to swing over the base.
    centre: base + upStep(p.series, Math.max(1.5 * pin, hole / 2 + 3)),
    edge: Math.min(0.22 * thickness, 0.2 * (radius - hole / 2), 3),
  });
  return p.lugRadius === undefined ? strongEnough(p, base, hole, 2 * hole, lug) : lug(p.lugRadius);
}

/** The thinnest from a usual size on that the pull uses up to four fifths at most. */
function strongEnough(
  p: DeckEyeParameters,
  base: number,
  usual: number,
  most: number,
  make: (size: number) => EyeSizes,
): EyeSizes {
  const force = pullOfLine(p);
  const casting = strengthAllowables(p.strengthOf);
  let size = upStep(p.series, usual);
  const used = (): number =>
    Math.max(...eyeMembers(force, make(size), base, casting).map((m) => m.utilisation));
  while (size < most && used() > 0.8) size += sizeStep[p.series];
  return make(size);
}
