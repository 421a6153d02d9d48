import {
  archedGripStress,
  boltAllowables,
  checkLoad,
  ellipseSection,
  handleRoom,
  type LoadCheck,
  leastGripDiameter,
  leastHandleDepth,
  leastHandleWidth,
  leastWall,
  stressCheck,
} from '../../core/hardware/index.js';
import { maths } from '../../core/maths/maths.js';
import { type Finding, note, stop, warn } from '../../core/part/finding.js';
import { roundedUp } from '../../core/part/rounded.js';
import type { Stock } from '../../core/part/stock.js';
import { strengthAllowables } from '../hardware/load-fields.js';
import { countersinkFindings } from '../hardware/screw-holes.js';
import { clearHalf } from './body.js';
import type { BowPullParameters, BowPullSizes } from './sizes.js';

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

export function checkBow(p: BowPullParameters, s: BowPullSizes, stock: Stock): readonly Finding[] {
  const shape = checkShape(s, stock);
  return [...shape, ...checkRoom(p, s), ...checkFeet(s)];
}

/** Width to thickness of an elliptical section whose edges are still edges to hold (common practice, no source). */
const flattest = 4;

/** What the body cannot be made with. */
function checkShape(s: BowPullSizes, { skin, mating }: Stock): readonly Finding[] {
  const findings: Finding[] = [];
  const stopIf = (wrong: boolean, ...finding: Parameters<typeof stop>): void => {
    if (wrong) findings.push(stop(...finding));
  };
  const leg = Math.min(s.legHeight, s.legWidth);
  for (const [what, height, width, ...fields] of [
    ['leg', s.legHeight, s.legWidth, 'legHeight', 'legWidth'],
    ['grip', s.gripHeight, s.gripWidth, 'gripHeight', 'gripWidth'],
  ] as const) {
    const [thin, wide] = [Math.min(height, width), Math.max(height, width)];
    // An ellipse ends in a radius of half its thickness times thickness over width.
    stopIf(
      wide > flattest * thin,
      `${what}-flat`,
      `a ${what} ${mm(wide)} × ${mm(thin)} has edges of ${mm((0.5 * thin * thin) / wide)} radius: knives to the hand, and fins in the mould`,
      `make it at most ${flattest} times as wide as thick`,
      ...fields,
    );
  }
  stopIf(
    s.fillet - skin < 0.3,
    'fillet-filled-by-stock',
    `the fillets of ${mm(s.fillet)} are used up by ${mm(skin)} of stock`,
    `make them ${mm(skin + 0.5)} or more`,
    'fillet',
    { fillet: roundedUp(skin + 0.5) },
  );
  stopIf(
    s.footWidth < s.legWidth + 2 * s.footEdge + 0.5 || s.footWidth < s.legHeight + 2 * s.footEdge + 0.5,
    'foot-narrow',
    `a foot ${mm(s.footWidth)} wide is too narrow for a leg ${mm(s.legWidth)} × ${mm(s.legHeight)}`,
    `make it ${mm(Math.max(s.legWidth, s.legHeight) + 2 * s.footEdge + s.fillet)} or wider`,
    'footWidth',
    'legWidth',
    { footWidth: roundedUp(Math.max(s.legWidth, s.legHeight) + 2 * s.footEdge + Math.max(0.5, s.fillet)) },
  );
  const reach = s.footWidth / 2 + s.fillet;
  stopIf(
    s.legX - reach < 1 + mating,
    'feet-meet',
    `feet ${mm(s.footWidth)} wide run into each other under a grip with ${mm(s.width)} between its legs`,
    'make the pull wider, or its feet and fillets smaller',
    'width',
    'footWidth',
    'fillet',
  );
  // The fillet rises up the leg; the arch must not have turned away by then.
  stopIf(
    s.footThickness + 1.2 * s.fillet > 0.6 * s.depth,
    'pull-low',
    `feet ${mm(s.footThickness)} thick with fillets of ${mm(s.fillet)} fill the ${mm(s.depth)} behind the grip`,
    'make the pull deeper, or feet and fillets smaller',
    'depth',
    'footThickness',
    'fillet',
  );
  // The arch is sharpest at its shoulders: a grip thicker than its bend crosses itself.
  const shoulder = tightest(s);
  stopIf(
    0.5 * Math.max(s.gripHeight, s.legHeight) + skin > 0.9 * shoulder,
    'arch-tight',
    `the arch bends to a radius of ${mm(shoulder)} at its shoulders, too sharp for a grip ${mm(Math.max(s.gripHeight, s.legHeight))} thick`,
    'make the pull wider and deeper, or the grip thinner',
    'width',
    'depth',
    'gripHeight',
  );
  if (s.fillet < leg / 3 - 0.01 && s.fillet >= skin + 0.3) {
    findings.push(
      warn(
        'fillet-small',
        `fillets of ${mm(s.fillet)} under legs ${mm(leg)} thick are where a casting tears`,
        `make them ${mm(leg / 3)} to ${mm(leg / 2)}`,
        'fillet',
        { fillet: roundedUp(leg / 3) },
      ),
    );
  }
  return findings;
}

/** The least radius of the arch's centre line, mm, by three points along it. */
export function tightest({ legX, crown, archExponent: n }: BowPullSizes): number {
  let least = Number.POSITIVE_INFINITY;
  const at = (angle: number): readonly [number, number] => {
    const [c, s] = [maths.cos(angle), maths.sin(angle)];
    const reach = maths.pow(maths.pow(Math.abs(c), n) + maths.pow(Math.abs(s), n), -1 / n);
    return [legX * c * reach, crown * s * reach];
  };
  const e = 1e-3;
  for (let i = 1; i < 200; i++) {
    const angle = (i / 200) * (Math.PI / 2);
    const [a, b, c] = [at(angle - e), at(angle), at(angle + e)];
    const [ux, uz, vx, vz] = [b[0] - a[0], b[1] - a[1], c[0] - b[0], c[1] - b[1]];
    const turn = Math.abs(maths.atan2(ux * vz - uz * vx, ux * vx + uz * vz));
    least = Math.min(least, (maths.hypot(ux, uz) + maths.hypot(vx, vz)) / 2 / Math.max(turn, 1e-12));
  }
  return least;
}

function checkRoom(p: BowPullParameters, s: BowPullSizes): readonly Finding[] {
  const findings: Finding[] = [];
  const who = `${s.fingers} ${p.hand} finger${s.fingers === 1 ? '' : 's'}`;
  const room = handleRoom(s.fingers, p.hand);
  const clear = 2 * clearHalf(s, Math.max(s.depth / 2, s.footThickness + s.fillet));
  const [depth, width] = [leastHandleDepth(p.hand), leastHandleWidth(s.fingers, p.hand)];
  if (s.depth < depth - 1e-9) {
    findings.push(
      warn(
        'grip-close-to-door',
        `${mm(s.depth)} behind the grip; ${who} of a large hand need ${mm(depth)}`,
        `make it ${mm(room.depth)} deep, ${mm(depth)} at the least`,
        'depth',
        'hand',
        { depth: roundedUp(room.depth) },
      ),
    );
  } else if (s.depth < room.depth - 1e-9) {
    findings.push(
      note(
        'grip-near-door',
        `${mm(s.depth)} behind the grip lets a large finger in; the standard for handles asks ${mm(room.depth)} for ${who}`,
        `make it ${mm(room.depth)} deep where there is room`,
        'depth',
        { depth: roundedUp(room.depth) },
      ),
    );
  }
  if (clear < width - 1e-9) {
    findings.push(
      warn(
        'grip-narrow',
        `${mm(clear)} clear between the legs at half their height; ${who} of a large hand need ${mm(width)}`,
        `make it ${mm(room.width)} wide, ${mm(width)} at the least`,
        'width',
        'fingers',
      ),
    );
  }
  const thin = Math.min(s.gripHeight, s.gripWidth);
  if (thin < 0.6 * leastGripDiameter(s.pull)) {
    findings.push(
      note(
        'grip-thin',
        `a grip ${mm(thin)} thick cuts into the fingers at ${s.pull} N, which wants ${mm(leastGripDiameter(s.pull))} to carry by`,
        'make the grip thicker',
        'gripHeight',
        'gripWidth',
      ),
    );
  }
  return findings;
}

function checkFeet(s: BowPullSizes): readonly Finding[] {
  if (s.fixing === 'screws') {
    const sink = countersinkFindings(s.seat, s.footThickness, 'footThickness');
    const edge = (s.footWidth - s.seat.mouthDiameter) / 2 - s.footEdge;
    return edge >= 0
      ? sink
      : [
          ...sink,
          stop(
            'foot-narrow-for-screw',
            `a countersink ${mm(s.seat.mouthDiameter)} wide leaves no edge on a foot ${mm(s.footWidth)} wide`,
            `make it ${mm(s.seat.mouthDiameter + 2 * s.footEdge + 1)} or wider, or take a thinner screw`,
            'footWidth',
            'screw',
            { footWidth: roundedUp(s.seat.mouthDiameter + 2 * s.footEdge + 1) },
          ),
        ];
  }
  const wall = (Math.min(s.legHeight, s.legWidth) - s.screw.tapDrill) / 2;
  const findings: Finding[] = [];
  if (wall < leastWall() + 0.5) {
    findings.push(
      stop(
        'stud-in-thin-leg',
        `${mm(Math.max(0, wall))} of metal is left round the hole for ${s.screw.name} in the leg`,
        'make the leg thicker or take a thinner stud',
        'legHeight',
        'legWidth',
        'screw',
      ),
    );
  }
  if (s.tapDepth > 0.5 * s.crown) {
    findings.push(
      stop(
        'stud-comes-through',
        `a hole ${mm(s.tapDepth)} deep for ${s.screw.name} comes out where the arch turns away`,
        'take a thinner stud or make the pull deeper',
        'screw',
        'depth',
      ),
    );
  }
  return findings;
}

/** Grip in the middle, a leg at its foot, and the screws. */
export function bowLoad(p: BowPullParameters, s: BowPullSizes): LoadCheck {
  const metal = strengthAllowables(p.strengthOf);
  const span = 2 * s.legX;
  const spread = Math.min(s.width * 0.8, 22 * s.fingers);
  const grip = ellipseSection(s.gripWidth, s.gripHeight);
  // Radius in the middle of a superellipse is large; the shoulders' bend is the sharpest the moment may meet.
  const radius = Math.max(tightest(s), 0.6 * s.gripHeight);
  const curve = { shape: 'ellipse', height: s.gripHeight, radius } as const;
  const leg = ellipseSection(s.legHeight, s.legWidth);
  return checkLoad(p.pull ?? s.pull, [
    stressCheck('grip', 'bending', archedGripStress(s.pull, span, spread, grip, curve), metal),
    // A pull along the door across the grip: each leg takes half, at the height of the grip.
    stressCheck('leg', 'bending by a pull across', ((s.pull / 2) * s.crown) / leg.modulus, metal),
    stressCheck('screws', 'tension', s.pull / (2 * s.screw.stressArea), boltAllowables('silicon bronze')),
  ]);
}
