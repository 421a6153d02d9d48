import { findAlloy } from '../../core/foundry/alloys/index.js';
import {
  finFindings,
  fingertipRecess,
  leastHandleWidth,
  leastWall,
  mostUniformity,
  sectionUniformity,
} from '../../core/hardware/index.js';
import { type Finding, note, stop, warn } from '../../core/part/finding.js';
import { roundedUp } from '../../core/part/rounded.js';
import { noStock, type Stock } from '../../core/part/stock.js';
import { countersinkFindings } from '../hardware/screw-holes.js';
import { checkBend, checkShape } from './check-shape.js';
import { clearOfCup, flatOfFace } from './places.js';
import { recessSide, straightOf, wallAt } from './profile.js';
import type { FlushPullParameters, FlushPullSizes } from './sizes.js';

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

/** Walls that lean more let wet fingers slide off (common practice, no source), radians. */
const steepest = (18 / 180) * Math.PI;

export function checkFlush(p: FlushPullParameters, s: FlushPullSizes, stock: Stock): readonly Finding[] {
  const shape = checkShape(s, stock);
  // What stands on the plate's flats is looked at only where there are any.
  return shape.length > 0
    ? shape
    : [...checkBend(s), ...checkPlate(s), ...checkCasting(p, s, stock), ...checkRoom(p, s)];
}

function checkPlate(s: FlushPullSizes): readonly Finding[] {
  const findings: Finding[] = [...countersinkFindings(s.seat, s.plateThickness, 'plateThickness')];
  const face = flatOfFace(s, []);
  const under = clearOfCup(s);
  const lack = Math.max(
    ...s.screws.map(([x, y]) =>
      Math.max(s.seat.mouthDiameter / 2 + 0.4 - face(x, y), s.seat.holeDiameter / 2 + 0.4 - under(x, y)),
    ),
  );
  if (lack > 0) {
    findings.push(
      stop(
        'screws-off-the-plate',
        `${s.screws.length} countersinks ${mm(s.seat.mouthDiameter)} wide have no room on a plate ${mm(s.plateLength)} × ${mm(s.plateWidth)} round its opening`,
        `make it ${mm(s.plateLength + 4 * lack)} long, or take ${s.screws.length > 2 ? 'two screws or ' : ''}thinner ones`,
        'plateLength',
        'screw',
        'fasteners',
        s.screws.length > 2 ? {} : { plateLength: roundedUp(s.plateLength + 4 * lack) },
      ),
    );
  }
  return findings;
}

function checkCasting(p: FlushPullParameters, s: FlushPullSizes, stock: Stock): readonly Finding[] {
  const findings: Finding[] = [];
  const least = leastWall(findAlloy(p.strengthOf));
  const thin = Math.min(s.wall, s.plateThickness);
  if (thin + stock.skin < least) {
    findings.push(
      warn(
        'wall-thin',
        `${mm(thin)} of metal is thinner than fills in this alloy, ${mm(least)}`,
        `make cup and plate ${mm(least)} or thicker`,
        'wall',
        'plateThickness',
        'strengthOf',
        {
          ...(s.wall + stock.skin < least ? { wall: roundedUp(least) } : {}),
          ...(s.plateThickness + stock.skin < least ? { plateThickness: roundedUp(least) } : {}),
        },
      ),
    );
  }
  if (sectionUniformity([s.wall, s.plateThickness]) > mostUniformity) {
    findings.push(
      warn(
        'sections-uneven',
        `a cup ${mm(s.wall)} thick under a plate of ${mm(s.plateThickness)}: the thicker draws from the thinner as it freezes`,
        'make them more alike, at most two to one',
        'wall',
        'plateThickness',
      ),
    );
  }
  const small = (radius: number, section: number): boolean => radius < Math.max(1, section / 3) - 0.01;
  if (small(s.floorFillet, s.wall) || small(s.fillet, Math.min(s.wall, s.plateThickness))) {
    findings.push(
      warn(
        'fillet-small',
        `fillets of ${mm(Math.min(s.floorFillet, s.fillet))} at walls ${mm(s.wall)} thick are where a casting tears`,
        `make them ${mm(Math.max(1, s.wall / 3))} to ${mm(Math.max(1, s.wall / 2))} or more`,
        'floorFillet',
        'fillet',
      ),
    );
  }
  const recess = recessSide(s, stock);
  const [low, high] = [recess.low, recess.high];
  const thickness = s.recessWidth + 2 * wallAt(recess, (low + high) / 2);
  findings.push(
    ...finFindings(thickness, high - low, 'in the recess', 'one-edge', 'recessWidth', 'recessDepth', 'draft'),
  );
  return findings;
}

function checkRoom(p: FlushPullParameters, s: FlushPullSizes): readonly Finding[] {
  const findings: Finding[] = [];
  const who = `${s.fingers} ${s.hand} finger${s.fingers === 1 ? '' : 's'}`;
  const tip = fingertipRecess[s.hand];
  const length = leastHandleWidth(s.fingers, s.hand);
  if (s.recessDepth < tip.depth - 1e-9) {
    findings.push(
      warn(
        'recess-shallow',
        `a recess ${mm(s.recessDepth)} deep is shallow for ${s.hand} finger tips`,
        `make it ${mm(tip.depth)} deep or more`,
        'recessDepth',
        'hand',
        { recessDepth: roundedUp(tip.depth) },
      ),
    );
  }
  if (s.recessWidth < tip.opening - 1e-9) {
    findings.push(
      warn(
        'recess-narrow',
        `${s.hand} finger tips do not bend in an opening ${mm(s.recessWidth)} wide`,
        `make it ${mm(tip.opening)} wide or more`,
        'recessWidth',
        'hand',
        {
          recessWidth: roundedUp(tip.opening),
          ...(p.plateWidth === undefined
            ? {}
            : { plateWidth: roundedUp(s.plateWidth + tip.opening - s.recessWidth) }),
        },
      ),
    );
  }
  if (s.recessLength < length - 1e-9) {
    findings.push(
      warn(
        'recess-short',
        `an opening ${mm(s.recessLength)} long; ${who} of a large hand need ${mm(length)}`,
        `make it ${mm(length)} long or more`,
        'recessLength',
        'fingers',
        {
          recessLength: roundedUp(length),
          // A plate of its own length keeps what is round the opening.
          ...(p.plateLength === undefined
            ? {}
            : { plateLength: roundedUp(s.plateLength + length - s.recessLength) }),
        },
      ),
    );
  }
  // What is left upright over the floor's fillet is what the fingers bear on.
  const [from, to] = straightOf(recessSide(s, noStock));
  if (p.draft > steepest + 1e-9) {
    findings.push(
      warn(
        'wall-slippery',
        `walls that lean ${Number(((p.draft * 180) / Math.PI).toFixed(1))}° let wet fingers slide out`,
        'make the draft 18° or less; the pattern burns out of the mould and needs none',
        'draft',
        { draft: steepest },
      ),
    );
  } else if (to - from < 0.1 * s.recessDepth) {
    findings.push(
      note(
        'wall-short',
        `${mm(to - from)} of straight wall is left between the floor's fillet and the rim's rounding`,
        'make the recess deeper or the radii smaller for a firmer hold',
        'recessDepth',
        'floorFillet',
        'rimRadius',
      ),
    );
  }
  return findings;
}
