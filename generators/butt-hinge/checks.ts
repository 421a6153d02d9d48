import {
  edgeDistance,
  filletRadius,
  finFindings,
  headLand,
  leastLand,
  leastPinWall,
  leastPitch,
  leastWall,
} from '../../core/hardware/index.js';
import { type Finding, note, stop, warn } from '../../core/part/finding.js';
import type { Stock } from '../../core/part/stock.js';
import { countersinkFindings } from '../hardware/screw-holes.js';
import { faceStart, grownSection } from '../hinge/knuckle-section.js';
import { type LeafSide, notchSpans } from '../hinge/knuckles.js';
import type { ButtHingeSizes } from './sizes.js';

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

/** Flat of the inner face that gate and screws need, mm. */
const leastFlat = 4;

/** What is wrong with a leaf's shape in a state, or worth knowing. No solid can be made after a `stop`. */
export function checkLeaf(sizes: ButtHingeSizes, side: LeafSide, stock: Stock): readonly Finding[] {
  const shape = [...checkBarrel(sizes), ...checkFillet(sizes, stock), ...checkNotches(sizes, side, stock)];
  return shape.some((f) => f.severity === 'stop') ? shape : [...shape, ...checkFlat(sizes)];
}

function checkBarrel(s: ButtHingeSizes): readonly Finding[] {
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

function checkFillet(s: ButtHingeSizes, stock: Stock): readonly Finding[] {
  const { section, thickness, wall } = s;
  const findings: Finding[] = [];
  if (section.fillet - stock.skin < 0.3) {
    findings.push(
      stop(
        'fillet-filled-by-stock',
        `the fillet of ${mm(section.fillet)} between barrel and leaf is used up by ${mm(stock.skin)} of stock`,
        `make it ${mm(stock.skin + 0.5)} or more`,
        'fillet',
      ),
    );
  } else if (section.fillet < filletRadius(thickness, wall).least - 1e-9) {
    findings.push(
      warn(
        'fillet-small',
        `a fillet of ${mm(section.fillet)} between a barrel and a leaf ${mm(thickness)} thick is where a casting tears`,
        `make it ${mm(filletRadius(thickness, wall).least)} to ${mm(filletRadius(thickness, wall).usual)}`,
        'fillet',
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

function checkNotches(s: ButtHingeSizes, side: LeafSide, stock: Stock): readonly Finding[] {
  const findings: Finding[] = [];
  const { notchRadius, section, length } = s;
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
  if (2 * notchRadius > narrowest + stock.mating) {
    findings.push(
      stop(
        'notch-corners-meet',
        `inner corners rounded to ${mm(notchRadius)} do not fit a notch ${mm(narrowest)} wide`,
        `make them ${mm(Math.floor(5 * narrowest) / 10)} or less`,
        'notchRadius',
      ),
    );
  } else if (notchRadius - stock.mating < 0.3) {
    findings.push(
      warn(
        'notch-corners-sharp',
        `inner corners of ${mm(notchRadius)} come down to ${mm(Math.max(0, notchRadius - stock.mating))} under ${mm(stock.mating)} of stock: cracks start there`,
        `round them to ${mm(stock.mating + 0.5)}, or leave less stock`,
        'notchRadius',
      ),
    );
  }
  return findings;
}

/** The flat of the leaf, with its screws. */
function checkFlat(s: ButtHingeSizes): readonly Finding[] {
  const { section, screw, screwsAt, thickness } = s;
  const from = Math.max(faceStart(section), s.notchFloor);
  const flat = section.reach - section.edge - from;
  if (flat < leastFlat || !(faceStart(grownSection(section, 0)) > 0)) {
    return [
      stop(
        'leaf-narrow',
        `the leaf has ${mm(Math.max(0, flat))} of flat between its barrel and its edge`,
        `make the open width ${mm(Math.ceil(2 * (section.reach + leastFlat - flat)))} or more, or the barrel smaller`,
        'openWidth',
      ),
    ];
  }
  if (screwsAt.length === 0) {
    return [
      note(
        'no-screw-holes',
        'the leaves have no screw holes',
        'drill and countersink them to suit',
        'screws',
      ),
    ];
  }
  const { seat, fastener } = screw;
  const findings: Finding[] = [...countersinkFindings(seat, thickness, 'thickness')];
  const mouth = seat.mouthDiameter / 2;
  const edges = Math.min(
    ...screwsAt.map(([x, y]) =>
      Math.min(x - from, section.reach - section.edge - x, s.length / 2 - section.edge - Math.abs(y)),
    ),
  );
  const apart = Math.min(
    ...screwsAt.flatMap((a, i) => screwsAt.slice(i + 1).map((b) => Math.hypot(a[0] - b[0], a[1] - b[1]))),
  );
  const remedy = 'take a smaller screw or fewer of them, or a larger leaf';
  if (edges < mouth + 0.3 || apart < 2 * mouth + 0.5) {
    findings.push(
      stop(
        'screws-no-room',
        `${screwsAt.length} screws ${fastener.name}, their heads ${mm(2 * mouth)}, do not fit a flat of ${mm(flat)} × ${mm(s.length)}`,
        remedy,
        'screw',
        'screws',
        'openWidth',
      ),
    );
  } else if (
    edges < mouth + 0.6 * headLand(2 * mouth) ||
    apart < leastPitch(fastener) - 1e-9 ||
    edges < 0.7 * edgeDistance(fastener)
  ) {
    findings.push(
      warn(
        'screws-crowded',
        `screws ${fastener.name} stand ${mm(edges)} from an edge and ${Number.isFinite(apart) ? mm(apart) : 'nothing'} apart; ${mm(edgeDistance(fastener))} and ${mm(leastPitch(fastener))} are usual`,
        remedy,
        'screw',
        'screws',
      ),
    );
  }
  return findings;
}
