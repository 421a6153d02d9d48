import { edgeDistance, headLand, leastPitch } from '../../core/hardware/index.js';
import { maths } from '../../core/maths/maths.js';
import { type Finding, note, stop, warn } from '../../core/part/finding.js';
import type { Stock } from '../../core/part/stock.js';
import { countersinkFindings } from '../hardware/screw-holes.js';
import { checkKnuckles } from '../hinge/check-knuckles.js';
import { faceStart, grownSection } from '../hinge/knuckle-section.js';
import type { LeafSide } from '../hinge/knuckles.js';
import type { ButtHingeSizes } from './sizes.js';

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

/** Flat of the inner face that gate and screws need, mm. */
const leastFlat = 4;

/** What is wrong with a leaf's shape in a state, or worth knowing. No solid can be made after a `stop`. */
export function checkLeaf(sizes: ButtHingeSizes, side: LeafSide, stock: Stock): readonly Finding[] {
  const shape = checkKnuckles(sizes, side, stock);
  return shape.some((f) => f.severity === 'stop') ? shape : [...shape, ...checkFlat(sizes)];
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
  const findings: Finding[] = [...countersinkFindings(seat, thickness, 'thickness', false)];
  const mouth = seat.mouthDiameter / 2;
  const edges = Math.min(
    ...screwsAt.map(([x, y]) =>
      Math.min(x - from, section.reach - section.edge - x, s.length / 2 - section.edge - Math.abs(y)),
    ),
  );
  const apart = Math.min(
    ...screwsAt.flatMap((a, i) => screwsAt.slice(i + 1).map((b) => maths.hypot(a[0] - b[0], a[1] - b[1]))),
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
