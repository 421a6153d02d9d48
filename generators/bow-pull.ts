import { allowableLoadNote, fastenerFitting, loadFindings, soldLength } from '../core/hardware/index.js';
import {
  type BuildKit,
  definePart,
  type Fitting,
  freeFormTolerance,
  type GatePlace,
  refuse,
  type VentPlace,
} from '../core/part/contract.js';
import { hasStop } from '../core/part/finding.js';
import { isNoStock, type Stock } from '../core/part/stock.js';
import { holeCutter, offsetOutline } from '../core/shape/index.js';
import type { Solid } from '../core/solid/types.js';
import { bowField, footOutline } from './bow-pull/body.js';
import { bowLoad, checkBow } from './bow-pull/checks.js';
import { bowPullParameters } from './bow-pull/parameters.js';
import { bowDimensions, bowDrawing } from './bow-pull/sheet.js';
import { type BowPullParameters, type BowPullSizes, bowPullSizes } from './bow-pull/sizes.js';
import { planBlindHole } from './hardware/blind-hole.js';
import { deckSolid } from './hardware/deck-body.js';
import { flatRoom, leastRoom, roomiest } from './hardware/flat-room.js';
import { planScrewHoles, type ScrewHolePlan, screwHoleTools } from './hardware/screw-holes.js';

/** Door that the screws of the cut list are long enough for, mm. */
const usualDoor = 20;

/**
 * A bow pull: an arched grip of changing section on two feet. It is poured upside down: the metal goes in through one
 * foot, round the grip, and the air out through the other.
 */
export default definePart({
  name: 'bow-pull',
  summary: 'Bow pull for a door or hatch: arched grip on two feet, for one to four fingers, bare or gloved',
  parameters: bowPullParameters,
  tolerance: freeFormTolerance,
  presets: {
    drawer: { fingers: 1 },
    gloved: { hand: 'gloved' },
    studs: { fixing: 'studs' },
    inch: { series: 'inch' },
  },
  build(parameters, stock, kit) {
    const sizes = bowPullSizes(parameters);
    const checked = checkBow(parameters, sizes, stock);
    if (hasStop(checked)) return refuse(checked);
    const finished = isNoStock(stock);
    const holes =
      sizes.fixing === 'screws'
        ? screwHoles(parameters, sizes, stock, kit, finished)
        : studHoles(parameters, sizes, stock, kit, finished);
    const load = bowLoad(parameters, sizes);
    const words = { part: 'the bow pull', parameters: ['gripHeight', 'gripWidth', 'fingers', 'screw'] };
    return {
      solid: deckSolid(bowField(sizes, stock.mating), holes.tools, stock, kit),
      surfaces: [
        { surfaceClass: 'skin', name: 'grip, legs, fillets, top and sides of the feet' },
        { surfaceClass: 'mating', name: 'undersides of the feet' },
        {
          surfaceClass: 'bore',
          name: sizes.fixing === 'screws' ? 'screw holes and countersinks' : 'holes to be tapped',
        },
      ],
      dimensions: bowDimensions(sizes, stock, holes.diameter),
      ...footPlaces(sizes, stock, holes.diameter / 2),
      thinnestWall:
        Math.min(sizes.footThickness + stock.mating, sizes.gripHeight, sizes.gripWidth) + stock.skin,
      ...(finished ? { drawing: bowDrawing(sizes) } : {}),
      fittings: bowFittings(sizes),
      findings: [
        ...checked,
        ...holes.findings,
        ...loadFindings(load, {
          ...words,
          use: `a pull of ${sizes.pull} N`,
          remedy: 'make the grip thicker or take a thicker screw',
        }),
        allowableLoadNote(load, words),
      ],
    };
  },
});

interface Holes extends Pick<ScrewHolePlan, 'findings' | 'diameter'> {
  readonly tools: readonly Solid[];
}

function screwHoles(
  p: BowPullParameters,
  s: BowPullSizes,
  stock: Stock,
  kit: BuildKit,
  finished: boolean,
): Holes {
  const stocks = { bore: stock.bore, top: stock.skin, under: stock.mating };
  const holes = {
    seat: s.seat,
    at: [
      [s.screwX, 0],
      [-s.screwX, 0],
    ],
    mouth: s.footThickness,
    sink: 0,
    clear: s.fillet,
  } as const;
  const plan = planScrewHoles(holes, stocks, p.holes, finished);
  return { ...plan, tools: screwHoleTools(holes, plan, stocks, kit) };
}

function studHoles(
  p: BowPullParameters,
  s: BowPullSizes,
  stock: Stock,
  { kernel, tolerance }: BuildKit,
  finished: boolean,
): Holes {
  const { screw, tapDepth } = s;
  const plan = planBlindHole({
    diameter: screw.tapDrill,
    depth: tapDepth,
    bore: stock.bore,
    face: stock.mating,
    wish: p.holes,
    finished,
    what: 'the hole for each stud',
    drill: `drill ${Number(screw.tapDrill.toFixed(2))} mm, ${Number(tapDepth.toFixed(1))} mm deep into each leg from behind, then tap ${screw.name}`,
    parameters: ['holes', 'screw'],
    hinders: 'the sprue and the vent stand on the feet',
  });
  if (plan.diameter === 0) return { ...plan, tools: [] };
  const tool = holeCutter(
    kernel,
    { kind: 'plain', diameter: screw.tapDrill, depth: tapDepth, through: false },
    tolerance,
    { bore: stock.bore, face: stock.mating, farFace: 0 },
  );
  if (tool === null) return { ...plan, diameter: 0, tools: [] };
  // Mouth down, in the door's plane.
  const up = tool.rotate('x', Math.PI);
  return { ...plan, tools: [1, -1].map((hand) => up.translate([hand * s.screwX, 0, 0])) };
}

/** Widest vent, and the smallest, mm. */
const [widestVent, leastVent] = [6, 1.5];

/** Metal enters through one foot under its leg, air leaves through the other; each clear of its hole. */
function footPlaces(
  s: BowPullSizes,
  stock: Stock,
  holeRadius: number,
): { readonly gates: readonly GatePlace[]; readonly vents: readonly VentPlace[] } {
  const z = stock.mating;
  const outline = footOutline(s, 1);
  const room = flatRoom(
    stock.skin > 0 ? offsetOutline(outline, stock.skin) : outline,
    [],
    holeRadius > 0 ? [{ at: [s.screwX, 0], radius: holeRadius }] : [],
  );
  // As wide as the leg, or a little more, feeds it; beyond that the foot's corner only.
  const most = 0.75 * Math.max(s.legHeight, s.legWidth);
  const best = roomiest(room, { x: [s.legX - s.footWidth / 2, s.screwX + s.footWidth / 2], y: [0, 0] }, most);
  const foot = Math.min(2 * best.radius, widestVent);
  return {
    gates:
      best.radius < leastRoom
        ? []
        : [
            {
              name: 'underside of one foot',
              at: [best.at[0], 0, z],
              innerDiameter: 0,
              outerDiameter: 2 * best.radius,
            },
            {
              name: 'underside of the other foot',
              at: [-best.at[0], 0, z],
              innerDiameter: 0,
              outerDiameter: 2 * best.radius,
              further: true,
            },
          ],
    vents:
      foot < leastVent
        ? []
        : [{ name: 'underside of the other foot', at: [-best.at[0], 0, z], footDiameter: foot }],
  };
}

function bowFittings(s: BowPullSizes): readonly Fitting[] {
  const { screw } = s;
  if (s.fixing === 'studs') {
    const length = soldLength(screw, usualDoor + 1.5 * screw.diameter + screw.hexagon.nutHeight + 3);
    return [
      { quantity: 2, text: `stud ${screw.name} × ${Number(length.toFixed(1))} mm, with nut and washer` },
    ];
  }
  const length = soldLength(screw, s.footThickness + usualDoor + screw.hexagon.nutHeight + 3);
  return [fastenerFitting(screw, 2, length, 'countersunk', 'bronze')];
}
