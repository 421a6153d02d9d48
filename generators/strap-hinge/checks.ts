import { headLand, leastPitch } from '../../core/hardware/index.js';
import { maths } from '../../core/maths/maths.js';
import { type Finding, note, stop, warn } from '../../core/part/finding.js';
import type { Stock } from '../../core/part/stock.js';
import { pieceEnd, pieceStart } from '../../core/shape/index.js';
import { outlineDistance } from '../../core/shape/outline-distance.js';
import { countersinkFindings } from '../hardware/screw-holes.js';
import { checkKnuckles } from '../hinge/check-knuckles.js';
import { faceStart } from '../hinge/knuckle-section.js';
import { leafOutlineOf, type StrapLeaf, screwsOf, sideOf } from './body.js';
import type { StrapHingeSizes } from './sizes.js';

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

/** What is wrong with strap or plate in a state, or worth knowing. No solid can be made after a `stop`. */
export function checkStrapHinge(s: StrapHingeSizes, leaf: StrapLeaf, stock: Stock): readonly Finding[] {
  const shape = [
    ...checkKnuckles({ ...s, section: s.strapSection }, sideOf(leaf), stock),
    ...checkStock(stock),
    ...checkStrap(s),
    ...checkPlate(s),
  ];
  return shape.some((f) => f.severity === 'stop') ? shape : [...shape, ...checkScrews(s, leaf)];
}

const faceFrom = (s: StrapHingeSizes): number => Math.max(s.notchFloor, faceStart(s.strapSection));

/** The casting's plan keeps the barrel's width for so much stock only. */
const mostSkin = 1.9;

const checkStock = ({ skin }: Stock): readonly Finding[] =>
  skin <= mostSkin
    ? []
    : [
        stop(
          'skin-stock-thick',
          `a skin stock of ${mm(skin)} is more than strap and plate are made for`,
          `leave ${mm(mostSkin)} or less`,
        ),
      ];

function checkStrap(s: StrapHingeSizes): readonly Finding[] {
  const { rootWidth, tipWidth, tipRadius, length, taperStart, edge } = s;
  const findings: Finding[] = [];
  if (tipWidth > rootWidth) {
    findings.push(
      stop(
        'strap-widens',
        `the strap is ${mm(tipWidth)} wide at its tip and ${mm(rootWidth)} beside the knuckles`,
        `make the tip ${mm(rootWidth)} or narrower`,
        'tipWidth',
        'rootWidth',
      ),
    );
  }
  const taper = length - (s.hasDisc ? 3 : 1) * tipRadius - taperStart;
  if (!(taper > Math.max(8, 0.8 * (rootWidth - tipWidth)))) {
    findings.push(
      stop(
        'strap-short',
        `a strap ${mm(length)} long leaves ${mm(Math.max(0, taper || 0))} for its taper from ${mm(rootWidth)} to ${mm(tipWidth)}`,
        'make it longer or its root narrower',
        'size',
        'rootWidth',
        'tipWidth',
      ),
    );
  }
  if (tipWidth < 3 * edge + 2) {
    findings.push(
      stop(
        'strap-tip-narrow',
        `a tip ${mm(tipWidth)} wide is all rounding at edges of ${mm(edge)}`,
        `make it ${mm(3 * edge + 2)} or wider`,
        'tipWidth',
        'edge',
      ),
    );
  }
  return findings;
}

function checkPlate(s: StrapHingeSizes): readonly Finding[] {
  const findings: Finding[] = [];
  const { plateWidth, edge, corner } = s;
  const room = plateWidth - faceFrom(s);
  if (!(room > Math.max(5, 4 * edge, corner + 1))) {
    findings.push(
      stop(
        'plate-narrow',
        `the plate has ${mm(Math.max(0, room || 0))} of flat between its barrel and its edge`,
        `make it ${mm(Math.ceil((faceFrom(s) || 0) + Math.max(6, 4 * edge + 1, corner + 2)))} wide or more`,
        'plateWidth',
      ),
    );
  }
  return findings;
}

/** Screws against the outline, the knuckles and one another. */
function checkScrews(s: StrapHingeSizes, leaf: StrapLeaf): readonly Finding[] {
  const at = screwsOf(s, leaf);
  const count = leaf === 'strap' ? 'strapScrews' : 'plateScrews';
  if (at.length === 0) {
    return [
      note('no-screw-holes', `the ${leaf} has no screw holes`, 'drill and countersink it to suit', count),
    ];
  }
  const { seat, fastener } = s.screw;
  const findings: Finding[] = [...countersinkFindings(seat, s.thickness, 'thickness', false)];
  // All of the outline but the side that lies in the barrel's fillet.
  const edge = outlineDistance(
    leafOutlineOf(s, leaf),
    (piece) => Math.max(pieceStart(piece)[0], pieceEnd(piece)[0]) < s.leafStart + 1e-6,
  );
  const scratch = new Float64Array(3);
  const mouth = seat.mouthDiameter / 2;
  const land = Math.min(...at.map(([x, y]) => Math.min(-edge(x, y, scratch) - s.edge, x - faceFrom(s))));
  const apart = Math.min(
    ...at.flatMap((a, i) => at.slice(i + 1).map((b) => maths.hypot(a[0] - b[0], a[1] - b[1]))),
  );
  const remedy = 'take a smaller screw or fewer of them, or a larger hinge';
  if (land < mouth + 0.3 || apart < 2 * mouth + 0.5) {
    findings.push(
      stop(
        'screws-no-room',
        `${at.length} screws ${fastener.name}, their heads ${mm(2 * mouth)}, do not fit the ${leaf}`,
        remedy,
        'screw',
        count,
      ),
    );
  } else if (land < mouth + 0.6 * headLand(2 * mouth) || apart < leastPitch(fastener) - 1e-9) {
    findings.push(
      warn(
        'screws-crowded',
        `screws ${fastener.name} stand ${mm(land)} from an edge of the ${leaf}${Number.isFinite(apart) ? ` and ${mm(apart)} apart` : ''}; ${mm(mouth + headLand(2 * mouth))} and ${mm(leastPitch(fastener))} are usual`,
        remedy,
        'screw',
        count,
      ),
    );
  }
  return findings;
}
