import {
  allowableLoadNote,
  cleatLengthPerDiameter,
  finFindings,
  leastPinWall,
  leastWall,
  loadFindings,
  mostUniformity,
  sectionUniformity,
} from '../../core/hardware/index.js';
import { maths } from '../../core/maths/maths.js';
import { type Finding, hasStop, note, stop, warn } from '../../core/part/finding.js';
import { roundedDown, roundedUp } from '../../core/part/rounded.js';
import type { Stock } from '../../core/part/stock.js';
import { lineInWords } from '../hardware/load-fields.js';
import { countersinkFindings } from '../hardware/screw-holes.js';
import { hornHalf, spineHeight } from './body.js';
import { cleatLoad } from './loads.js';
import type { HornCleatParameters } from './parameters.js';
import { type HornCleatSizes, headGap } from './sizes.js';

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

/** What is wrong with a cleat in this state, or worth knowing. No solid can be made after a `stop`. */
export function checkCleat(p: HornCleatParameters, sizes: HornCleatSizes, stock: Stock): readonly Finding[] {
  const shape = [...checkHorns(sizes), ...checkFillets(sizes, stock), ...checkBase(sizes)];
  if (hasStop(shape)) return shape;
  return [
    ...shape,
    ...checkScrews(sizes),
    ...checkUse(sizes),
    ...checkSections(sizes),
    ...checkPull(p, sizes),
  ];
}

function checkHorns(s: HornCleatSizes): readonly Finding[] {
  const findings: Finding[] = [];
  if (s.tipHeight > s.hornHeight) {
    findings.push(
      stop(
        'horns-thicken',
        `the horns are ${mm(s.tipHeight)} high at their tips and ${mm(s.hornHeight)} in the middle`,
        `make the tips ${mm(s.hornHeight)} or lower`,
        'tipHeight',
        'hornHeight',
        { tipHeight: roundedDown(s.hornHeight) },
      ),
    );
  }
  // Outside the legs' fillets a horn must be long enough to take a turn, and its tips to be round.
  const root = s.legAt + s.legLength / 2 + s.fillet;
  const least = Math.max(root + 0.5 * s.hornHeight + 0.9 * s.tipHeight, 2.2 * s.tipHeight);
  if (s.length / 2 < least) {
    findings.push(
      stop(
        'horns-short',
        `legs and fillets reach ${mm(root)} to each side of the middle, which leaves no horns on a cleat ${mm(s.length)} long`,
        `make it ${mm(Math.ceil(2 * least))} long, or set the legs closer`,
        'length',
        'opening',
        'legLength',
      ),
    );
  } else if (s.sweep > 0.3 * s.length) {
    findings.push(
      stop(
        'sweep-steep',
        `the horns rise ${mm(s.sweep)} over ${mm(s.length / 2)}: steeper than a line stays on`,
        `make the sweep ${mm(0.3 * s.length)} or less; ${mm(0.06 * s.length)} is usual`,
        'sweep',
        { sweep: roundedDown(0.06 * s.length) },
      ),
    );
  }
  if (s.legWidth > s.hornWidth - 0.5 || s.hornWidth > 2 * s.hornHeight) {
    findings.push(
      stop(
        'legs-wider-than-horns',
        `horns ${mm(s.hornHeight)} high cannot sit on legs ${mm(s.legWidth)} wide with screws ${s.screw.name}`,
        'make the horns higher, the legs narrower or the screws thinner',
        'hornHeight',
        'legWidth',
        'screw',
      ),
    );
  }
  return findings;
}

function checkFillets(s: HornCleatSizes, stock: Stock): readonly Finding[] {
  const findings: Finding[] = [];
  const thin = Math.min(s.legWidth, s.legLength, s.baseThickness);
  if (s.fillet - stock.skin < 0.3) {
    findings.push(
      stop(
        'fillet-filled-by-stock',
        `the fillets of ${mm(s.fillet)} are used up by ${mm(stock.skin)} of stock`,
        `make the fillet ${mm(stock.skin + 0.5)} or more`,
        'fillet',
        { fillet: roundedUp(stock.skin + 0.5) },
      ),
    );
  } else if (s.fillet < thin / 3 - 0.01) {
    findings.push(
      warn(
        'fillet-small',
        `inside corners of radius ${mm(s.fillet)} on sections ${mm(thin)} thick are where a casting tears`,
        `make the fillet ${mm(thin / 3)} to ${mm(thin / 2)} (a third to half of the section)`,
        'fillet',
        { fillet: roundedUp(thin / 3) },
      ),
    );
  }
  const gaps = [
    { where: 'between base and horns', gap: s.clearance, parameter: 'clearance' },
    ...(s.base === 'open' ? [{ where: 'between the legs', gap: s.opening, parameter: 'opening' }] : []),
  ];
  const room = 2 * s.fillet + 0.5;
  const toRoom = Object.fromEntries(
    gaps.filter(({ gap }) => gap < room - 1e-9).map(({ parameter }) => [parameter, roundedUp(room)]),
  );
  for (const { where, gap, parameter } of gaps) {
    if (gap < room - 1e-9) {
      findings.push(
        stop(
          'fillets-meet',
          `fillets of ${mm(s.fillet)} fill the ${mm(Math.max(0, gap))} ${where}`,
          `leave ${mm(room)} there, or make the fillets smaller`,
          parameter,
          'fillet',
          toRoom,
        ),
      );
    }
  }
  return findings;
}

function checkBase(s: HornCleatSizes): readonly Finding[] {
  const findings: Finding[] = [];
  const foot = s.legAt + s.legLength / 2;
  const long = 2 * (foot + 0.5 * s.edgeRadius + 0.5);
  const wide = s.legWidth + s.edgeRadius + 1;
  if (s.baseLength < long || s.baseWidth < wide) {
    findings.push(
      stop(
        'base-small-for-legs',
        `the base is ${mm(s.baseLength)} × ${mm(s.baseWidth)}; its legs stand on ${mm(2 * foot)} × ${mm(s.legWidth)}`,
        `make the base ${mm(Math.ceil(long))} × ${mm(Math.ceil(wide))} or larger`,
        'baseLength',
        'baseWidth',
        {
          ...(s.baseLength < long ? { baseLength: Math.ceil(long) } : {}),
          ...(s.baseWidth < wide ? { baseWidth: Math.ceil(wide) } : {}),
        },
      ),
    );
  }
  if (s.baseWidth > s.baseLength) {
    findings.push(
      stop(
        'base-wide',
        `the base is ${mm(s.baseWidth)} wide and only ${mm(s.baseLength)} long`,
        'make it longer than wide',
        'baseLength',
        'baseWidth',
      ),
    );
  }
  if (s.baseLength > s.length) {
    findings.push(
      stop(
        'base-longer-than-horns',
        `the base is ${mm(s.baseLength)} long under horns of ${mm(s.length)}`,
        `make the base ${mm(s.length)} or shorter`,
        'baseLength',
        'length',
        s.length < long ? {} : { baseLength: s.length },
      ),
    );
  }
  if (s.fasteners === 4) {
    const land = Math.min(s.baseLength / 2 - s.screwAlong, s.baseWidth / 2 - s.screwAcross);
    const mouth = s.seat.mouthDiameter;
    if (land < Math.max(mouth / 2 + 1, s.edgeRadius + 0.3)) {
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
    if (2 * Math.min(s.screwAcross, s.screwAlong) < mouth + 1) {
      findings.push(
        stop(
          'screws-meet',
          `screw heads ${mm(mouth)} wide meet, ${mm(2 * Math.min(s.screwAcross, s.screwAlong))} apart`,
          'make the base larger or the screws thinner',
          'baseWidth',
          'baseLength',
          'screw',
        ),
      );
    }
    findings.push(...countersinkFindings(s.seat, s.baseThickness, 'baseThickness'));
  } else {
    const hole = s.seat.holeDiameter;
    const ends = s.base === 'closed' ? s.legLength / 2 - s.screwAlong : s.legLength / 2;
    const wall = Math.min(s.legWidth / 2, ends) - hole / 2;
    const between = s.base === 'closed' ? 2 * s.screwAlong - s.seat.mouthDiameter : 10;
    if (wall < leastWall() || between < 1) {
      findings.push(
        stop(
          'screws-through-legs',
          `screw holes of ${mm(hole)} leave ${wall > 0 ? mm(wall) : 'nothing'} of the ${s.base === 'open' ? 'legs' : 'neck'}`,
          `make them thicker, take thinner screws or put four in the base`,
          'screw',
          'legLength',
          'legWidth',
          'fasteners',
        ),
      );
    } else if (wall < leastPinWall(hole) - 0.26) {
      findings.push(
        warn(
          'wall-at-screws-thin',
          `screw holes of ${mm(hole)} leave walls of ${mm(wall)} round them`,
          `leave ${mm(leastPinWall(hole))}: a thinner screw or a thicker ${s.base === 'open' ? 'leg' : 'neck'}`,
          'screw',
          'legLength',
          'legWidth',
        ),
      );
    }
  }
  return findings;
}

/** Screws in the base go in from above, past the horns and the legs' fillets. */
function checkScrews(s: HornCleatSizes): readonly Finding[] {
  if (s.fasteners === 2) return [];
  const findings: Finding[] = [];
  const head = s.seat.mouthDiameter / 2;
  if (s.screwAcross - head < s.hornWidth / 2 - 0.01) {
    findings.push(
      warn(
        'screws-under-horns',
        `screw heads ${mm(2 * head)} wide, ${mm(s.screwAcross)} off the middle, lie under horns ${mm(s.hornWidth)} wide: no driver gets at them from above`,
        `put them ${mm(s.hornWidth / 2 + head + headGap)} off, in a wider base`,
        'baseWidth',
        'screw',
      ),
    );
  }
  const dx = Math.max(0, s.screwAlong - s.legAt - 0.3 * s.legLength);
  const dy = Math.max(0, s.screwAcross - 0.3 * s.legWidth);
  const free = maths.hypot(dx, dy) - 0.2 * Math.max(s.legLength, s.legWidth) - head;
  if (free < s.fillet - 0.01) {
    findings.push(
      warn(
        'screws-in-fillet',
        `screw heads come ${mm(Math.max(0, free))} near the legs, into their fillets of ${mm(s.fillet)}`,
        'make the base larger, or the fillets smaller',
        'baseLength',
        'baseWidth',
        'fillet',
      ),
    );
  }
  return findings;
}

function checkUse(s: HornCleatSizes): readonly Finding[] {
  const findings: Finding[] = [];
  const fits = s.length / cleatLengthPerDiameter;
  if (s.line > 1.2 * fits) {
    findings.push(
      warn(
        'cleat-short-for-line',
        `a cleat ${mm(s.length)} long is for lines to ${mm(fits)}; the line is ${mm(s.line)}`,
        `make it ${mm(cleatLengthPerDiameter * s.line)} long, ${cleatLengthPerDiameter} line diameters`,
        'length',
        'line',
        { length: roundedUp(cleatLengthPerDiameter * s.line) },
      ),
    );
  }
  if (s.clearance < 1.25 * s.line) {
    findings.push(
      warn(
        'no-room-under-horns',
        `${mm(s.clearance)} under the horns is little for turns of a ${mm(s.line)} line`,
        `leave ${mm(1.5 * s.line)}`,
        'clearance',
        { clearance: roundedUp(1.5 * s.line) },
      ),
    );
  }
  if (s.base === 'open' && s.opening < 1.2 * s.line) {
    findings.push(
      note(
        'opening-narrow',
        `an eye splice of a ${mm(s.line)} line does not go through ${mm(s.opening)} between the legs`,
        `leave ${mm(1.75 * s.line)}`,
        'opening',
        { opening: roundedUp(1.75 * s.line) },
      ),
    );
  }
  return findings;
}

/** Sections of like thickness, and gaps that the mould can hold. */
function checkSections(s: HornCleatSizes): readonly Finding[] {
  const findings: Finding[] = [];
  const sections = [s.hornHeight, Math.min(s.legLength, s.legWidth), s.baseThickness];
  if (sectionUniformity(sections) > mostUniformity + 0.2) {
    findings.push(
      warn(
        'sections-uneven',
        `sections run from ${mm(Math.min(...sections))} to ${mm(Math.max(...sections))}: the thick ones shrink after the thin ones have frozen`,
        `keep them within ${mostUniformity} to 1`,
        'hornHeight',
        'legWidth',
        'baseThickness',
      ),
    );
  }
  const horn = spineHeight(s, s.baseLength / 2) - hornHalf(s, s.baseLength / s.length) - s.baseThickness;
  findings.push(
    ...finFindings(
      Math.min(horn, s.clearance),
      s.hornWidth,
      'between base and horns',
      'one-edge',
      'clearance',
    ),
    ...(s.base === 'open'
      ? finFindings(Math.min(s.opening, s.clearance), s.legWidth, 'between the legs', 'two-edges', 'opening')
      : []),
  );
  return findings;
}

function checkPull(p: HornCleatParameters, s: HornCleatSizes): readonly Finding[] {
  const check = cleatLoad(p, s);
  const parameters = ['length', 'screw', 'line', 'pullShare'];
  return [
    ...loadFindings(check, {
      part: 'the cleat',
      use: lineInWords(p),
      remedy: `make the ${check.weakest.member === 'bolts' ? 'screws' : check.weakest.member} thicker, or the cleat longer`,
      parameters,
    }),
    allowableLoadNote(check, { part: 'the cleat', parameters }),
  ];
}
