import { fastenerFitting } from '../core/hardware/index.js';
import { definePart, freeFormTolerance, refuse } from '../core/part/contract.js';
import { hasStop } from '../core/part/finding.js';
import { isNoStock } from '../core/part/stock.js';
import { deckScrewLength } from './hardware/deck-fittings.js';
import { planScrewHoles } from './hardware/screw-holes.js';
import { jamSolid } from './jam-cleat/body.js';
import { checkJam } from './jam-cleat/checks.js';
import { jamDimensions, jamDrawing, jamPlaces } from './jam-cleat/notes.js';
import { jamCleatParameters } from './jam-cleat/parameters.js';
import { jamCleatSizes } from './jam-cleat/sizes.js';

/**
 * A jam cleat: base and horn close on each other at a small angle, and a line pulled into the throat between them stays.
 * It is cast lying on its side: X along the cleat, Y up from the deck, Z across, from one side at 0 to the other.
 */
export default definePart({
  name: 'jam-cleat',
  summary: 'Jam cleat: a tapered throat between base and horn that grips the line',
  parameters: jamCleatParameters,
  tolerance: freeFormTolerance,
  presets: {
    sheet: { line: 10 },
    halyard: { line: 6 },
    'quarter-inch': { series: 'inch', line: 25.4 / 4 },
  },
  build(parameters, stock, kit) {
    const sizes = jamCleatSizes(parameters);
    const { seat, baseThickness, top, width } = sizes;
    const stocks = { bore: stock.bore, top: stock.skin, under: stock.mating };
    const finished = isNoStock(stock);
    const plan = (mouth: number) => planScrewHoles({ seat, mouth }, stocks, parameters.holes, finished);
    const [inPost, inBase] = [plan(top), plan(baseThickness)];
    const findings = [...checkJam(parameters, sizes, stock), ...inPost.findings, ...inBase.findings];
    if (hasStop(findings)) return refuse(findings);

    return {
      solid: jamSolid(
        sizes,
        [
          { plan: inPost, at: [sizes.postScrew, width / 2], mouth: top },
          { plan: inBase, at: [sizes.baseScrew, width / 2], mouth: baseThickness },
        ],
        stock,
        kit,
      ),
      surfaces: [
        { surfaceClass: 'skin', name: 'horns, throat, post, sides and top of the base' },
        { surfaceClass: 'mating', name: 'underside' },
        { surfaceClass: 'bore', name: 'screw holes and countersinks' },
      ],
      dimensions: jamDimensions(sizes, stock, inBase.diameter),
      ...jamPlaces(sizes, stock),
      thinnestWall: Math.min(baseThickness + stock.mating, sizes.tipHeight) + stock.skin,
      ...(finished ? { drawing: jamDrawing(sizes) } : {}),
      fittings: [
        ...[top, baseThickness].map((metal) =>
          fastenerFitting(sizes.screw, 1, deckScrewLength(sizes.screw, metal), 'countersunk', 'stainless'),
        ),
        { quantity: 2, text: `stainless nut and washer ${sizes.screw.name}` },
      ],
      findings,
    };
  },
});
