import { fastenerFitting, pinFittings, soldLength } from '../core/hardware/index.js';
import { definePart, type Fitting, refuse } from '../core/part/contract.js';
import { type Finding, hasStop, warn } from '../core/part/finding.js';
import { isNoStock } from '../core/part/stock.js';
import { leafSolid, screwStock } from './butt-hinge/body.js';
import { checkLeaf } from './butt-hinge/checks.js';
import { leafDimensions } from './butt-hinge/dimensions.js';
import { leafDrawing } from './butt-hinge/drawing.js';
import { type ButtHingeParameters, buttHingeParameters } from './butt-hinge/parameters.js';
import { leafPlaces } from './butt-hinge/places.js';
import { type ButtHingeSizes, buttHingeSizes, turningOf } from './butt-hinge/sizes.js';
import { planScrewHoles } from './hardware/screw-holes.js';
import { doorFindings } from './hinge/door-findings.js';
import { knuckleSpans, type LeafSide } from './hinge/knuckles.js';
import { sweepHinge } from './hinge/motion-findings.js';
import { planBore } from './hinge/pin-bore.js';

/** The narrowest gate worth naming without a warning, mm (common practice, no source). */
const leastGate = 5;

/**
 * A butt hinge of two cast leaves on a pin of rod. Each leaf lies on its back: the barrel's lowest line, and the back
 * where it is flush with it, is z = 0; the pin's axis runs along Y at the height of the barrel's radius, the leaf
 * towards +X, its inner face, which takes gate and screw heads, up. The second leaf, turned half round about Z, makes
 * the hinge as it lies open flat.
 */
export default definePart({
  name: 'butt-hinge',
  summary: 'Butt hinge: two cast leaves with odd knuckles on a pin of rod, sized by length or by the door',
  parameters: buttHingeParameters,
  pieces: [
    { name: 'outer-leaf', title: 'Outer leaf of a butt hinge' },
    { name: 'inner-leaf', title: 'Inner leaf of a butt hinge' },
  ],
  presets: {
    locker: { size: 38 },
    narrow: { size: 76, openWidth: 50 },
    'shed-door': { size: 100, doorMass: 25, doorWidth: 800, hingeSpacing: 1400 },
    'inch-three': { series: 'inch', size: 76.2 },
  },
  build(parameters, stock, kit) {
    const side: LeafSide = kit.piece === 'inner-leaf' ? 'inner' : 'outer';
    const sizes = buttHingeSizes(parameters);
    const finished = isNoStock(stock);
    const checked = checkLeaf(sizes, side, stock);
    if (hasStop(checked)) return refuse(checked);
    const swept = sweepHinge(turningOf(sizes), parameters.openAngle, stock);
    const plans = {
      bore: planBore(
        sizes.holeDiameter,
        knuckleSpans(sizes.row, side),
        { bore: stock.bore, ends: stock.mating },
        parameters.bore,
        finished,
      ),
      holes: planScrewHoles(
        { seat: sizes.screw.seat, mouth: sizes.section.barrelRadius - sizes.section.faceDrop },
        screwStock(sizes, stock),
        parameters.holes,
        finished,
      ),
    };
    const findings: readonly Finding[] = [
      ...checked,
      ...swept.findings,
      ...plans.bore.findings,
      ...(sizes.screwsAt.length > 0 ? plans.holes.findings : []),
      ...doorFindings(parameters, sizes.load),
    ];
    if (hasStop(findings)) return refuse(findings);
    const { gates, vents } = leafPlaces(sizes, side, stock);
    const gate = gates[0]?.outerDiameter ?? 0;
    return {
      solid: leafSolid(sizes, side, stock, plans, kit),
      surfaces: [
        { surfaceClass: 'skin', name: "leaf's faces and edges, barrel, floor of the notches" },
        { surfaceClass: 'mating', name: "knuckles' ends" },
        { surfaceClass: 'bore', name: "knuckles' bore, screw holes and countersinks" },
      ],
      dimensions: leafDimensions(sizes, side, stock, plans),
      gates,
      vents,
      thinnestWall: thinnest(sizes, stock.skin, plans.bore.diameter),
      ...(finished ? { drawing: leafDrawing(sizes, side) } : {}),
      fittings: fittings(parameters, sizes, side),
      findings:
        gate >= leastGate
          ? findings
          : [
              ...findings,
              warn(
                'gate-place-small',
                `the flat between barrel, screws and edge takes a gate of ${gate.toFixed(1)} mm only`,
                `make the leaf wider or give it fewer screws, for ${leastGate} mm at least`,
                'openWidth',
                'screws',
              ),
            ],
    };
  },
});

const thinnest = ({ thickness, section }: ButtHingeSizes, skin: number, bore: number): number =>
  Math.min(thickness + 2 * skin, section.barrelRadius + skin - bore / 2);

/** Screws of each leaf; the outer leaf brings the pin. */
function fittings(p: ButtHingeParameters, s: ButtHingeSizes, side: LeafSide): readonly Fitting[] {
  const { fastener } = s.screw;
  const n = s.screwsAt.length;
  return [
    ...(side === 'outer' ? pinFittings(p.pinMaterial, s.pinDiameter, s.length, [p.pinEnds, p.pinEnds]) : []),
    ...(n > 0
      ? [fastenerFitting(fastener, n, soldLength(fastener, s.thickness + 5 * fastener.diameter))]
      : []),
  ];
}
