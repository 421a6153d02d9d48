import { findAlloy } from '../../core/foundry/alloys/index.js';
import {
  boltAllowables,
  bossDiameter,
  checkLoad,
  type LoadCheck,
  leastWall,
  mostUniformity,
  roundSection,
  sectionUniformity,
  stressCheck,
  tappedDepth,
} from '../../core/hardware/index.js';
import { type Finding, note, stop, warn } from '../../core/part/finding.js';
import { roundedDown, roundedUp } from '../../core/part/rounded.js';
import type { Stock } from '../../core/part/stock.js';
import { type BlindHolePlan, planBlindHole } from '../hardware/blind-hole.js';
import { strengthAllowables } from '../hardware/load-fields.js';
import { knobProfile, profileCorners } from './profile.js';
import type { KnobParameters, KnobSizes } from './sizes.js';

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

/** Room for finger tips behind a knob's head, mm (common practice, no source). */
const fingerRoom = 11;

export function checkKnob(
  s: KnobSizes,
  p: KnobParameters,
  { skin, mating, bore }: Stock,
): readonly Finding[] {
  const findings: Finding[] = [];
  const corners = profileCorners(s);
  const stem = corners.root[1] - corners.neck[1];
  if (s.spindle > s.head - 4 || s.foot < s.spindle + 1.5) {
    return [
      stop(
        'spindle-thick',
        `a spindle of ${mm(s.spindle)} leaves nothing to grip behind a head of ${mm(s.head)}, or no foot of ${mm(s.foot)}`,
        'make the spindle thinner, or head and foot wider',
        'spindle',
        'size',
        'foot',
      ),
    ];
  }
  if (s.dome > 0.45 * s.head + 1e-9) {
    return [
      stop(
        'dome-high',
        `a dome ${mm(s.dome)} high on a head of ${mm(s.head)} is more than half a ball`,
        `make it ${mm(0.45 * s.head)} or lower`,
        'dome',
        { dome: roundedDown(0.45 * s.head) },
      ),
    ];
  }
  if (stem < 1) {
    return [
      stop(
        'spindle-short',
        `head and foot leave ${mm(Math.max(0, stem))} of spindle between them`,
        `make the projection ${mm(s.projection + 1 - stem + s.headFillet)} or more`,
        'projection',
        'slope',
        'rim',
        { projection: roundedUp(s.projection + 1 - stem + s.headFillet) },
      ),
    ];
  }
  const thinFillet = Math.min(s.headFillet, s.footFillet);
  const most = Math.max(skin, mating);
  if (thinFillet - most < 0.15) {
    return [
      stop(
        'fillet-filled-by-stock',
        `the fillets of ${mm(thinFillet)} are used up by ${mm(most)} of stock`,
        `give them ${mm(most + 0.5)} or more: a longer spindle or a wider foot`,
        'fillet',
        'projection',
        'foot',
      ),
    ];
  }
  if (knobProfile(s) === null || knobProfile(s, skin, mating) === null) {
    return [
      stop(
        'roundings-do-not-fit',
        `fillets of ${mm(s.headFillet)} and ${mm(s.footFillet)} do not fit on a spindle ${mm(stem)} long between its head and foot`,
        'make the fillets smaller, the projection longer or the foot wider',
        'fillet',
        'projection',
        'foot',
        'footThickness',
      ),
    ];
  }
  const room = s.projection - s.dome - s.rim;
  if (room < fingerRoom - 1e-9) {
    findings.push(
      note(
        'finger-room-short',
        `${mm(room)} behind the head's edge; finger tips want ${mm(fingerRoom)}`,
        'make the projection longer',
        'projection',
        { projection: roundedUp(s.projection + fingerRoom - room) },
      ),
    );
  }
  const thick = [s.spindle, Math.max(s.rim, s.dome + s.rim)];
  if (sectionUniformity(thick) > 2 * mostUniformity) {
    findings.push(
      note(
        'sections-uneven',
        `spindle ${mm(thick[0]!)} and head ${mm(thick[1]!)} thick: the thicker freezes last`,
        'bring them nearer to each other',
        'spindle',
        'rim',
      ),
    );
  }
  return [...findings, ...checkThread(s, p, bore)];
}

function checkThread(s: KnobSizes, p: KnobParameters, bore: number): readonly Finding[] {
  const findings: Finding[] = [];
  const wall = (s.spindle - s.holeDiameter) / 2;
  if (wall < leastWall() || bore > 40) {
    findings.push(
      stop(
        'thread-in-thin-wall',
        `${mm(Math.max(0, wall))} of metal is left round the ${mm(s.holeDiameter)} hole in the spindle`,
        `make the spindle ${mm(bossDiameter(s.holeDiameter))} or take a thinner thread`,
        'spindle',
        'thread',
        { spindle: roundedUp(bossDiameter(s.holeDiameter)) },
      ),
    );
  } else if (s.spindle < bossDiameter(s.holeDiameter) - 0.01) {
    findings.push(
      warn(
        'spindle-thin-for-thread',
        `a spindle of ${mm(s.spindle)} round a ${mm(s.holeDiameter)} hole is under the usual ${mm(bossDiameter(s.holeDiameter))}`,
        'make the spindle thicker or take a thinner thread',
        'spindle',
        'thread',
        { spindle: roundedUp(bossDiameter(s.holeDiameter)) },
      ),
    );
  }
  // The crown above the hole's bottom; the head is widest there, so that its face is the nearest.
  const cover = s.projection - s.holeDepth;
  if (cover < 2) {
    findings.push(
      stop(
        'hole-through-crown',
        `a hole ${mm(s.holeDepth)} deep leaves ${mm(Math.max(0, cover))} under the crown`,
        `make the thread ${mm(Math.max(3, s.threadLength - (2.2 - cover)))} or the projection longer`,
        'depth',
        'projection',
        { depth: roundedDown(Math.max(3, s.threadLength - (2.2 - cover))) },
      ),
    );
  }
  const family = findAlloy(p.strengthOf)?.family ?? 'copper';
  const wanted = tappedDepth(s.bolt, family);
  if (p.fixing !== 'insert' && s.threadLength < wanted - 0.01) {
    findings.push(
      warn(
        'thread-short',
        `${mm(s.threadLength)} of thread for ${s.bolt.name}; in this metal ${mm(wanted)} is the least`,
        'make it longer',
        'depth',
        'thread',
        { depth: roundedUp(wanted) },
      ),
    );
  }
  return findings;
}

/** Width of the foot beside a cored hole that a sprue needs, mm. */
const gateBeside = 5;

/** The blind hole: in the finished part, and in the casting where the mould carries the core. */
export function planKnobHole(
  s: KnobSizes,
  p: KnobParameters,
  stock: Stock,
  finished: boolean,
): BlindHolePlan {
  const beside = (s.foot - s.holeDiameter) / 2 + stock.bore;
  return planBlindHole({
    diameter: s.holeDiameter,
    depth: s.holeDepth,
    bore: stock.bore,
    face: stock.mating,
    wish: p.hole,
    finished,
    what: p.fixing === 'insert' ? 'the pocket for the insert' : 'the hole for the thread',
    drill: `chuck the knob by its head and drill ${mm(s.holeDiameter)}, ${mm(s.holeDepth)} deep${p.fixing === 'insert' ? '' : `, then tap ${s.bolt.name}`}`,
    parameters: ['hole', 'thread', 'depth'],
    ...(beside < gateBeside
      ? { hinders: `beside it the foot has no room for a sprue, ${mm(beside)} of ${mm(gateBeside)}` }
      : {}),
  });
}

/** Spindle in tension round its hole, the thread stripped out of the casting, and the bolt. */
export function knobLoad(p: KnobParameters, s: KnobSizes): LoadCheck {
  const metal = strengthAllowables(p.strengthOf);
  const full = roundSection(s.spindle).area;
  const net = full - roundSection(s.holeDiameter).area;
  // Half of the thread's cylinder shears (plain thread-stripping estimate, Shigley, 8-2, from memory).
  const strip = 0.5 * Math.PI * s.holeDiameter * s.threadLength;
  // The pull comes on the head's edge at the worst: bending by half the head's diameter.
  const bending = (p.pull * (s.head / 2)) / roundSection(s.spindle).modulus;
  return checkLoad(p.pull, [
    stressCheck('spindle', 'tension round the hole', p.pull / net, metal),
    stressCheck('spindle', 'bending by a pull at the edge', bending, metal),
    stressCheck('thread', 'stripping', p.pull / strip, metal, 'shear'),
    stressCheck('bolt', 'tension', p.pull / s.bolt.stressArea, boltAllowables('silicon bronze')),
  ]);
}
