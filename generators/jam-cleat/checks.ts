import {
  allowableLoadNote,
  bendingStress,
  boltAllowables,
  cantilever,
  checkLoad,
  cleatBoltTension,
  combinedStress,
  finFindings,
  headLand,
  hornShare,
  jamThroat,
  leastWall,
  loadFindings,
  rectangleSection,
  shearStress,
  stressCheck,
} from '../../core/hardware/index.js';
import { maths } from '../../core/maths/maths.js';
import { type Finding, hasStop, note, stop, warn } from '../../core/part/finding.js';
import { roundedDown, roundedUp } from '../../core/part/rounded.js';
import type { Stock } from '../../core/part/stock.js';
import { lineInWords, pullOfLine, strengthAllowables } from '../hardware/load-fields.js';
import { countersinkFindings } from '../hardware/screw-holes.js';
import type { JamCleatParameters } from './parameters.js';
import { type JamCleatSizes, jamBoltMaterial } from './sizes.js';

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;
const degrees = (angle: number): string => `${Number(((angle * 180) / Math.PI).toFixed(1))}°`;

/** Usual taper of a throat: between these the line grips and still comes free (common practice, no source). */
const usualTaper = { least: (6 * Math.PI) / 180, most: (12 * Math.PI) / 180 } as const;

/** What is wrong with a jam cleat in this state, or worth knowing. No solid can be made after a `stop`. */
export function checkJam(p: JamCleatParameters, s: JamCleatSizes, stock: Stock): readonly Finding[] {
  const shape = [...checkThroat(s, stock), ...checkBody(s, stock), ...checkScrews(s)];
  if (hasStop(shape)) return shape;
  return [...shape, ...checkGrip(s), ...checkLoads(p, s)];
}

function checkThroat(s: JamCleatSizes, stock: Stock): readonly Finding[] {
  const findings: Finding[] = [];
  if (s.mouth < s.end + 1) {
    findings.push(
      stop(
        'throat-without-taper',
        `the throat is ${mm(s.end)} high at its end and ${mm(s.mouth)} at its mouth`,
        `make the mouth ${mm(s.end + 1)} or higher`,
        'mouth',
        'end',
        { mouth: roundedUp(s.end + Math.max(1, 1.2 * s.line * maths.tan(s.taper))) },
      ),
    );
  } else if (s.throat < 1.2 * s.line - 1e-9) {
    findings.push(
      stop(
        'throat-short',
        `a throat from ${mm(s.mouth)} to ${mm(s.end)} at ${degrees(s.taper)} is ${mm(s.throat)} long; the line is ${mm(s.line)}`,
        `make it ${mm(1.2 * s.line)} long at least: a smaller taper, or a higher mouth`,
        'taper',
        'mouth',
        'end',
      ),
    );
  }
  if (s.end - 2 * stock.skin < 0.6) {
    findings.push(
      stop(
        'throat-closed-by-stock',
        `${mm(stock.skin)} of stock closes the throat's end of ${mm(s.end)}`,
        `make the end ${mm(2 * stock.skin + 1)} or higher, or the stock smaller`,
        'end',
        { end: roundedUp(2 * stock.skin + 1) },
      ),
    );
  }
  if (s.tipHeight < Math.max(2.5, 2 * leastWall())) {
    findings.push(
      stop(
        'horn-tip-thin',
        `the throat opens so far that ${mm(Math.max(0, s.tipHeight))} of the horn's ${mm(s.hornHeight)} is left at its tip`,
        'make the horn higher, or the mouth lower',
        'hornHeight',
        'mouth',
      ),
    );
  }
  return findings;
}

function checkBody(s: JamCleatSizes, stock: Stock): readonly Finding[] {
  const findings: Finding[] = [];
  const thin = Math.min(s.tipHeight, s.baseThickness);
  const most = Math.min(s.width / 2 - 0.5, 0.35 * thin);
  if (s.edge > most + 1e-9) {
    findings.push(
      stop(
        'edges-meet',
        `edges rounded by ${mm(s.edge)} do not fit a body ${mm(s.width)} wide with sections of ${mm(thin)}`,
        most >= 0.5
          ? `round them by ${mm(Math.floor(100 * most) / 100)} or less`
          : 'make the body wider and its sections thicker',
        'edge',
        'width',
        'baseThickness',
        'hornHeight',
        most >= 0.5 ? { edge: roundedDown(most) } : {},
      ),
    );
  }
  const smallest = Math.min(s.fillet, 0.42 * s.end);
  if (smallest - stock.skin < 0.1) {
    findings.push(
      stop(
        'fillet-filled-by-stock',
        `inside corners of radius ${mm(smallest)} are used up by ${mm(stock.skin)} of stock`,
        `make the fillet ${mm(stock.skin + 0.3)} or more, and the throat's end over twice that`,
        'fillet',
        'end',
      ),
    );
  } else if (s.fillet < thin / 3 - 0.01) {
    findings.push(
      warn(
        'fillet-small',
        `inside corners of radius ${mm(s.fillet)} between sections of ${mm(thin)} are where a casting tears`,
        `make the fillet ${mm(thin / 3)} to ${mm(thin / 2)} (a third to half of the section)`,
        'fillet',
        { fillet: roundedUp(thin / 3) },
      ),
    );
  }
  if (s.backHorn === 0) {
    if (s.fillet + 0.3 * s.tipHeight + 0.5 > s.top - s.baseThickness) {
      findings.push(
        stop(
          'fillet-taller-than-post',
          `a fillet of ${mm(s.fillet)} does not fit a post ${mm(s.top - s.baseThickness)} high`,
          'make the fillet smaller',
          'fillet',
        ),
      );
    }
    return findings;
  }
  const thick = s.top - s.drop - s.baseThickness - s.backClearance - s.backRise;
  if (thick < Math.max(2.5, 2 * s.edge + 1)) {
    findings.push(
      stop(
        'back-horn-thin',
        `under the other horn the line needs ${mm(s.backClearance + s.backRise)}, which leaves it ${mm(Math.max(0, thick))} high`,
        'make the jamming horn higher, or leave the other horn out (length 0)',
        'hornHeight',
        'backHorn',
      ),
    );
  }
  if (s.backHorn < s.fillet + thick || s.backClearance < 2 * s.fillet + 0.5) {
    findings.push(
      stop(
        'back-horn-short',
        `a horn reaching ${mm(s.backHorn)} has no room for its tip and a fillet of ${mm(s.fillet)}`,
        `let it reach ${mm(s.fillet + Math.max(1, thick))}, make the fillet smaller, or leave it out (length 0)`,
        'backHorn',
        'fillet',
      ),
    );
  }
  return findings;
}

function checkScrews(s: JamCleatSizes): readonly Finding[] {
  const findings: Finding[] = [...countersinkFindings(s.seat, s.baseThickness, 'baseThickness')];
  const { holeDiameter, mouthDiameter } = s.seat;
  const narrow = Math.min(s.width, s.post);
  const wall = (narrow - holeDiameter) / 2;
  if (narrow < mouthDiameter + 2 * s.edge || wall < leastWall()) {
    findings.push(
      stop(
        'screw-wider-than-body',
        `screw heads of ${mm(mouthDiameter)} do not fit between the rounded edges of ${mm(narrow)}`,
        `make width and post ${mm(Math.ceil(mouthDiameter + 2 * Math.max(s.edge, headLand(mouthDiameter))))}, or take thinner screws`,
        'width',
        'post',
        'screw',
      ),
    );
  }
  return findings;
}

function checkGrip(s: JamCleatSizes): readonly Finding[] {
  const findings: Finding[] = [];
  const rule = jamThroat(s.line);
  if (s.end > 0.85 * s.line || s.mouth < 1.05 * s.line) {
    findings.push(
      warn(
        'throat-does-not-grip',
        `a ${mm(s.line)} line ${s.end > 0.85 * s.line ? 'runs through' : 'does not go into'} a throat from ${mm(s.mouth)} to ${mm(s.end)}`,
        `make it ${mm(rule.mouth)} at the mouth and ${mm(rule.end)} at the end`,
        'mouth',
        'end',
        'line',
        { mouth: roundedUp(rule.mouth), end: roundedUp(rule.end) },
      ),
    );
  }
  if (s.taper < usualTaper.least - 1e-9 || s.taper > usualTaper.most + 1e-9) {
    findings.push(
      note(
        'taper-unusual',
        `a taper of ${degrees(s.taper)} ${s.taper > usualTaper.most ? 'lets the line slip out' : 'holds the line so that it is hard to free'}`,
        `between ${degrees(usualTaper.least)} and ${degrees(usualTaper.most)} is usual`,
        'taper',
        { taper: s.taper > usualTaper.most ? usualTaper.most : usualTaper.least },
      ),
    );
  }
  findings.push(...finFindings(s.end, s.width, "at the throat's end", 'one-edge', 'end', 'width'));
  return findings;
}

/** The horn bears its share of the pull half-way along the throat; the post the whole; the screws hold it down. */
function checkLoads(p: JamCleatParameters, s: JamCleatSizes): readonly Finding[] {
  const force = pullOfLine(p);
  const casting = strengthAllowables(p.strengthOf);
  const horn = rectangleSection(s.width, s.hornHeight);
  const onHorn = cantilever(hornShare * force, s.throat / 2);
  // The post with its screw hole, bent along the cleat by the line round it.
  const [whole, hole] = [rectangleSection(s.width, s.post), rectangleSection(s.seat.holeDiameter, s.post)];
  const post = {
    area: whole.area - s.seat.holeDiameter ** 2,
    modulus: Math.max(1e-6, whole.modulus - (hole.modulus * s.seat.holeDiameter ** 2) / s.post ** 2),
    shearFactor: whole.shearFactor,
  };
  const atPost = cantilever(force, s.backClearance);
  const tension = cleatBoltTension(force, {
    hornClearance: s.baseThickness + s.end,
    lineDiameter: s.line,
    baseLength: s.right - s.left,
    fastenerSpan: s.baseScrew - s.postScrew,
    fasteners: 2,
  });
  const check = checkLoad(force, [
    stressCheck(
      'horn',
      'bending at the post',
      combinedStress(bendingStress(onHorn, horn), shearStress(onHorn, horn)),
      casting,
    ),
    stressCheck(
      'post',
      'bending at the base',
      combinedStress(bendingStress(atPost, post), shearStress(atPost, post)),
      casting,
    ),
    stressCheck(
      'bolts',
      'tension and shear',
      combinedStress(tension / s.screw.stressArea, force / 2 / s.screw.stressArea),
      boltAllowables(jamBoltMaterial),
    ),
  ]);
  const parameters = ['line', 'hornHeight', 'width', 'screw', 'pullShare'];
  return [
    ...loadFindings(check, {
      part: 'the cleat',
      use: lineInWords(p),
      remedy: `make the ${check.weakest.member === 'bolts' ? 'screws' : check.weakest.member} thicker`,
      parameters,
    }),
    allowableLoadNote(check, { part: 'the cleat', parameters }),
  ];
}
