import { leastWall } from '../../core/hardware/index.js';
import { type Finding, stop, warn } from '../../core/part/finding.js';
import { roundedDown, roundedUp } from '../../core/part/rounded.js';
import { noStock, type Stock } from '../../core/part/stock.js';
import {
  cupSide,
  type DishSide,
  flareEnd,
  floorEdge,
  recessSide,
  rimThickness,
  straightOf,
} from './profile.js';
import { type FlushPullSizes, faceEdge } from './sizes.js';

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

/** What the body cannot be made with. */
export function checkShape(s: FlushPullSizes, stock: Stock): readonly Finding[] {
  const findings: Finding[] = [];
  const stopIf = (wrong: boolean, ...finding: Parameters<typeof stop>): void => {
    if (wrong) findings.push(stop(...finding));
  };
  const { skin } = stock;
  const [recess, cup] = [recessSide(s, stock), cupSide(s, stock)];
  stopIf(
    s.recessLength < s.recessWidth - 1e-9,
    'recess-across',
    `an opening ${mm(s.recessLength)} long and ${mm(s.recessWidth)} wide lies across its screws`,
    'give the longer size as its length',
    'recessLength',
    'recessWidth',
  );
  stopIf(
    Math.min(recess.round, cup.flare) < 0.3,
    'fillet-filled-by-stock',
    `a fillet of ${mm(Math.min(s.floorFillet, s.fillet))} is used up by ${mm(skin)} of stock`,
    `make it ${mm(skin + 0.5)} or more`,
    'floorFillet',
    'fillet',
  );
  const room = (side: DishSide): number => straightOf(side)[1] - straightOf(side)[0];
  stopIf(
    room(recess) < 0.2,
    'dish-shallow',
    `a recess ${mm(s.recessDepth)} deep has no room for ${mm(s.floorFillet)} at its floor and ${mm(s.rimRadius)} at its rim`,
    'make it deeper or the radii smaller',
    'recessDepth',
    'floorFillet',
    'rimRadius',
  );
  stopIf(
    room(cup) < 0.2,
    'cup-shallow',
    `a plate ${mm(s.plateThickness)} thick leaves no cup under it for a recess ${mm(s.recessDepth)} deep with ${mm(s.floorFillet)} at its floor`,
    'make the recess deeper, or the plate thinner, or the fillets smaller',
    'recessDepth',
    'plateThickness',
    'floorFillet',
    'fillet',
  );
  // In plan the floor's edge lies inside the opening by this.
  const inset = -floorEdge(recess);
  stopIf(
    s.recessWidth / 2 - inset < 0.5,
    'floor-gone',
    `walls and fillets take ${mm(inset)} from each side of an opening ${mm(s.recessWidth)} wide: no floor is left`,
    'make it wider or shallower, or the fillet at its floor smaller',
    'recessWidth',
    'floorFillet',
    'draft',
  );
  stopIf(
    s.shape === 'square' && s.recessCorner - inset < 0.3,
    'corner-pinched',
    `corners of ${mm(s.recessCorner)} in plan come to a point before the floor, ${mm(inset)} further in`,
    `make them ${mm(inset + 0.5)} or more, or the fillet at the floor smaller`,
    'recessCorner',
    'floorFillet',
    { recessCorner: roundedUp(inset + 0.5) },
  );
  stopIf(
    s.shape === 'square' && s.recessCorner > s.recessWidth / 2 - 0.1,
    'corner-large',
    `corners of ${mm(s.recessCorner)} meet on an opening ${mm(s.recessWidth)} wide`,
    `make them ${mm(s.recessWidth / 2 - 0.5)} or less, or the ends oval`,
    'recessCorner',
    'shape',
    { recessCorner: roundedDown(s.recessWidth / 2 - 0.5) },
  );
  stopIf(
    s.plateLength - s.recessLength < s.plateWidth - s.recessWidth - 1e-9,
    'plate-short',
    `a plate ${mm(s.plateLength)} × ${mm(s.plateWidth)} has less room at the ends of the opening, where the screws go, than beside it`,
    `make it ${mm(s.recessLength + s.plateWidth - s.recessWidth)} or longer`,
    'plateLength',
    'plateWidth',
  );
  const beside = (s.plateWidth - s.recessWidth) / 2;
  const rim = beside - Math.max(faceEdge + flareEnd(recess), flareEnd(cup) - skin);
  stopIf(
    rim < 1,
    'rim-narrow',
    `a plate ${mm(s.plateWidth)} wide leaves ${mm(Math.max(0, rim))} of flat beside the opening`,
    `make it ${mm(s.plateWidth + 2 * (1.5 - rim))} or wider, or the opening narrower`,
    'plateWidth',
    'recessWidth',
    'rimRadius',
    'fillet',
  );
  stopIf(
    s.plateThickness + stock.mating + stock.face < faceEdge + skin + 0.3,
    'stock-too-large',
    `${mm(skin)} of stock on the skin rounds the edge of a plate ${mm(s.plateThickness)} thick away`,
    'allow less stock on the skin, or make the plate thicker',
    'plateThickness',
  );
  return findings;
}

/** The bend from wall to plate: rounder outside than inside by its thickness, it is as thick as they are. */
export function checkBend(s: FlushPullSizes): readonly Finding[] {
  const thick = rimThickness(recessSide(s, noStock), cupSide(s, noStock));
  const section = Math.min(s.wall, s.plateThickness);
  if (thick >= 0.75 * section) return [];
  const thin = thick < Math.min(leastWall(), 0.75 * section);
  return [
    (thin ? stop : warn)(
      thin ? 'rim-too-thin' : 'rim-thin',
      `a rim rounded by ${mm(s.rimRadius)} leaves ${mm(thick)} of metal over the hidden fillet of ${mm(s.fillet)}`,
      `round it by ${mm(s.fillet + section)} or less, or make that fillet larger`,
      'rimRadius',
      'fillet',
      'wall',
      'plateThickness',
      { rimRadius: roundedDown(s.fillet + section) },
    ),
  ];
}
