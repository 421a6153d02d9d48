import {
  allowableLoadNote,
  fairleadOpening,
  finFindings,
  loadFindings,
  mostUniformity,
  ropeBendRadius,
  sectionUniformity,
} from '../../core/hardware/index.js';
import { type Finding, hasStop, note, stop, warn } from '../../core/part/finding.js';
import { roundedDown, roundedUp } from '../../core/part/rounded.js';
import type { Stock } from '../../core/part/stock.js';
import { flangeFindings } from '../hardware/flange.js';
import { lineInWords } from '../hardware/load-fields.js';
import { seatOf } from '../hardware/screw-field.js';
import { countersinkFindings } from '../hardware/screw-holes.js';
import type { FairleadParameters } from './parameters.js';
import { type FairleadSizes, fairleadLoad, lipRadius, tightest, widestFillet } from './sizes.js';

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

/** What is wrong with a fairlead in this state, or worth knowing. No solid can be made after a `stop`. */
export function checkFairlead(p: FairleadParameters, s: FairleadSizes, stock: Stock): readonly Finding[] {
  const shape = [
    ...checkLip(s),
    ...checkOpening(s, stock),
    ...checkFillet(s, stock),
    ...flangeFindings(s.flange, s.foot, s.fillet),
    ...countersinkFindings(seatOf(s.flange.screw), s.flange.thickness, 'baseThickness'),
  ];
  if (hasStop(shape)) return shape;
  return [...shape, ...checkLine(s), ...checkSections(s), ...checkPull(p, s)];
}

/** Depth to thickness of an elliptical lip whose edges are still no knives (common practice, no source). */
const flattest = 4;

function checkLip({ thickness, depth }: FairleadSizes): readonly Finding[] {
  const [thin, wide] = [Math.min(thickness, depth), Math.max(thickness, depth)];
  if (wide <= flattest * thin) return [];
  // An ellipse ends in a radius of half its thickness times thickness over width.
  return [
    stop(
      'lip-flat',
      `a lip ${mm(wide)} × ${mm(thin)} has edges of ${mm((0.5 * thin * thin) / wide)} radius, which cut the line`,
      `make it at most ${flattest} times as deep as thick`,
      'thickness',
      'depth',
    ),
  ];
}

/** Least radius of the opening's outline that is cast round, mm. */
const leastCorner = 1;

function checkOpening(s: FairleadSizes, { skin }: Stock): readonly Finding[] {
  const findings: Finding[] = [];
  const corner = tightest(s.halfWidth, s.halfHeight, s.thickness) - skin;
  if (corner < leastCorner) {
    findings.push(
      stop(
        'opening-pinched',
        `an opening of ${mm(s.openingWidth)} × ${mm(s.openingHeight)} in a lip ${mm(s.thickness)} thick comes to a corner${skin > 0 ? ` with ${mm(skin)} of stock` : ''}`,
        'make the opening rounder or larger, or the lip thinner',
        'openingWidth',
        'openingHeight',
        'thickness',
      ),
    );
  }
  if (!s.open) return findings;
  if (s.gap - 2 * skin < 2) {
    findings.push(
      stop(
        'gap-closed-by-stock',
        `${mm(skin)} of stock leaves ${mm(Math.max(0, s.gap - 2 * skin))} of a gap of ${mm(s.gap)}`,
        `make the gap ${mm(2 * skin + 2)} or wider`,
        'gap',
        { gap: roundedUp(2 * skin + 2) },
      ),
    );
  }
  if (s.gap > 0.8 * s.openingWidth + 1e-9) {
    findings.push(
      stop(
        'gap-wide',
        `a gap of ${mm(s.gap)} leaves no horns over an opening ${mm(s.openingWidth)} wide`,
        `make it ${mm(0.8 * s.openingWidth)} or narrower, or the opening wider`,
        'gap',
        'openingWidth',
        { gap: roundedDown(0.8 * s.openingWidth) },
      ),
    );
  }
  return findings;
}

function checkFillet(s: FairleadSizes, { skin }: Stock): readonly Finding[] {
  if (s.fillet - skin < 0.3) {
    return [
      stop(
        'fillet-filled-by-stock',
        `the fillets of ${mm(s.fillet)} are used up by ${mm(skin)} of stock`,
        `make the fillet ${mm(skin + 0.5)} or more`,
        'fillet',
        { fillet: roundedUp(skin + 0.5) },
      ),
    ];
  }
  const room = tightest(s.halfWidth, s.halfHeight, s.thickness);
  if (room >= leastCorner && s.fillet > room) {
    return [
      stop(
        'fillet-fills-opening',
        `a fillet of ${mm(s.fillet)} does not go into the corners of the opening, of ${mm(room)} radius`,
        `make it ${mm(Math.max(1, 0.8 * room))} or smaller, or the opening larger`,
        'fillet',
        'openingWidth',
        'openingHeight',
        { fillet: roundedDown(Math.max(1, 0.8 * room)) },
      ),
    ];
  }
  const lip = Math.min(s.thickness, s.depth);
  if (s.fillet > widestFillet * lip + 1e-9) {
    return [
      stop(
        'fillet-large',
        `a fillet of ${mm(s.fillet)} buries the foot of a lip ${mm(lip)} thick`,
        `make it ${mm(widestFillet * lip)} or smaller, or the lip thicker`,
        'fillet',
        'thickness',
        'depth',
        { fillet: roundedDown(widestFillet * lip) },
      ),
    ];
  }
  const thin = Math.min(s.flange.thickness, s.thickness);
  if (s.fillet >= thin / 3 - 0.01) return [];
  return [
    warn(
      'fillet-small',
      `inside corners of radius ${mm(s.fillet)} on sections ${mm(thin)} thick are where a casting tears`,
      `make the fillet ${mm(thin / 3)} to ${mm(thin / 2)} (a third to half of the section)`,
      'fillet',
      thin / 3 > Math.min(room, widestFillet * lip) - 0.01 ? {} : { fillet: roundedUp(thin / 3) },
    ),
  ];
}

function checkLine(s: FairleadSizes): readonly Finding[] {
  const findings: Finding[] = [];
  const { line } = s;
  const opening = fairleadOpening(line);
  const clear = Math.min(s.openingWidth, s.openingHeight);
  if (clear < opening.least - 1e-9) {
    findings.push(
      warn(
        'opening-tight-for-line',
        `an opening of ${mm(clear)} is tight for a ${mm(line)} line`,
        `make it ${mm(opening.least)}, or ${mm(opening.usual)} for splice and chafing gear`,
        'openingWidth',
        'openingHeight',
        'line',
        {
          ...(s.openingWidth < opening.least ? { openingWidth: roundedUp(opening.least) } : {}),
          ...(s.openingHeight < opening.least ? { openingHeight: roundedUp(opening.least) } : {}),
        },
      ),
    );
  }
  if (s.open && s.gap < line) {
    findings.push(
      warn(
        'gap-tight-for-line',
        `a ${mm(line)} line does not drop in by a gap of ${mm(s.gap)}`,
        `make the gap ${mm(1.2 * line)}`,
        'gap',
        'line',
        { gap: roundedUp(1.2 * line) },
      ),
    );
  }
  const bend = ropeBendRadius(line);
  const radius = lipRadius(s);
  if (radius < bend.better - 1e-9) {
    const tell = radius < bend.least - 1e-9 ? warn : note;
    findings.push(
      tell(
        'lip-sharp-for-line',
        `the line bends over a radius of ${mm(radius)}; it wants ${mm(bend.least)} at the least and ${mm(bend.better)} to last`,
        `make the lip ${mm(Math.sqrt(2 * s.thickness * bend.better))} deep`,
        'depth',
        'thickness',
        { depth: roundedUp(Math.sqrt(2 * s.thickness * bend.better)) },
      ),
    );
  }
  return findings;
}

function checkSections(s: FairleadSizes): readonly Finding[] {
  const sections = [s.flange.thickness, Math.min(s.thickness, s.depth)];
  const uneven = sectionUniformity(sections) > mostUniformity + 1e-6;
  return [
    ...(uneven
      ? [
          warn(
            'sections-uneven',
            `sections run from ${mm(Math.min(...sections))} to ${mm(Math.max(...sections))}: the thick ones shrink after the thin ones have frozen`,
            `keep them within ${mostUniformity} to 1`,
            'baseThickness',
            'thickness',
          ),
        ]
      : []),
    ...(s.open
      ? finFindings(s.gap, s.thickness, 'in the gap', 'two-edges', 'gap')
      : finFindings(
          Math.min(s.openingWidth, s.openingHeight),
          s.depth,
          'in the opening',
          'two-edges',
          'openingWidth',
          'openingHeight',
        )),
  ];
}

function checkPull(p: FairleadParameters, s: FairleadSizes): readonly Finding[] {
  const check = fairleadLoad(p, s);
  const parameters = ['line', 'thickness', 'depth', 'screw', 'turn', 'pullShare'];
  return [
    ...loadFindings(check, {
      part: 'the fairlead',
      use: lineInWords(p),
      remedy:
        check.weakest.member === 'bolts' ? 'take thicker screws, or four' : 'make the lip thicker or deeper',
      parameters,
    }),
    allowableLoadNote(check, { part: 'the fairlead', parameters }),
  ];
}
