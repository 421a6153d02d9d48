import {
  type Bolt,
  bendingStress,
  boltAllowables,
  checkLoad,
  cleatBolt,
  cleatBoltTension,
  combinedStress,
  ellipseSection,
  fairleadOpening,
  filletRadius,
  type LoadCheck,
  leastCleatScrew,
  leastPlate,
  mostUniformity,
  nearStep,
  ropeBendRadius,
  shearStress,
  sizeStep,
  stressCheck,
  upStep,
} from '../../core/hardware/index.js';
import { maths } from '../../core/maths/maths.js';
import type { Vec2 } from '../../core/solid/types.js';
import { type Flange, flangeFor } from '../hardware/flange.js';
import { screwCount } from '../hardware/flange-fields.js';
import { pullOfLine, strengthAllowables } from '../hardware/load-fields.js';
import { askedScrew, countersunkBolts, seatOf, withCountersunkHead } from '../hardware/screw-field.js';
import type { FairleadParameters } from './parameters.js';

/** Every size of a fairlead, mm; z counts up from the deck. */
export interface FairleadSizes {
  readonly line: number;
  readonly open: boolean;
  readonly openingWidth: number;
  readonly openingHeight: number;
  /** On top of an open chock; 0 for a closed one. */
  readonly gap: number;
  /** Of the lip: seen along the line, and along it. */
  readonly thickness: number;
  readonly depth: number;
  /** Half axes of the ellipse that the lip's middle follows. */
  readonly halfWidth: number;
  readonly halfHeight: number;
  /** Height of that ellipse's centre. */
  readonly centre: number;
  readonly flange: Flange;
  /** Half of the lip's foot on the base. */
  readonly foot: Vec2;
  readonly fillet: number;
}

export const fairleadBoltMaterial = 'stainless steel A2-70';

/** Radius that the line bends over: the vertex of the lip's elliptical section, a²/b. */
export const lipRadius = ({ depth, thickness }: Pick<FairleadSizes, 'depth' | 'thickness'>): number =>
  depth ** 2 / (2 * thickness);

/** Of the lip: a wider fillet buries its foot. */
export const widestFillet = 0.8;

/** How much of half the lip stands under the base's face, at the bottom of the opening. */
const sunk = 0.6;

/** The sizes the parameters stand for; a given one is never changed. */
export function fairleadSizes(p: FairleadParameters): FairleadSizes {
  const lip = lipFor(p);
  const asked = askedScrew(p.screw);
  if (asked !== undefined) return sizesWith(p, lip, asked);
  const row = countersunkBolts[p.series];
  let screw = row.find((bolt) => bolt.diameter >= leastCleatScrew(p.line) - 1e-9) ?? row[row.length - 1]!;
  let sizes = sizesWith(p, lip, screw);
  for (;;) {
    const needed = cleatBolt(p.series, sidePull(p), boltedBase(sizes), boltAllowables(fairleadBoltMaterial));
    const next = row[row.indexOf(screw) + 1];
    if (withCountersunkHead(needed).diameter <= screw.diameter + 1e-9 || next === undefined) return sizes;
    [screw, sizes] = [next, sizesWith(p, lip, next)];
  }
}

/** Force of a line that turns: 2 F sin(θ/2), N. */
export const sidePull = (p: FairleadParameters): number => 2 * pullOfLine(p) * maths.sin(p.turn / 2);

const boltedBase = ({ flange, line, thickness }: FairleadSizes) => ({
  hornClearance: flange.thickness + (1 - sunk / 2) * thickness,
  lineDiameter: line,
  baseLength: flange.length,
  fastenerSpan: 2 * flange.along,
  fasteners: flange.screws,
});

interface Lip {
  readonly thickness: number;
  readonly depth: number;
}

/** Deep enough for the line's bend, thick enough for its pull. */
function lipFor(p: FairleadParameters): Lip {
  const deep = (thickness: number): Lip => ({
    thickness,
    depth:
      p.depth ??
      upStep(p.series, Math.max(thickness, Math.sqrt(2 * thickness * ropeBendRadius(p.line).better))),
  });
  if (p.thickness !== undefined) return deep(p.thickness);
  const allowable = strengthAllowables(p.strengthOf).tension;
  let thickness = nearStep(p.series, 0.9 * p.line);
  while (thickness < 2.5 * p.line && sideStress(p, deep(thickness)) > 0.8 * allowable)
    thickness += sizeStep[p.series];
  return deep(thickness);
}

/**
 * Stress of the lip's side at the base, MPa: the line lies on the bottom of the opening and against the side, which
 * bends as a cantilever; of a closed fairlead the other side bears half of it (common practice, no source).
 */
function sideStress(p: FairleadParameters, { thickness, depth }: Lip): number {
  const section = ellipseSection(depth, thickness);
  const force = sidePull(p) / (p.style === 'open' ? 1 : 2);
  const arm = (1 - sunk / 2) * thickness + p.line / 2;
  return combinedStress(
    bendingStress({ moment: force * arm }, section),
    shearStress({ shear: force }, section),
  );
}

export function fairleadLoad(p: FairleadParameters, sizes: FairleadSizes): LoadCheck {
  const force = sidePull(p);
  const { screw, screws } = sizes.flange;
  const tension = cleatBoltTension(force, boltedBase(sizes)) / screw.stressArea;
  return checkLoad(force, [
    stressCheck('lip', 'bending at the base', sideStress(p, sizes), strengthAllowables(p.strengthOf)),
    stressCheck(
      'bolts',
      'tension and shear',
      combinedStress(tension, force / screws / screw.stressArea),
      boltAllowables(fairleadBoltMaterial),
    ),
  ]);
}

function sizesWith(p: FairleadParameters, { thickness, depth }: Lip, screw: Bolt): FairleadSizes {
  const near = (value: number): number => nearStep(p.series, value);
  const openingWidth = p.openingWidth ?? near(3 * p.line);
  const openingHeight = p.openingHeight ?? near(fairleadOpening(p.line).usual);
  const base =
    p.baseThickness ??
    upStep(p.series, Math.max(0.6 * p.line, leastPlate(seatOf(screw)), thickness / mostUniformity));
  const [halfWidth, halfHeight] = [(openingWidth + thickness) / 2, (openingHeight + thickness) / 2];
  const centre = base + ((1 - sunk) * thickness) / 2 + halfHeight;
  const usual = filletRadius(thickness, base).usual;
  const step = sizeStep[p.series];
  const room = Math.min(
    0.8 * tightest(halfWidth, halfHeight, thickness),
    widestFillet * Math.min(thickness, depth),
  );
  const fillet = p.fillet ?? Math.max(1, Math.min(near(usual), Math.floor(room / step) * step));
  const foot: Vec2 = [lipReach({ halfWidth, halfHeight, thickness, fillet, rise: centre - base }), depth / 2];
  return {
    line: p.line,
    open: p.style === 'open',
    openingWidth,
    openingHeight,
    gap: p.style === 'open' ? (p.gap ?? near(1.2 * p.line)) : 0,
    thickness,
    depth,
    halfWidth,
    halfHeight,
    centre,
    foot,
    fillet,
    flange: flangeFor({
      series: p.series,
      foot,
      fillet,
      thickness: base,
      screw,
      screws: screwCount(p.fasteners, p.line),
      length: p.baseLength,
      width: p.baseWidth,
    }),
  };
}

/** Least radius of the opening's outline: of the middle's ellipse at its vertices, less half the lip. */
export const tightest = (halfWidth: number, halfHeight: number, thickness: number): number =>
  Math.min(halfHeight ** 2 / halfWidth, halfWidth ** 2 / halfHeight) - thickness / 2;

/** Half the length of the lip where its fillet begins on the base, or of all that overhangs it, less the fillet. */
function lipReach(s: {
  readonly halfWidth: number;
  readonly halfHeight: number;
  readonly thickness: number;
  readonly fillet: number;
  readonly rise: number;
}): number {
  const out = s.thickness / 2 + s.fillet;
  const share = (s.rise - s.fillet) / (s.halfHeight + out);
  const begins = (s.halfWidth + out) * Math.sqrt(Math.max(0, 1 - share * share));
  return Math.max(begins, s.halfWidth + s.thickness / 2) - s.fillet;
}
