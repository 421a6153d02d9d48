import type { BuildKit } from '../../core/part/contract.js';
import type { Stock } from '../../core/part/stock.js';
import {
  holeCutter,
  type Outline,
  offsetOutline,
  placeTool,
  plateSolid,
  polygonOutline,
  roundCorners,
  roundEdge,
} from '../../core/shape/index.js';
import type { Solid, Vec2 } from '../../core/solid/types.js';
import type { HoleStocks, ScrewHolePlan } from '../hardware/screw-holes.js';
import type { JamCleatSizes } from './sizes.js';

/** The side view with sharp corners, counter-clockwise, and the radius of each corner. */
function corners(s: JamCleatSizes): readonly { readonly at: Vec2; readonly radius: number }[] {
  const { baseThickness: t, top, post, throat, backHorn, fillet } = s;
  const tip = Math.min(0.3 * s.tipHeight, 0.35 * s.throat, 0.4 * post);
  const foot = s.footRadius;
  const inThroat = Math.min(fillet, 0.42 * s.end);
  const under = t + s.backClearance;
  const low = top - s.drop;
  const backTip = 0.3 * (low - under - s.backRise);
  // The slopes to the tips are slight: their bends may be wide.
  const crown = Math.min(2 * s.line, post, throat, backHorn > 0 ? backHorn : throat);
  return [
    { at: [s.left, 0], radius: 0 },
    { at: [s.right, 0], radius: 0 },
    { at: [s.right, t], radius: foot },
    { at: [0, t], radius: inThroat },
    { at: [0, t + s.end], radius: inThroat },
    { at: [throat, t + s.mouth], radius: tip },
    { at: [throat, low], radius: tip },
    { at: [0, top], radius: crown },
    { at: [-post, top], radius: backHorn > 0 ? crown : tip },
    ...(backHorn > 0
      ? [
          { at: [-post - backHorn, low] as Vec2, radius: backTip },
          { at: [-post - backHorn, under + s.backRise] as Vec2, radius: backTip },
          { at: [-post, under] as Vec2, radius: fillet },
        ]
      : []),
    { at: [-post, t], radius: fillet },
    { at: [s.left, t], radius: foot },
  ];
}

/**
 * The side view. With stock the underside lies lower by what the mating stock exceeds the skin's, so that the offset
 * of the whole by the skin puts every surface where it belongs.
 */
export function jamOutline(s: JamCleatSizes, stock: Pick<Stock, 'skin' | 'mating'>): Outline {
  const drop = stock.skin - stock.mating;
  const all = corners(s).map((c, i) => (i < 2 ? { ...c, at: [c.at[0], drop] as Vec2 } : c));
  return roundCorners(polygonOutline(all.map((c) => c.at)), (piece) => all[(piece + 1) % all.length]!.radius);
}

/** The cleat on its side, the side that is up in the pour at z = width. */
export function jamSolid(
  s: JamCleatSizes,
  holes: readonly { readonly plan: ScrewHolePlan; readonly at: Vec2; readonly mouth: number }[],
  stock: Stock,
  { kernel, tolerance }: BuildKit,
): Solid {
  const { skin } = stock;
  const round = roundEdge(s.edge);
  const body = plateSolid(
    kernel,
    { outline: jamOutline(s, stock), z0: 0, z1: s.width, topEdge: round, bottomEdge: round },
    tolerance,
    { side: skin, top: skin, bottom: skin },
  );
  const stocks: HoleStocks = { bore: stock.bore, top: skin, under: stock.mating };
  const tools = holes.flatMap(({ plan, at, mouth }) => {
    if (plan.form === 'solid') return [];
    const tool = holeCutter(
      kernel,
      {
        kind: 'countersunk',
        diameter: s.seat.holeDiameter,
        depth: mouth,
        headDiameter: s.seat.mouthDiameter,
        angle: s.seat.angle,
        ...(plan.form === 'countersink' ? { shank: false } : {}),
      },
      tolerance,
      { bore: stocks.bore, face: stocks.top, farFace: stocks.under },
    );
    return tool === null ? [] : [placeTool(tool, [at[0], mouth, at[1]], [0, 1, 0])];
  });
  return tools.length === 0 ? body : body.subtract(...tools);
}

/** The flat of a side, inside its rounded edges. */
export const sideFlat = (s: JamCleatSizes, stock: Stock): Outline =>
  offsetOutline(jamOutline(s, stock), -s.edge);
