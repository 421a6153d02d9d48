import { fastenerFitting, pinFittings, soldLength } from '../core/hardware/index.js';
import { definePart, type Fitting, refuse } from '../core/part/contract.js';
import { type Finding, hasStop, warn } from '../core/part/finding.js';
import { isNoStock } from '../core/part/stock.js';
import { planScrewHoles } from './hardware/screw-holes.js';
import { doorFindings } from './hinge/door-findings.js';
import { knuckleSpans } from './hinge/knuckles.js';
import { sweepHinge } from './hinge/motion-findings.js';
import { planBore } from './hinge/pin-bore.js';
import { faceHeight, leafSolid, type StrapLeaf, screwStock, screwsOf, sideOf } from './strap-hinge/body.js';
import { checkStrapHinge } from './strap-hinge/checks.js';
import { strapDimensions } from './strap-hinge/dimensions.js';
import { strapDrawing } from './strap-hinge/drawing.js';
import { type StrapHingeParameters, strapHingeParameters } from './strap-hinge/parameters.js';
import { strapPlaces } from './strap-hinge/places.js';
import { type StrapHingeSizes, strapHingeSizes, turningOf } from './strap-hinge/sizes.js';

/** The narrowest gate worth naming without a warning, mm (common practice, no source). */
const leastGate = 5;

/**
 * A strap hinge: a long tapered strap for the door and a short plate for the post, on a pin of rod. Both lie on their
 * backs, flush with the barrel, at z = 0; the pin's axis runs along Y at the height of the barrel's radius, the leaf
 * towards +X, its inner face, which takes gate and screw heads, up. The strap turned half round about Z makes the
 * hinge as it lies open flat.
 */
export default definePart({
  name: 'strap-hinge',
  summary: 'Strap hinge: a long tapered strap and a short plate on a pin of rod, sized by strap or door',
  parameters: strapHingeParameters,
  pieces: [
    { name: 'strap', title: 'Strap of a strap hinge' },
    { name: 'plate', title: 'Plate of a strap hinge' },
  ],
  presets: {
    chest: { size: 100 },
    'shed-door': { size: 180, doorMass: 25, doorWidth: 700, hingeSpacing: 1200 },
    'inch-seven': { series: 'inch', size: 177.8 },
  },
  build(parameters, stock, kit) {
    const leaf: StrapLeaf = kit.piece === 'plate' ? 'plate' : 'strap';
    const sizes = strapHingeSizes(parameters);
    const finished = isNoStock(stock);
    const checked = checkStrapHinge(sizes, leaf, stock);
    if (hasStop(checked)) return refuse(checked);
    const swept = sweepHinge(turningOf(sizes), parameters.openAngle, stock);
    const plans = {
      bore: planBore(
        sizes.holeDiameter,
        knuckleSpans(sizes.row, sideOf(leaf)),
        { bore: stock.bore, ends: stock.mating },
        parameters.bore,
        finished,
      ),
      holes: planScrewHoles(
        { seat: sizes.screw.seat, mouth: faceHeight(sizes) },
        screwStock(stock),
        parameters.holes,
        finished,
      ),
    };
    const findings: readonly Finding[] = [
      ...checked,
      ...swept.findings,
      ...plans.bore.findings,
      ...(screwsOf(sizes, leaf).length > 0 ? plans.holes.findings : []),
      ...doorFindings(sizes.use, sizes.load),
    ];
    if (hasStop(findings)) return refuse(findings);
    const { gates, vents } = strapPlaces(sizes, leaf, stock);
    const gate = gates[0]?.outerDiameter ?? 0;
    return {
      solid: leafSolid(sizes, leaf, stock, plans, kit),
      surfaces: [
        { surfaceClass: 'skin', name: `${leaf}'s faces and edges, barrel, floor of the notches` },
        { surfaceClass: 'mating', name: "knuckles' ends" },
        { surfaceClass: 'bore', name: "knuckles' bore, screw holes and countersinks" },
      ],
      dimensions: strapDimensions(sizes, leaf, stock, plans),
      gates,
      vents,
      thinnestWall: Math.min(
        sizes.thickness + 2 * stock.skin,
        sizes.barrelRadius + stock.skin - plans.bore.diameter / 2,
      ),
      ...(finished ? { drawing: strapDrawing(sizes, leaf) } : {}),
      fittings: fittings(parameters, sizes, leaf),
      findings:
        gate >= leastGate
          ? findings
          : [
              ...findings,
              warn(
                'gate-place-small',
                `the flat between barrel, screws and edge takes a gate of ${gate.toFixed(1)} mm only`,
                `make the ${leaf} wider or give it fewer screws, for ${leastGate} mm at least`,
                ...(leaf === 'strap' ? ['rootWidth', 'strapScrews'] : ['plateWidth', 'plateScrews']),
              ),
            ],
    };
  },
});

/** Screws of each; the plate, which has the outer knuckles, brings the pin. */
function fittings(p: StrapHingeParameters, s: StrapHingeSizes, leaf: StrapLeaf): readonly Fitting[] {
  const { fastener } = s.screw;
  const n = screwsOf(s, leaf).length;
  return [
    ...(leaf === 'plate'
      ? pinFittings(p.pinMaterial, s.pinDiameter, s.rootWidth, [p.pinEnds, p.pinEnds])
      : []),
    ...(n > 0
      ? [fastenerFitting(fastener, n, soldLength(fastener, s.thickness + 5 * fastener.diameter))]
      : []),
  ];
}
