import { knuckleGap } from '../../core/hardware/index.js';
import { type Finding, note, stop, warn } from '../../core/part/finding.js';
import { isNoStock, type Stock } from '../../core/part/stock.js';
import { grownSection, type KnuckleSection } from './knuckle-section.js';
import { type HingeMotion, type HingeShape, hingeMotion, leastClearance, openingLimit } from './motion.js';

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;
const degrees = (value: number): string => `${Number(((value * 180) / Math.PI).toFixed(1))}°`;

/** What both leaves have in common as they turn, finished, mm. */
export interface TurningSizes {
  readonly sections: readonly [KnuckleSection, KnuckleSection];
  readonly notchFloor: number;
  readonly notchRadius: number;
  readonly gap: number;
}

/** Both leaves as one state has them. */
export function shapeOf(s: TurningSizes, { skin, mating }: Stock): HingeShape {
  const [a, b] = s.sections;
  return {
    sections: [grownSection(a, skin), grownSection(b, skin)],
    notchFloor: s.notchFloor - skin,
    notchRadius: Math.max(0, s.notchRadius - skin),
    gap: s.gap - 2 * mating,
  };
}

export interface SweptHinge {
  readonly motion: HingeMotion;
  /** How far it opens before anything comes within the least clearance, radians. */
  readonly limit: number;
  readonly findings: readonly Finding[];
}

/** Turns the leaves about their pin, finished and, for the casting, with its stock on. */
export function sweepHinge(s: TurningSizes, openAngle: number, stock: Stock): SweptHinge {
  const shape = shapeOf(s, stock);
  const motion = hingeMotion(shape, openAngle);
  const least = leastClearance(motion);
  if (!isNoStock(stock)) {
    const findings =
      motion.ends < knuckleGap.least
        ? [
            note(
              'knuckles-fitted',
              // The other leaf may carry another stock: its own size decides.
              `as cast, every end of its knuckles carries ${mm(stock.mating)} of stock, and joints of ${mm(s.gap)} have to open between them`,
              `take the stock off the knuckles' ends, until the leaves go together with ${mm(s.gap)} at each joint`,
              'knuckleGap',
            ),
          ]
        : [];
    return { motion, limit: openAngle, findings };
  }
  const limit = least <= 0 ? openAngle : openingLimit(shape, openAngle, Math.min(least, knuckleGap.least));
  return { motion, limit, findings: clearanceFindings(motion, openAngle) };
}

function clearanceFindings(motion: HingeMotion, openAngle: number): readonly Finding[] {
  const places: readonly (readonly [number, string, string, readonly string[]])[] = [
    [
      motion.leaves,
      motion.leavesAt > Math.PI
        ? `the leaves at ${degrees(motion.leavesAt)}`
        : motion.leavesAt > 0
          ? `leaf and barrel at ${degrees(motion.leavesAt)}`
          : 'the closed leaves, or leaf and barrel,',
      motion.leavesAt > Math.PI
        ? 'open it less, or give the leaves more room'
        : 'give the leaves more room, or make the fillets smaller',
      ['leafGap', 'closedGap', 'openAngle', 'fillet'],
    ],
    [motion.ends, 'the knuckles', 'give the joints more room', ['knuckleGap']],
    [
      motion.corners,
      'a knuckle and the rounded corner of its notch',
      'make the corners smaller or the room before the leaf larger',
      ['notchRadius', 'leafGap', 'knuckleGap'],
    ],
  ];
  return places.flatMap(([clearance, what, remedy, parameters]) => {
    if (clearance >= 0.6 * knuckleGap.least) return [];
    if (clearance > 0.02)
      return [
        warn(
          'hinge-tight',
          `${what} have ${mm(clearance)} between them: dirt or paint binds the hinge`,
          `${remedy}; ${mm(knuckleGap.least)} is the least for cast knuckles`,
          ...parameters,
        ),
      ];
    return [
      stop(
        'hinge-binds',
        `opened to ${degrees(openAngle)}, ${what} ${clearance < 0 ? `overlap by ${mm(-clearance)}` : 'touch'}`,
        remedy,
        ...parameters,
      ),
    ];
  });
}
