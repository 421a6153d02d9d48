import { maths } from '../core/maths/maths.js';
import { definePart, type Fitting, freeFormTolerance, refuse } from '../core/part/contract.js';
import { hasStop } from '../core/part/finding.js';
import { isNoStock } from '../core/part/stock.js';
import type { Vec2 } from '../core/solid/types.js';
import { deckSolid, undersidePlaces } from './hardware/deck-body.js';
import { deckFittings } from './hardware/deck-fittings.js';
import { planScrewHoles, type ScrewHoles, screwHoleTools } from './hardware/screw-holes.js';
import { baseOutline, cleatField, crownExponent, crownHeight, spineHeight } from './horn-cleat/body.js';
import { checkCleat } from './horn-cleat/checks.js';
import { cleatDimensions } from './horn-cleat/dimensions.js';
import { cleatDrawing } from './horn-cleat/drawing.js';
import { hornCleatParameters } from './horn-cleat/parameters.js';
import { type HornCleatSizes, hornCleatSizes } from './horn-cleat/sizes.js';

/**
 * A horn cleat: two horns on legs or a neck over a base. In its own coordinates, which are those of the pour, the
 * underside is the plane z = 0 and uppermost; the horns lie along X and hang below it.
 */
export default definePart({
  name: 'horn-cleat',
  summary: 'Horn cleat for making a line fast: open or closed base, two or four screws, swept-up horns',
  parameters: hornCleatParameters,
  tolerance: freeFormTolerance,
  presets: {
    dinghy: { line: 6 },
    mooring: { line: 14 },
    'six-inch': { series: 'inch', line: 25.4 * (3 / 8) },
    'eight-inch': { series: 'inch', line: 25.4 / 2 },
    solid: { base: 'closed' },
  },
  build(parameters, stock, kit) {
    const sizes = hornCleatSizes(parameters);
    const holes = screwHoles(sizes);
    const stocks = { bore: stock.bore, top: stock.skin, under: stock.mating };
    const plan = planScrewHoles(holes, stocks, parameters.holes, isNoStock(stock));
    const findings = [...checkCleat(parameters, sizes, stock), ...plan.findings];
    if (hasStop(findings)) return refuse(findings);

    const tools = screwHoleTools(holes, plan, stocks, kit);
    const radius = plan.diameter / 2;
    const mouths = radius > 0 ? holes.at.map((at) => ({ at, radius })) : [];
    return {
      solid: deckSolid(cleatField(sizes, stock.mating), tools, stock, kit),
      surfaces: [
        { surfaceClass: 'skin', name: 'horns, legs, fillets, top and sides of the base' },
        { surfaceClass: 'mating', name: 'underside' },
        { surfaceClass: 'bore', name: 'screw holes and countersinks' },
      ],
      dimensions: cleatDimensions(sizes, stock, plan),
      ...undersidePlaces(baseOutline(sizes), mouths, stock),
      thinnestWall: Math.min(sizes.baseThickness + stock.mating, sizes.tipHeight) + stock.skin,
      ...(isNoStock(stock) ? { drawing: cleatDrawing(sizes) } : {}),
      fittings: cleatFittings(sizes),
      findings,
    };
  },
});

/** Four through the base, or two from the horns' back down through the legs. */
function screwHoles(s: HornCleatSizes): ScrewHoles {
  const { seat, screwAlong: x, screwAcross: y } = s;
  if (s.fasteners === 4) {
    const at: readonly Vec2[] = [
      [x, y],
      [-x, y],
      [x, -y],
      [-x, -y],
    ];
    return { seat, at, mouth: s.baseThickness, sink: 0, clear: s.fillet };
  }
  const top = spineHeight(s, x) + s.hornHeight / 2;
  // The head's rim lies as deep as the horn's back falls away across it.
  const share = Math.min(0.98, seat.mouthDiameter / s.hornWidth);
  const exponent = crownExponent(s);
  const fall = (s.hornHeight / 2) * (1 - maths.pow(1 - maths.pow(share, exponent), 1 / exponent));
  return {
    seat,
    at: [
      [x, 0],
      [-x, 0],
    ],
    mouth: top,
    sink: fall,
    clear: s.hornHeight,
  };
}

function cleatFittings(s: HornCleatSizes): readonly Fitting[] {
  const through = s.fasteners === 2 ? crownHeight(s) + s.hornHeight / 2 : s.baseThickness;
  return deckFittings(s.screw, s.fasteners, through);
}
