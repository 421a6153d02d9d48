import { type Change, type Finding, note, stop, warn } from '../../core/part/finding.js';
import { roundedDown, roundedUp } from '../../core/part/rounded.js';
import { type BodyParameters, type DrawnBody, rimBacking } from './body-sizes.js';
import { checkBore, finishedReach } from './bore.js';

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

/** Thinnest wall left standing between bore and root or hub, mm (common practice, no source). */
const leastWall = 1.5;
const largestTipDiameter = 400;
/** Room between hub and rim that a web is worth, mm. */
const leastWeb = 4;
/** Sections that meet should not differ by more than this in modulus, or the heavier tears or draws (common practice, no source). */
const mostUneven = 2;

/** Everything that is wrong with the finished body, whatever its stock. */
export function checkBody(p: BodyParameters, d: DrawnBody): readonly Finding[] {
  return [
    ...checkExtent(p, d),
    ...checkBoreWalls(p, d),
    ...checkHub(d),
    ...checkWeb(p, d),
    ...checkSections(p, d),
  ];
}

function checkExtent(p: BodyParameters, d: DrawnBody): readonly Finding[] {
  const findings: Finding[] = [];
  if (2 * d.tipRadius > largestTipDiameter) {
    findings.push(
      stop(
        'gear-too-large',
        `The tip diameter is ${mm(2 * d.tipRadius)}; at most ${largestTipDiameter} mm.`,
        'Use a smaller module or fewer teeth.',
        'module',
        'teeth',
      ),
    );
  }
  const deepest = Math.min(d.depth, p.faceWidth / 3);
  if (p.edgeChamfer > deepest + 1e-9) {
    findings.push(
      stop(
        'edge-chamfer-too-large',
        `An edge chamfer of ${mm(p.edgeChamfer)} leaves too little of the teeth.`,
        `Use at most ${mm(roundedDown(deepest))}.`,
        'edgeChamfer',
        'faceWidth',
        { edgeChamfer: roundedDown(deepest) },
      ),
    );
  }
  return findings;
}

/** Largest bore of this shape, in hundredths, that stays within a circle of radius `reach`, mm; 0 for none. */
function largestBore(p: BodyParameters, reach: number): number {
  let hundredths = Math.floor(100 * p.bore);
  while (hundredths > 0 && finishedReach({ ...p, bore: hundredths / 100 }) > reach) hundredths--;
  return hundredths / 100;
}

/** A bore this small, where one of this shape can be made at all. */
function toBore(p: BodyParameters, reach: number): Change {
  const bore = largestBore(p, reach);
  return bore > 0 && checkBore({ ...p, bore }) === null ? { bore } : {};
}

function checkBoreWalls(p: BodyParameters, d: DrawnBody): readonly Finding[] {
  if (p.bore === 0) return [];
  const wall = d.rootRadius - d.boreReach;
  const what = p.boreShape === 'keyed' ? 'keyway' : 'bore';
  if (wall < leastWall - 1e-9) {
    return [
      stop(
        p.boreShape === 'keyed' ? 'keyway-through-rim' : 'bore-through-root',
        wall >= 0
          ? `The ${what} leaves ${mm(wall)} below the tooth roots; at least ${leastWall} mm.`
          : `The ${what} reaches ${mm(-wall)} beyond the tooth roots; at least ${leastWall} mm are to be left below them.`,
        `Use a bore of at most ${mm(largestBore(p, d.rootRadius - leastWall))}.`,
        'bore',
        'teeth',
        'module',
        toBore(p, d.rootRadius - leastWall),
      ),
    ];
  }
  if (wall < rimBacking * d.depth - 1e-9) {
    return [
      warn(
        'thin-rim',
        `The ${what} leaves a rim of ${mm(wall)} below the roots, less than ${rimBacking} tooth depths (${mm(rimBacking * d.depth)}).`,
        `Use a bore of at most ${mm(largestBore(p, d.rootRadius - rimBacking * d.depth))}, or more teeth, where the gear carries load.`,
        'bore',
        toBore(p, d.rootRadius - rimBacking * d.depth),
      ),
    ];
  }
  return [];
}

/** A rim that gives the roots too little backing; `what` leaves it, and it has `room` to be thicker, mm. */
export const thinRim = (what: string, rim: number, depth: number, room: number): Finding =>
  warn(
    'thin-rim',
    `The ${what} below the roots is ${mm(rim)} thick, less than ${rimBacking} tooth depths.`,
    `Use a rimThickness of at least ${mm(roundedUp(rimBacking * depth))} where the gear carries load.`,
    'rimThickness',
    roundedUp(rimBacking * depth) <= rim + room ? { rimThickness: roundedUp(rimBacking * depth) } : {},
  );

/** A hub of this size, where it has a wall and stays below the roots. */
const toHub = (d: DrawnBody, hubDiameter: number): Change =>
  hubDiameter / 2 <= d.rootRadius - 0.5 + 1e-9 && hubDiameter / 2 - d.boreReach >= leastWall - 1e-9
    ? { hubDiameter }
    : {};

function checkHub(d: DrawnBody): readonly Finding[] {
  if (!d.hasHub && !d.hasWeb) return [];
  const findings: Finding[] = [];
  if (d.hubDiameter / 2 > d.rootRadius - 0.5 + 1e-9) {
    findings.push(
      stop(
        'hub-larger-than-root',
        `The hub diameter ${mm(d.hubDiameter)} reaches the root circle ${mm(2 * d.rootRadius)}.`,
        `Use a hub of at most ${mm(roundedDown(2 * d.rootRadius - 1))}.`,
        'hubDiameter',
        toHub(d, roundedDown(2 * d.rootRadius - 1)),
      ),
    );
  }
  const wall = d.hubDiameter / 2 - d.boreReach;
  if (wall < leastWall - 1e-9) {
    findings.push(
      stop(
        'hub-wall-thin',
        `The hub diameter ${mm(d.hubDiameter)} leaves a wall of ${mm(wall)} round the bore; at least ${leastWall} mm.`,
        `Use a hub of at least ${mm(roundedUp(2 * (d.boreReach + leastWall)))}.`,
        'hubDiameter',
        'bore',
        toHub(d, roundedUp(2 * (d.boreReach + leastWall))),
      ),
    );
  }
  return findings;
}

function checkWeb(p: BodyParameters, d: DrawnBody): readonly Finding[] {
  const findings: Finding[] = [];
  if (p.webThickness !== undefined && p.webThickness > p.faceWidth) {
    findings.push(
      stop(
        'web-thicker-than-face',
        `The web is ${mm(p.webThickness)} thick, more than the face width ${mm(p.faceWidth)}.`,
        'Use a thinner web, or leave webThickness out for a solid disc.',
        'webThickness',
        'faceWidth',
        { webThickness: p.faceWidth },
      ),
    );
  }
  const inside = d.rootRadius - d.rim;
  if ((d.hasWeb || p.holes > 0) && d.rim < rimBacking * d.depth - 1e-9)
    findings.push(thinRim('rim', d.rim, d.depth, d.hasWeb ? inside - d.hubDiameter / 2 - leastWeb : 0));
  if (d.hasWeb && inside - d.hubDiameter / 2 < leastWeb) {
    findings.push(
      stop(
        'no-room-for-web',
        `Between the hub (radius ${mm(d.hubDiameter / 2)}) and the rim (inside radius ${mm(inside)}) there is no room for a web.`,
        'Leave webThickness out, or use a smaller hub or a thinner rim.',
        'webThickness',
        'hubDiameter',
        'rimThickness',
      ),
    );
  }
  return findings;
}

/** Cooling modulus of a long bar a × b, mm: section area over its edge. */
export const barModulus = (a: number, b: number): number => (a * b) / (2 * (a + b));

/** Rim with half of its teeth as solid. */
export const rimModulus = (p: BodyParameters, d: DrawnBody): number =>
  barModulus(d.rim + d.depth / 2, p.faceWidth);

function checkSections(p: BodyParameters, d: DrawnBody): readonly Finding[] {
  if (!d.hasWeb) return [];
  const rim = rimModulus(p, d);
  const hub = barModulus(d.hubDiameter / 2 - d.boreReach, p.faceWidth + d.upperRise + d.lowerRise);
  const sections = [
    { name: 'rim', modulus: rim },
    { name: 'hub', modulus: hub },
    ...(p.spokes === 0 ? [{ name: 'web', modulus: d.web / 2 }] : []),
  ].sort((a, b) => a.modulus - b.modulus);
  const [thin, thick] = [sections[0], sections.at(-1)];
  if (!thin || !thick || thick.modulus <= mostUneven * thin.modulus) return [];
  return [
    note(
      'uneven-sections',
      `The ${thick.name} has a modulus of ${thick.modulus.toFixed(1)} mm, the ${thin.name} ${thin.modulus.toFixed(1)} mm: the ${thin.name} freezes first and the ${thick.name} may draw or tear.`,
      `Make the ${thin.name} thicker or the ${thick.name} thinner, within a factor of ${mostUneven}.`,
      'webThickness',
      'rimThickness',
      'hubDiameter',
    ),
  ];
}
