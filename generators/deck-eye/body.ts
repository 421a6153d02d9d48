import type { BuildKit } from '../../core/part/contract.js';
import type { Stock } from '../../core/part/stock.js';
import {
  blendFields,
  type Field,
  holeCutter,
  type Outline,
  obroundOutline,
  placeTool,
  plateField,
  ringField,
  turnField,
} from '../../core/shape/index.js';
import type { Solid } from '../../core/solid/types.js';
import { underDeck } from '../hardware/deck-body.js';
import { flangeOutline } from '../hardware/flange.js';
import { drillDimples, type PinHolePlan } from '../hardware/pin-hole.js';
import type { EyeSizes } from './eye.js';
import type { DeckEyeSizes } from './sizes.js';

export const eyeOutline = ({ flange, foot, fillet }: DeckEyeSizes): Outline =>
  flangeOutline(flange, foot, fillet);

/** Ring or lug on its base, with fillets, the base going on under the deck. */
export function deckEyeField(sizes: DeckEyeSizes, mating: number): Field {
  const { eye, flange, fillet } = sizes;
  // Under the deck a wide ring may come out of a thin base again: that is cut off, and must not crease.
  const ringFoot = eye.kind === 'ring' ? eye.centre - eye.opening / 2 - eye.bar : 0;
  const low = Math.min(-underDeck - mating, ringFoot - 2 * fillet - flange.edgeRadius);
  const base = plateField({
    outline: eyeOutline(sizes),
    z0: low,
    z1: flange.thickness,
    topRadius: flange.edgeRadius,
    bottomRadius: flange.edgeRadius,
  });
  const body = blendFields([eyeField(eye, low), base], fillet);
  // What the first mesh must not miss: thicknesses, and the roundings of a lug's edges.
  const thin =
    eye.kind === 'ring'
      ? Math.min(eye.bar, eye.opening)
      : Math.min(eye.thickness, 2 * eye.radius, 4 * eye.edge);
  return { ...body, detail: 0.5 * Math.min(2 * body.detail, thin, flange.thickness, 2 * fillet) };
}

function eyeField(eye: EyeSizes, low: number): Field {
  if (eye.kind === 'ring')
    return ringField([0, 0, eye.centre], [0, 1, 0], (eye.opening + eye.bar) / 2, eye.bar / 2);
  // A plate lying in the deck's plane, stood up: its Y becomes the height.
  const flat = plateField({
    outline: obroundOutline([0, low + eye.radius + 1], [0, eye.centre], eye.radius),
    z0: -eye.thickness / 2,
    z1: eye.thickness / 2,
    topRadius: eye.edge,
    bottomRadius: eye.edge,
  });
  return turnField(flat, 'x', Math.PI / 2);
}

/** What makes the pin's hole, over the deck: the hole, or dimples in both sides. */
export function pinTools(
  { eye }: DeckEyeSizes,
  plan: PinHolePlan,
  stock: Stock,
  kit: BuildKit,
): readonly Solid[] {
  if (eye.kind === 'ring') return [];
  const face = eye.thickness / 2;
  if (plan.form === 'dimples') {
    const at = face + stock.skin;
    return drillDimples(
      [
        { at: [0, at, eye.centre], outwards: [0, 1, 0] },
        { at: [0, -at, eye.centre], outwards: [0, -1, 0] },
      ],
      eye.hole,
      stock.skin,
      kit,
    );
  }
  const tool = holeCutter(
    kit.kernel,
    { kind: 'plain', diameter: eye.hole, depth: eye.thickness },
    kit.tolerance,
    { bore: stock.bore, face: stock.skin, farFace: stock.skin },
  );
  return tool === null ? [] : [placeTool(tool, [0, face, eye.centre], [0, 1, 0])];
}
