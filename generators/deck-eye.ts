import { definePart, freeFormTolerance, refuse } from '../core/part/contract.js';
import { hasStop } from '../core/part/finding.js';
import { isNoStock } from '../core/part/stock.js';
import { deckEyeField, eyeOutline, pinTools } from './deck-eye/body.js';
import { checkEye } from './deck-eye/checks.js';
import { eyeDimensions, eyeDrawing } from './deck-eye/notes.js';
import { deckEyeParameters } from './deck-eye/parameters.js';
import { deckEyeSizes } from './deck-eye/sizes.js';
import { deckSolid, undersidePlaces } from './hardware/deck-body.js';
import { deckFittings } from './hardware/deck-fittings.js';
import { flangeScrews } from './hardware/flange.js';
import { planPinHole } from './hardware/pin-hole.js';
import { seatOf } from './hardware/screw-field.js';
import { planScrewHoles, screwHoleTools } from './hardware/screw-holes.js';

/**
 * A deck eye: a base plate with a ring for a line or a lug for a shackle. In its own coordinates, which are those of
 * the pour, the underside is the plane z = 0 and uppermost; the eye lies in the plane y = 0 and hangs below it.
 */
export default definePart({
  name: 'deck-eye',
  summary: 'Deck eye: a base plate with a ring for a line or a lug for a shackle pin',
  parameters: deckEyeParameters,
  tolerance: freeFormTolerance,
  presets: {
    dinghy: { line: 6 },
    shackle: { eye: 'lug' },
    'half-inch': { series: 'inch', line: 25.4 / 2 },
  },
  build(parameters, stock, kit) {
    const sizes = deckEyeSizes(parameters);
    const { flange, eye } = sizes;
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
    const pin = planPinHole({
      diameter: eye.kind === 'lug' ? eye.hole : 10,
      bore: stock.bore,
      depth: eye.kind === 'lug' ? eye.thickness + 2 * stock.skin : 0,
      wish: parameters.holes,
      finished,
      what: "the shackle's hole",
      parameters: ['pin', 'lugThickness', 'holes'],
    });
    const findings = [
      ...checkEye(parameters, sizes, stock),
      ...plan.findings,
      ...(eye.kind === 'lug' ? pin.findings : []),
    ];
    if (hasStop(findings)) return refuse(findings);

    const tools = [...screwHoleTools(holes, plan, stocks, kit), ...pinTools(sizes, pin, stock, kit)];
    const radius = plan.diameter / 2;
    return {
      solid: deckSolid(deckEyeField(sizes, stock.mating), tools, stock, kit),
      surfaces: [
        { surfaceClass: 'skin', name: `${eye.kind}, fillets, top and sides of the base` },
        { surfaceClass: 'mating', name: 'underside' },
        {
          surfaceClass: 'bore',
          name: `screw holes and countersinks${eye.kind === 'lug' ? ", the pin's hole" : ''}`,
        },
      ],
      dimensions: eyeDimensions(sizes, stock, { screw: plan.diameter, pin: pin.diameter }),
      ...undersidePlaces(eyeOutline(sizes), radius > 0 ? holes.at.map((at) => ({ at, radius })) : [], stock),
      thinnestWall:
        Math.min(
          flange.thickness + stock.mating,
          (eye.kind === 'ring' ? eye.bar : eye.thickness) + stock.skin,
        ) + stock.skin,
      ...(finished ? { drawing: eyeDrawing(sizes) } : {}),
      fittings: deckFittings(flange.screw, flange.screws, flange.thickness),
      findings,
    };
  },
});
