import { fastenerFitting, pinFittings, soldLength } from '../core/hardware/index.js';
import { definePart, type Fitting, type GatePlace, refuse } from '../core/part/contract.js';
import { type Finding, hasStop, note, warn } from '../core/part/finding.js';
import { isNoStock } from '../core/part/stock.js';
import { rudderSolid } from './gudgeon-pintle/body.js';
import { checkRudder } from './gudgeon-pintle/checks.js';
import { rudderDimensions } from './gudgeon-pintle/dimensions.js';
import { rudderDrawing } from './gudgeon-pintle/drawing.js';
import { type GudgeonPintleParameters, gudgeonPintleParameters } from './gudgeon-pintle/parameters.js';
import { rudderPlaces } from './gudgeon-pintle/places.js';
import { type RudderSizes, rudderSizes } from './gudgeon-pintle/sizes.js';
import { planScrewHoles } from './hardware/screw-holes.js';
import { type BorePlan, planBore } from './hinge/pin-bore.js';

/** The narrowest gate worth naming without a warning, mm (common practice, no source). */
const leastGate = 5;

/**
 * Rudder hanging: a pintle whose straps embrace the rudder, and its gudgeon on the transom or about the sternpost. Each
 * lies with the pin's axis upright along Z and the wood towards +X; the bearing face, on which a cast pin stands, is
 * up. In use the pintle is turned over, its pin down in the gudgeon.
 */
export default definePart({
  name: 'gudgeon-pintle',
  summary: 'Rudder hanging: pintle with straps for the rudder, gudgeon for transom or sternpost, pin by load',
  parameters: gudgeonPintleParameters,
  pieces: [
    { name: 'pintle', title: 'Pintle of a rudder' },
    { name: 'gudgeon', title: 'Gudgeon of a rudder' },
  ],
  presets: {
    dinghy: { size: 450, speed: 4 },
    sternpost: { mount: 'strap', postThickness: 35 },
    'upper-pintle': { position: 'upper' },
    'rod-pin': { pin: 'rod' },
    inch: { series: 'inch', size: 609.6, bladeThickness: 25.4 },
  },
  build(parameters, stock, kit) {
    const sizes = rudderSizes(parameters, kit.piece === 'gudgeon' ? 'gudgeon' : 'pintle');
    const finished = isNoStock(stock);
    const checked = checkRudder(parameters, sizes, stock);
    if (hasStop(checked)) return refuse(checked);
    const beside = rudderPlaces(sizes, stock, false);
    const overBoss = rudderPlaces(sizes, stock, true);
    const gateOnBoss =
      !sizes.castPin && !finished && parameters.bore !== 'cored' && widthOf(overBoss) > widthOf(beside);
    const plans = {
      bore: sizes.castPin
        ? ({ form: 'solid', diameter: 0, findings: [] } as const)
        : gateOnBoss
          ? solidBoss(sizes)
          : planBore(
              sizes.holeDiameter,
              [[0, sizes.width]],
              { bore: stock.bore, ends: (stock.skin + stock.face) / 2 },
              parameters.bore,
              finished,
              {
                solid: `the boss of the ${sizes.piece} is left solid`,
                need: `the hole of the ${sizes.piece} needs`,
                held: 'square to the bearing face',
                pinParameter: 'pintleDiameter',
              },
            ),
      holes: planScrewHoles(
        { seat: sizes.seat, mouth: sizes.thickness },
        { bore: stock.bore, top: stock.skin, under: stock.skin },
        parameters.holes,
        finished,
      ),
    };
    const findings: readonly Finding[] = [...checked, ...plans.bore.findings, ...plans.holes.findings];
    const places = gateOnBoss ? overBoss : beside;
    const { gates, vents } = places;
    const gate = widthOf(places);
    return {
      solid: rudderSolid(sizes, stock, plans, kit),
      surfaces: [
        { surfaceClass: 'skin', name: 'straps or plate, boss, lower face' },
        { surfaceClass: 'face', name: 'bearing face, about the pin' },
        ...(sizes.castPin
          ? [{ surfaceClass: 'mating', name: 'pin' } as const]
          : [{ surfaceClass: 'bore', name: 'hole for the pin' } as const]),
        { surfaceClass: 'bore', name: 'screw holes and countersinks' },
      ],
      dimensions: rudderDimensions(sizes, stock, plans),
      gates,
      vents,
      thinnestWall: sizes.thickness + 2 * stock.skin,
      ...(finished ? { drawing: rudderDrawing(sizes) } : {}),
      fittings: fittings(parameters, sizes),
      findings:
        finished || gate >= leastGate
          ? findings
          : [
              ...findings,
              warn(
                'gate-place-small',
                `the flats of the ${sizes.piece} take a gate of ${gate.toFixed(1)} mm only`,
                `make the straps thicker or the pin thicker, for ${leastGate} mm at least`,
                'thickness',
                'pintleDiameter',
              ),
            ],
    };
  },
});

const widthOf = ({ gates }: { readonly gates: readonly GatePlace[] }): number => gates[0]?.outerDiameter ?? 0;

/** The boss without its hole: the metal goes in there, at its thickest, where there is most room for the sprue. */
const solidBoss = (s: RudderSizes): BorePlan => ({
  form: 'solid',
  diameter: 0,
  findings: [
    note(
      'bore-drilled',
      `the boss of the ${s.piece} is left solid, for the metal goes in there, where it is thickest`,
      `saw the sprue off, file the bearing face flat, and drill ${Number(s.holeDiameter.toFixed(2))} mm square to it from the middle of the boss`,
      'bore',
      'pintleDiameter',
    ),
  ],
});

function fittings(p: GudgeonPintleParameters, s: RudderSizes): readonly Fitting[] {
  const long = s.mount === 'strap' ? s.wood + 2 * s.thickness + s.screw.diameter : s.thickness + 30;
  return [
    ...(s.piece === 'pintle' && !s.castPin
      ? pinFittings(p.pinMaterial, s.pinDiameter, s.width + s.pintleLength, ['riveted', 'flush'])
      : []),
    fastenerFitting(s.screw, s.screwsAt.length, soldLength(s.screw, long)),
    // Straps are bolted through; a plate's screws go into the wood or get theirs behind it.
    ...(s.mount === 'strap'
      ? [{ quantity: s.screwsAt.length, text: `nut and washer ${s.screw.name}` } as const]
      : []),
  ];
}
