import { allowableLoadNote, loadFindings } from '../core/hardware/index.js';
import {
  type BuildKit,
  type BuildResult,
  definePart,
  freeFormTolerance,
  refuse,
} from '../core/part/contract.js';
import { type Finding, hasStop, note } from '../core/part/finding.js';
import { isNoStock, type Stock } from '../core/part/stock.js';
import { planPinHole } from './hardware/pin-hole.js';
import { planScrewHoles } from './hardware/screw-holes.js';
import { pinNotes, plateFindings, ringFindings } from './ring-pull/checks.js';
import { flushPlatePlaces, flushPlateSolid, grooveWidth } from './ring-pull/flush-plate.js';
import { flushPlateDimensions, flushPlateDrawing } from './ring-pull/flush-sheet.js';
import { flushLayout, grooveCast } from './ring-pull/flush-sizes.js';
import { plateFittings, ringPullLoad } from './ring-pull/loads.js';
import { ringPullParameters } from './ring-pull/parameters.js';
import { pinDimensions, pinDrawing, pinGate, pinSolid } from './ring-pull/pin.js';
import { ringDimensions, ringDrawing, ringPlaces, ringSolid } from './ring-pull/ring.js';
import { type RingPullParameters, type RingPullSizes, ringPullSizes } from './ring-pull/sizes.js';
import { surfacePlatePlaces, surfacePlateSolid } from './ring-pull/surface-plate.js';
import { surfacePlateDimensions, surfacePlateDrawing } from './ring-pull/surface-sheet.js';

/**
 * A ring pull: a ring that turns on a pin between two eyes on a base, or in a cup let into the wood. Ring and pin
 * are the same for both; clearances are as they are after the stock is removed.
 */
export default definePart({
  name: 'ring-pull',
  summary: 'Ring pull for hatch or drawer: ring, eye plate (on the surface or let in flush) and pin',
  parameters: ringPullParameters,
  pieces: [
    { name: 'ring', title: 'Ring of a ring pull' },
    { name: 'plate', title: 'Plate of a ring pull' },
    { name: 'pin', title: 'Pin of a ring pull' },
  ],
  tolerance: freeFormTolerance,
  presets: {
    locker: { size: 25 },
    flush: { style: 'flush' },
    'two-finger': { fingers: 2, style: 'flush' },
    inch: { series: 'inch', size: 31.75 },
  },
  build(parameters, stock, kit) {
    const sizes = ringPullSizes(parameters);
    const checked = [...ringFindings(sizes, stock), ...plateFindings(sizes, parameters, stock)];
    if (hasStop(checked)) return refuse(checked);
    switch (kit.piece) {
      case 'plate':
        return sizes.style === 'flush'
          ? buildFlush(parameters, sizes, stock, kit)
          : buildSurface(parameters, sizes, stock, kit);
      case 'pin':
        return buildPin(sizes, stock, kit);
      default:
        return buildRing(parameters, sizes, stock, kit, checked);
    }
  },
});

function buildRing(
  p: RingPullParameters,
  s: RingPullSizes,
  stock: Stock,
  kit: BuildKit,
  checked: readonly Finding[],
): BuildResult {
  const hole = planPinHole({
    diameter: s.holeDiameter,
    bore: stock.bore,
    depth: s.tabWidth + 2 * stock.mating,
    wish: p.pinHoles,
    finished: isNoStock(stock),
    what: "the ring's pin hole",
    parameters: ['pinHoles', 'pinDiameter', 'tabWidth'],
  });
  const load = ringPullLoad(p, s);
  const words = { part: 'the ring pull', parameters: ['size', 'thickness', 'pinDiameter'] };
  return {
    solid: ringSolid(s, stock, hole, kit),
    surfaces: [
      { surfaceClass: 'skin', name: 'ring, opening, top and bottom of the tab' },
      { surfaceClass: 'mating', name: "tab's sides" },
      { surfaceClass: 'bore', name: 'pin hole' },
    ],
    dimensions: ringDimensions(s, stock, hole),
    ...ringPlaces(s, stock),
    thinnestWall: Math.min(s.thickness, s.rimWidth) + 2 * stock.skin,
    ...(isNoStock(stock) ? { drawing: ringDrawing(s) } : {}),
    findings: [
      ...checked,
      ...hole.findings,
      ...loadFindings(load, {
        ...words,
        use: `a pull of ${s.pull} N`,
        remedy: 'take a larger size or a thicker pin',
      }),
      allowableLoadNote(load, words),
    ],
  };
}

function buildSurface(p: RingPullParameters, s: RingPullSizes, stock: Stock, kit: BuildKit): BuildResult {
  const finished = isNoStock(stock);
  const pinHole = planPinHole({
    diameter: s.holeDiameter,
    bore: stock.bore,
    depth: s.eyeThickness + stock.skin + stock.mating,
    wish: p.pinHoles,
    finished,
    what: 'the pin hole in the eyes',
    parameters: ['pinHoles', 'pinDiameter', 'eyeThickness'],
  });
  const screws = planScrewHoles(
    { seat: s.seat, mouth: s.plateThickness },
    { bore: stock.bore, top: stock.skin, under: stock.mating },
    p.holes,
    finished,
  );
  const plans = { pinHole, screws };
  return {
    solid: surfacePlateSolid(s, p.fasteners, stock, plans, kit),
    surfaces: [
      { surfaceClass: 'skin', name: 'base, outside of the eyes, fillets' },
      { surfaceClass: 'mating', name: 'underside, and the eyes where the tab turns' },
      { surfaceClass: 'bore', name: 'pin holes, screw holes and countersinks' },
    ],
    dimensions: surfacePlateDimensions(s, p.fasteners, stock, plans),
    ...surfacePlatePlaces(s, p.fasteners, stock, screws),
    thinnestWall: Math.min(s.plateThickness + stock.mating + stock.skin, s.eyeThickness),
    ...(finished ? { drawing: surfacePlateDrawing(s, p.fasteners) } : {}),
    fittings: plateFittings(s, p),
    findings: [...plateFindings(s, p, stock), ...pinHole.findings, ...screws.findings],
  };
}

function buildFlush(p: RingPullParameters, s: RingPullSizes, stock: Stock, kit: BuildKit): BuildResult {
  const finished = isNoStock(stock);
  const at = flushLayout(s);
  const screws = planScrewHoles(
    { seat: s.seat, mouth: s.plateThickness },
    { bore: stock.bore, top: stock.face, under: stock.mating },
    p.holes,
    finished,
  );
  const width = grooveWidth(s, stock);
  const depth = at.pinZ + width / 2 - at.cupUnder + stock.skin;
  const groove =
    finished ||
    (p.pinHoles !== 'drilled' && width > 1 && (p.pinHoles === 'cored' || grooveCast(width, depth)));
  const plans = { groove, screws };
  return {
    solid: flushPlateSolid(s, stock, plans, kit),
    surfaces: [
      { surfaceClass: 'face', name: 'face of the flange' },
      { surfaceClass: 'skin', name: 'edges, cup, seat and well' },
      { surfaceClass: 'mating', name: "underside of the flange, sides of the tab's slot" },
      { surfaceClass: 'bore', name: "pin's groove, screw holes and countersinks" },
    ],
    dimensions: flushPlateDimensions(s, stock, plans),
    ...flushPlatePlaces(s, stock, screws),
    thinnestWall: Math.min(s.plateThickness + stock.face, at.floor),
    ...(finished ? { drawing: flushPlateDrawing(s) } : {}),
    fittings: plateFittings(s, p),
    findings: [
      ...plateFindings(s, p, stock),
      ...screws.findings,
      ...(groove
        ? []
        : [
            note(
              'pin-groove-milled',
              "the pin's groove is left solid: the mould's rib for it would be thin and tall",
              `mill it ${Number(s.holeDiameter.toFixed(2))} mm wide from below, to the height on the drawing`,
              'pinHoles',
              'pinDiameter',
            ),
          ]),
    ],
  };
}

function buildPin(s: RingPullSizes, stock: Stock, kit: BuildKit): BuildResult {
  const finished = isNoStock(stock);
  return {
    solid: pinSolid(s, stock, kit),
    surfaces: [
      { surfaceClass: 'mating', name: 'shank and chamfer' },
      { surfaceClass: 'face', name: 'ends' },
    ],
    dimensions: pinDimensions(s, stock),
    gates: pinGate(s, stock),
    vents: [],
    ...(finished ? { drawing: pinDrawing(s) } : {}),
    findings: pinNotes(s),
  };
}
