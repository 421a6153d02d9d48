import { filletRadius, finFindings, leastLand, leastPinWall, leastWall } from '../../core/hardware/index.js';
import { type Finding, stop, warn } from '../../core/part/finding.js';
import { roundedDown, roundedUp } from '../../core/part/rounded.js';
import type { Stock } from '../../core/part/stock.js';
import type { HingeCore } from './core-sizes.js';
import { faceStart, type KnuckleSection } from './knuckle-section.js';
import { type LeafSide, notchSpans } from './knuckles.js';

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

/** What the checks look at, finished, mm. */
export interface KnuckledLeaf extends HingeCore {
  readonly section: KnuckleSection;
  readonly notchRadius: number;
  /** Axis to the floor of the notches. */
  readonly notchFloor: number;
}

/** What is wrong with barrel, fillets and notches in a state, or worth knowing. No solid can be made after a `stop`. */
export const checkKnuckles = (s: KnuckledLeaf, side: LeafSide, stock: Stock): readonly Finding[] => [
  ...checkBarrel(s),
  ...checkFillet(s, stock),
  ...checkNotches(s, side, stock),
];

function checkBarrel(s: KnuckledLeaf): readonly Finding[] {
  const { wall, holeDiameter, thickness, closedGap, section, row, pinDiameter } = s;
  const findings: Finding[] = [];
  if (wall < leastPinWall(holeDiameter) - 1e-9) {
    const thin = wall < leastWall();
    findings.push(
      (thin ? stop : warn)(
        thin ? 'knuckle-wall-too-thin' : 'knuckle-wall-thin',
        `${mm(wall)} of metal is left round the ${mm(holeDiameter)} bore`,
        `leave ${mm(leastPinWall(holeDiameter))}, or take a thinner pin`,
        'knuckleWall',
        'pinDiameter',
        { knuckleWall: roundedUp(leastPinWall(holeDiameter)) },
      ),
    );
  }
  const past = closedGap / 2 + thickness - section.barrelRadius;
  if (past > 1e-6) {
    findings.push(
      stop(
        'leaf-outside-barrel',
        `leaves ${mm(thickness)} thick and ${mm(closedGap)} apart when closed have their backs ${mm(past)} outside a barrel of ${mm(2 * section.barrelRadius)}`,
        closedGap > 0.5 + 2 * past
          ? `close them to ${mm(Math.floor(100 * (closedGap - 2 * past)) / 100)} or less`
          : 'make the leaves thinner or the knuckles thicker',
        'closedGap',
        'thickness',
        'knuckleWall',
        closedGap > 0.5 + 2 * past ? { closedGap: roundedDown(closedGap - 2 * past) } : {},
      ),
    );
  }
  if (row.knuckleLength < Math.max(2.5, 0.5 * pinDiameter)) {
    findings.push(
      stop(
        'knuckles-short',
        `${row.count} knuckles on ${mm(row.length)} are ${mm(row.knuckleLength)} long each, round a pin of ${mm(pinDiameter)}`,
        'take fewer knuckles, a longer hinge or a thinner pin',
        'knuckles',
        'size',
        'pinDiameter',
      ),
    );
  } else if (row.knuckleLength < pinDiameter) {
    findings.push(
      warn(
        'knuckles-shorter-than-pin',
        `knuckles ${mm(row.knuckleLength)} long, shorter than the pin's ${mm(pinDiameter)}, wear and rattle`,
        'take fewer knuckles, a longer hinge or a thinner pin',
        'knuckles',
        'pinDiameter',
      ),
    );
  }
  return findings;
}

function checkFillet(s: KnuckledLeaf, stock: Stock): readonly Finding[] {
  const { section, thickness, wall } = s;
  const findings: Finding[] = [];
  if (section.fillet - stock.skin < 0.3) {
    findings.push(
      stop(
        'fillet-filled-by-stock',
        `the fillet of ${mm(section.fillet)} between barrel and leaf is used up by ${mm(stock.skin)} of stock`,
        `make it ${mm(stock.skin + 0.5)} or more`,
        'fillet',
        { fillet: roundedUp(stock.skin + 0.5) },
      ),
    );
  } else if (section.fillet < filletRadius(thickness, wall).least - 1e-9) {
    findings.push(
      warn(
        'fillet-small',
        `a fillet of ${mm(section.fillet)} between a barrel and a leaf ${mm(thickness)} thick is where a casting tears`,
        `make it ${mm(filletRadius(thickness, wall).least)} to ${mm(filletRadius(thickness, wall).usual)}`,
        'fillet',
        { fillet: roundedUp(filletRadius(thickness, wall).least) },
      ),
    );
  }
  const land = thickness - 2 * section.edge;
  if (land < leastLand || section.edge > section.barrelRadius / 2) {
    findings.push(
      stop(
        'edges-meet',
        `edges rounded to ${mm(section.edge)} leave no flat on leaves ${mm(thickness)} thick`,
        'make the rounding smaller or the leaves thicker',
        'edge',
        'thickness',
      ),
    );
  }
  return findings;
}

function checkNotches(s: KnuckledLeaf, side: LeafSide, stock: Stock): readonly Finding[] {
  const findings: Finding[] = [];
  const { notchRadius, section } = s;
  const { length } = s.row;
  // At the leaf's end a notch has one side.
  const narrowest = Math.min(
    ...notchSpans(s.row, side).map(([from, to]) => {
      const atEnd = from <= -length / 2 || to >= length / 2;
      return to - from - (atEnd ? 1 : 2) * stock.mating + (atEnd ? stock.skin : 0);
    }),
  );
  if (narrowest < 1.5) {
    findings.push(
      stop(
        'notch-closed-by-stock',
        `the notches for the other leaf's knuckles are ${mm(Math.max(0, narrowest))} wide in the casting`,
        'take fewer knuckles or less mating stock',
        'knuckles',
        'size',
      ),
    );
    return findings;
  }
  findings.push(
    ...finFindings(
      narrowest,
      2 * section.barrelRadius,
      "between a leaf's knuckles",
      'two-edges',
      'knuckles',
      'size',
    ),
  );
  if (2 * (notchRadius - stock.skin) > narrowest - 0.2) {
    findings.push(
      stop(
        'notch-corners-meet',
        `inner corners rounded to ${mm(notchRadius)} do not fit a notch that is ${mm(narrowest)} wide in the casting`,
        `make them ${mm(Math.floor(5 * narrowest) / 10)} or less`,
        'notchRadius',
      ),
    );
  } else if (notchRadius - stock.skin < 0.5) {
    findings.push(
      warn(
        'notch-corners-sharp',
        `inner corners of ${mm(notchRadius)} come down to ${mm(Math.max(0, notchRadius - stock.skin))} in the casting: cracks start there`,
        `round them to ${mm(stock.skin + 1)}`,
        'notchRadius',
      ),
    );
  }
  // Where the floor cuts the fillet's foot, what is left must not run out to an edge sharper than 45°.
  const fillet = section.fillet - stock.skin;
  const sharp = faceStart(section) - Math.SQRT1_2 * fillet - (s.notchFloor - stock.skin);
  if (sharp > 1e-9) {
    findings.push(
      warn(
        'notch-edge-thin',
        "the floor of the notches cuts so far into the barrel's fillet that it leaves a thin edge",
        `give the leaf ${mm(sharp)} more room before the other's knuckles, or a smaller fillet`,
        'leafGap',
        'fillet',
      ),
    );
  }
  return findings;
}
