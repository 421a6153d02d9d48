import { allowableLoadNote, fastenerFitting, loadFindings, soldLength } from '../core/hardware/index.js';
import { type BuildKit, definePart, freeFormTolerance, refuse } from '../core/part/contract.js';
import { hasStop, note } from '../core/part/finding.js';
import { isNoStock, type Stock } from '../core/part/stock.js';
import type { Solid } from '../core/solid/types.js';
import { flushPullSolid } from './flush-pull/body.js';
import { checkFlush } from './flush-pull/checks.js';
import { flushPullParameters } from './flush-pull/parameters.js';
import { flushPlaces, gateOnScrew } from './flush-pull/places.js';
import { flushDimensions, flushDrawing } from './flush-pull/sheet.js';
import { type FlushPullSizes, flushPullSizes } from './flush-pull/sizes.js';
import { flushLoad, pocketNote } from './flush-pull/use.js';
import { planScrewHoles, type ScrewHolePlan, screwHoleTools } from './hardware/screw-holes.js';

/**
 * A flush pull for sliding doors and lids: a plate let into the wood with a dished recess for the finger tips. It is
 * poured face up, the mould's core hanging broad into the dish; the sprue stands over a screw hole, whose countersink
 * takes its mark away.
 */
export default definePart({
  name: 'flush-pull',
  summary: 'Flush pull for a sliding door: plate let into the wood, dished recess for one to four fingers',
  parameters: flushPullParameters,
  tolerance: freeFormTolerance,
  presets: {
    round: { fingers: 1 },
    hand: { fingers: 4, shape: 'square' },
    gloved: { hand: 'gloved' },
    inch: { series: 'inch', fingers: 3 },
  },
  build(parameters, stock, kit) {
    const sizes = flushPullSizes(parameters);
    const checked = checkFlush(parameters, sizes, stock);
    if (hasStop(checked)) return refuse(checked);
    const finished = isNoStock(stock);
    const stocks = { bore: stock.bore, top: stock.face, under: stock.mating };
    const plan = planScrewHoles(
      { seat: sizes.seat, mouth: sizes.plateThickness },
      stocks,
      parameters.holes,
      finished,
    );
    const onScrew = gateOnScrew(parameters.holes);
    const load = flushLoad(parameters, sizes);
    const words = { part: 'the flush pull', parameters: ['wall', 'screw', 'fasteners'] };
    return {
      solid: flushPullSolid(sizes, stock, screwTools(sizes, stock, plan, onScrew && !finished, kit), kit),
      surfaces: [
        { surfaceClass: 'face', name: 'face' },
        { surfaceClass: 'skin', name: 'recess and its rim, edge of the plate, outside of the cup' },
        { surfaceClass: 'mating', name: 'underside of the plate' },
        { surfaceClass: 'bore', name: 'screw holes and countersinks' },
      ],
      dimensions: flushDimensions(sizes, stock, plan.diameter),
      ...flushPlaces(sizes, stock, plan, onScrew && !finished),
      thinnestWall: Math.min(sizes.wall + 2 * stock.skin, sizes.plateThickness + stock.face + stock.mating),
      ...(finished ? { drawing: flushDrawing(sizes) } : {}),
      fittings: [screwsToFit(sizes)],
      findings: [
        ...checked,
        ...plan.findings,
        ...(onScrew ? [underGate(sizes)] : []),
        pocketNote(sizes),
        ...loadFindings(load, {
          ...words,
          use: `a pull of ${sizes.pull} N`,
          remedy: 'make the wall thicker or take more or thicker screws',
        }),
        allowableLoadNote(load, words),
      ],
    };
  },
});

function screwTools(
  s: FlushPullSizes,
  stock: Stock,
  plan: ScrewHolePlan,
  gated: boolean,
  kit: BuildKit,
): readonly Solid[] {
  const holes = {
    seat: s.seat,
    at: s.screws.slice(gated ? 1 : 0),
    mouth: s.plateThickness,
    sink: 0,
    clear: 0,
  };
  const stocks = { bore: stock.bore, top: stock.face, under: stock.mating };
  return screwHoleTools(holes, plan, stocks, kit).map((tool) => tool.translate([0, 0, s.under]));
}

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

const underGate = ({ seat }: FlushPullSizes) =>
  note(
    'screw-hole-under-gate',
    'the sprue stands where a screw goes, so that no mark of it is left on the face: that hole is solid',
    `saw the sprue off, file the face flat, drill ${mm(seat.holeDiameter)} and countersink to ${mm(seat.mouthDiameter)}`,
    'holes',
  );

/** Wood screws reach five diameters into the wood, machine screws through 20 mm of it and a nut. */
function screwsToFit({ screw, screws, plateThickness }: FlushPullSizes) {
  const grip = screw.kind === 'bolt' ? 20 + screw.hexagon.nutHeight + 3 : 5 * screw.diameter;
  return fastenerFitting(
    screw,
    screws.length,
    soldLength(screw, plateThickness + grip),
    'countersunk',
    'bronze',
  );
}
