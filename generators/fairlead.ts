import { definePart, freeFormTolerance, refuse } from '../core/part/contract.js';
import { hasStop } from '../core/part/finding.js';
import { isNoStock } from '../core/part/stock.js';
import { fairleadField, fairleadOutline } from './fairlead/body.js';
import { checkFairlead } from './fairlead/checks.js';
import { fairleadDimensions, fairleadDrawing } from './fairlead/notes.js';
import { fairleadParameters } from './fairlead/parameters.js';
import { fairleadSizes } from './fairlead/sizes.js';
import { deckSolid, undersidePlaces } from './hardware/deck-body.js';
import { deckFittings } from './hardware/deck-fittings.js';
import { flangeScrews } from './hardware/flange.js';
import { seatOf } from './hardware/screw-field.js';
import { planScrewHoles, screwHoleTools } from './hardware/screw-holes.js';

/**
 * A fairlead: a round lip that a line is led through, on a base plate; open on top it is a bow chock. In its own
 * coordinates, which are those of the pour, the underside is the plane z = 0 and uppermost; the line runs along Y.
 */
export default definePart({
  name: 'fairlead',
  summary: 'Fairlead: a round-lipped ring for a line, or open on top as a bow chock, on a base plate',
  parameters: fairleadParameters,
  tolerance: freeFormTolerance,
  presets: {
    dinghy: { line: 6 },
    'bow-chock': { style: 'open' },
    'half-inch': { series: 'inch', line: 25.4 / 2 },
  },
  build(parameters, stock, kit) {
    const sizes = fairleadSizes(parameters);
    const { flange } = sizes;
    const finished = isNoStock(stock);
    const holes = {
      seat: seatOf(flange.screw),
      at: flangeScrews(flange),
      mouth: flange.thickness,
      sink: 0,
      clear: sizes.fillet,
    };
    const stocks = { bore: stock.bore, top: stock.skin, under: stock.mating };
    const plan = planScrewHoles(holes, stocks, parameters.holes, finished);
    const findings = [...checkFairlead(parameters, sizes, stock), ...plan.findings];
    if (hasStop(findings)) return refuse(findings);

    const radius = plan.diameter / 2;
    return {
      solid: deckSolid(
        fairleadField(sizes, stock.mating),
        screwHoleTools(holes, plan, stocks, kit),
        stock,
        kit,
      ),
      surfaces: [
        { surfaceClass: 'skin', name: 'lip, fillets, top and sides of the base' },
        { surfaceClass: 'mating', name: 'underside' },
        { surfaceClass: 'bore', name: 'screw holes and countersinks' },
      ],
      dimensions: fairleadDimensions(sizes, stock, plan.diameter),
      ...undersidePlaces(
        fairleadOutline(sizes),
        radius > 0 ? holes.at.map((at) => ({ at, radius })) : [],
        stock,
      ),
      thinnestWall: Math.min(flange.thickness + stock.mating, sizes.thickness + stock.skin) + stock.skin,
      ...(finished ? { drawing: fairleadDrawing(sizes) } : {}),
      fittings: deckFittings(flange.screw, flange.screws, flange.thickness),
      findings,
    };
  },
});
