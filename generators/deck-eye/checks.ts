import {
  allowableLoadNote,
  fairleadOpening,
  finFindings,
  leastPinWall,
  leastWall,
  loadFindings,
  mostUniformity,
  ropeBendRadius,
  sectionUniformity,
} from '../../core/hardware/index.js';
import { type Finding, hasStop, note, stop, warn } from '../../core/part/finding.js';
import { roundedDown, roundedUp } from '../../core/part/rounded.js';
import type { Stock } from '../../core/part/stock.js';
import { formatForce } from '../../core/units/mechanics.js';
import { flangeFindings } from '../hardware/flange.js';
import { lineInWords } from '../hardware/load-fields.js';
import { seatOf } from '../hardware/screw-field.js';
import { countersinkFindings } from '../hardware/screw-holes.js';
import { eyeLoad, sidePull } from './loads.js';
import type { DeckEyeParameters } from './parameters.js';
import type { DeckEyeSizes } from './sizes.js';

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

/** What is wrong with a deck eye in this state, or worth knowing. No solid can be made after a `stop`. */
export function checkEye(p: DeckEyeParameters, s: DeckEyeSizes, stock: Stock): readonly Finding[] {
  const shape = [
    ...(s.eye.kind === 'ring' ? checkRing(s, s.eye, stock) : checkLug(s.eye, stock)),
    ...checkFillet(s, stock),
    ...flangeFindings(s.flange, s.foot, s.fillet),
    ...countersinkFindings(seatOf(s.flange.screw), s.flange.thickness, 'baseThickness'),
  ];
  if (hasStop(shape)) return shape;
  return [...shape, ...checkUse(s), ...checkPull(p, s)];
}

type Ring = Extract<DeckEyeSizes['eye'], { kind: 'ring' }>;
type Lug = Extract<DeckEyeSizes['eye'], { kind: 'lug' }>;

function checkRing(s: DeckEyeSizes, eye: Ring, stock: Stock): readonly Finding[] {
  const findings: Finding[] = [];
  if (eye.opening - 2 * stock.skin < 3) {
    findings.push(
      stop(
        'eye-closed-by-stock',
        `${mm(stock.skin)} of stock leaves ${mm(Math.max(0, eye.opening - 2 * stock.skin))} of an opening of ${mm(eye.opening)}`,
        `make the opening ${mm(2 * stock.skin + 3)} or more`,
        'opening',
        { opening: roundedUp(2 * stock.skin + 3) },
      ),
    );
  }
  // The fillet's ball has to come down on the base inside the ring.
  if (s.fillet > 0.36 * eye.opening + 1e-9) {
    findings.push(
      stop(
        'fillet-fills-eye',
        `a fillet of ${mm(s.fillet)} fills the foot of an opening of ${mm(eye.opening)}`,
        `make the fillet ${mm(0.36 * eye.opening)} or smaller, or the opening larger`,
        'fillet',
        'opening',
        { fillet: roundedDown(0.36 * eye.opening) },
      ),
    );
  }
  return findings;
}

function checkLug(eye: Lug, stock: Stock): readonly Finding[] {
  const wall = eye.radius - eye.hole / 2;
  if (wall < Math.max(leastWall(), 1.5) || eye.edge < 0.1) {
    return [
      stop(
        'lug-hole-through-edge',
        `a hole of ${mm(eye.hole)} leaves ${mm(Math.max(0, wall))} of a lug of radius ${mm(eye.radius)}`,
        `make the radius ${mm(eye.hole / 2 + Math.max(1.5, leastPinWall(eye.hole)))} or more`,
        'lugRadius',
        'pin',
        { lugRadius: roundedUp(eye.hole / 2 + Math.max(1.5, leastPinWall(eye.hole))) },
      ),
    ];
  }
  if (wall < leastPinWall(eye.hole) - 0.01) {
    return [
      warn(
        'wall-at-pin-thin',
        `${mm(wall)} of metal is left round the pin's hole of ${mm(eye.hole)}`,
        `leave ${mm(leastPinWall(eye.hole))}`,
        'lugRadius',
        'pin',
        { lugRadius: roundedUp(eye.hole / 2 + leastPinWall(eye.hole)) },
      ),
    ];
  }
  return stock.bore > eye.hole / 2
    ? [note('pin-hole-filled', 'stock fills the pin hole', 'drill it', 'pin')]
    : [];
}

function checkFillet(s: DeckEyeSizes, stock: Stock): readonly Finding[] {
  const thin = Math.min(s.flange.thickness, s.eye.kind === 'ring' ? s.eye.bar : s.eye.thickness);
  if (s.fillet - stock.skin < 0.3) {
    return [
      stop(
        'fillet-filled-by-stock',
        `the fillets of ${mm(s.fillet)} are used up by ${mm(stock.skin)} of stock`,
        `make the fillet ${mm(stock.skin + 0.5)} or more`,
        'fillet',
        { fillet: roundedUp(stock.skin + 0.5) },
      ),
    ];
  }
  if (s.eye.kind === 'lug' && s.flange.thickness + s.fillet > s.eye.centre - s.eye.hole / 2 - 0.3) {
    return [
      stop(
        'fillet-reaches-pin-hole',
        `a fillet of ${mm(s.fillet)} comes up to the pin's hole`,
        `make the fillet ${mm(Math.max(1, s.eye.centre - s.eye.hole / 2 - 0.5 - s.flange.thickness))} or smaller`,
        'fillet',
        { fillet: roundedDown(Math.max(1, s.eye.centre - s.eye.hole / 2 - 0.5 - s.flange.thickness)) },
      ),
    ];
  }
  if (s.fillet < thin / 3 - 0.01) {
    return [
      warn(
        'fillet-small',
        `inside corners of radius ${mm(s.fillet)} on sections ${mm(thin)} thick are where a casting tears`,
        `make the fillet ${mm(thin / 3)} to ${mm(thin / 2)} (a third to half of the section)`,
        'fillet',
        s.eye.kind === 'ring' && thin / 3 > 0.36 * s.eye.opening - 0.01
          ? {}
          : { fillet: roundedUp(thin / 3) },
      ),
    ];
  }
  return [];
}

function checkUse(s: DeckEyeSizes): readonly Finding[] {
  const { eye, flange, line } = s;
  const findings: Finding[] = [];
  if (eye.kind === 'ring') {
    const least = fairleadOpening(line).least;
    if (eye.opening < least) {
      findings.push(
        warn(
          'eye-tight-for-line',
          `an opening of ${mm(eye.opening)} is tight for a ${mm(line)} line`,
          `make it ${mm(least)}, or ${mm(fairleadOpening(line).usual)} for splice and thimble`,
          'opening',
          'line',
          { opening: roundedUp(fairleadOpening(line).usual) },
        ),
      );
    }
    if (eye.bar / 2 < ropeBendRadius(line).least) {
      findings.push(
        note(
          'bar-thin-for-bend',
          `a line of ${mm(line)} bends round a bar of ${mm(eye.bar)}; its strength wants ${mm(2 * ropeBendRadius(line).least)}`,
          'splice it round a thimble, or use a snap or shackle',
          'bar',
        ),
      );
    }
  } else if (eye.thickness > 1.3 * eye.pin) {
    findings.push(
      warn(
        'lug-thick-for-shackle',
        `a lug ${mm(eye.thickness)} thick may not go between the arms of a shackle with a pin of ${mm(eye.pin)}`,
        `make it ${mm(1.2 * eye.pin)} or thinner, or measure the shackle`,
        'lugThickness',
        'pin',
        { lugThickness: roundedDown(1.2 * eye.pin) },
      ),
    );
  }
  const sections = [flange.thickness, eye.kind === 'ring' ? eye.bar : eye.thickness];
  if (sectionUniformity(sections) > mostUniformity + 1e-6) {
    findings.push(
      warn(
        'sections-uneven',
        `sections run from ${mm(Math.min(...sections))} to ${mm(Math.max(...sections))}: the thick ones shrink after the thin ones have frozen`,
        `keep them within ${mostUniformity} to 1`,
        'baseThickness',
        eye.kind === 'ring' ? 'bar' : 'lugThickness',
      ),
    );
  }
  if (eye.kind === 'ring')
    findings.push(...finFindings(eye.opening, eye.bar, 'in the eye', 'two-edges', 'opening'));
  return findings;
}

function checkPull(p: DeckEyeParameters, s: DeckEyeSizes): readonly Finding[] {
  const check = eyeLoad(p, s);
  const parameters =
    s.eye.kind === 'ring'
      ? ['line', 'bar', 'screw', 'pullShare']
      : ['line', 'lugRadius', 'lugThickness', 'screw', 'pullShare'];
  return [
    ...loadFindings(check, {
      part: 'the eye',
      use: lineInWords(p),
      remedy:
        check.weakest.member === 'bolts'
          ? 'take thicker screws, or four'
          : `make the ${check.weakest.member} thicker`,
      parameters,
    }),
    allowableLoadNote(check, { part: 'the eye', parameters }),
    note(
      'pull-in-plane',
      `those are pulls in the plane of the ${s.eye.kind}; across it the ${s.eye.kind} alone bears ${formatForce(sidePull(p, s), 'mm')}`,
      'set it with its plane along the pull',
    ),
  ];
}
