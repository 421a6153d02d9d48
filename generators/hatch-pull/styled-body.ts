import type { BuildKit } from '../../core/part/contract.js';
import {
  bevelEdge,
  blendFields,
  type Field,
  fieldSolid,
  type Outline,
  obroundOutline,
  openingCutter,
  plateField,
  plateSolid,
} from '../../core/shape/index.js';
import type { Solid } from '../../core/solid/types.js';
import type { ScrewHolePlan } from '../hardware/screw-holes.js';
import { screwHoleTools } from '../hardware/screw-holes.js';
import { pinTools } from './body.js';
import type { HoleForm } from './hole.js';
import type { PullState } from './levels.js';
import { ovalRingField, ovalSection } from './oval-ring.js';
import { pullPlanOutline, tabOutline } from './tab-outline.js';

/** How far the oval pull's field goes on over the underside before it is cut off, mm. */
const over = 3;

/** What fastens the pull, as it is in this state. */
export type Fastening =
  | { readonly by: 'pin'; readonly hole: HoleForm }
  | { readonly by: 'screws'; readonly plan: ScrewHolePlan; readonly bore: number };

/** Any pull but the plain one: bevelled with another tab, or oval. The checks must have passed. */
export function styledSolid(state: PullState, fastening: Fastening, kit: BuildKit): Solid {
  const body = state.sizes.section === 'oval' ? ovalBody(state, kit) : bevelledBody(state, kit);
  if (fastening.by === 'screws') return body.subtract(...screwTools(state, fastening, kit));
  return body.subtract(...pinTools(state, fastening.hole, kit));
}

/** The eye's outline. */
export const eyeOutline = ({ plan: { halfX, halfY, inner } }: Pick<PullState, 'plan'>): Outline =>
  halfX > 0 ? obroundOutline([-halfX, 0], [halfX, 0], inner) : obroundOutline([0, -halfY], [0, halfY], inner);

function bevelledBody(state: PullState, { kernel, tolerance }: BuildKit): Solid {
  const { thickness, bevel } = state.sizes;
  const edge = bevelEdge(bevel);
  const stock = { side: state.skin, bottom: state.skin, top: state.under };
  const levels = { z0: 0, z1: thickness };
  return plateSolid(
    kernel,
    { outline: pullPlanOutline(state), ...levels, topEdge: edge, bottomEdge: edge },
    tolerance,
    stock,
  ).subtract(
    openingCutter(
      kernel,
      { outline: eyeOutline(state), ...levels, topRim: edge, bottomRim: edge },
      tolerance,
      stock,
    ),
  );
}

/** Ring and tab with their fillets; goes on over the underside. */
export function ovalField(state: PullState): Field {
  const { sizes, plan, under } = state;
  const { thickness, tabThickness, edgeRadius, filletRadius } = sizes;
  const ring = ovalRingField(plan, ovalSection(sizes, plan));
  const tab = plateField({
    outline: tabOutline(state),
    z0: thickness - tabThickness,
    z1: thickness + over + under,
    topRadius: edgeRadius,
    bottomRadius: edgeRadius,
  });
  return blendFields([ring, tab], filletRadius);
}

function ovalBody(state: PullState, { kernel, tolerance }: BuildKit): Solid {
  const { sizes, plan, skin, under } = state;
  const field = ovalField(state);
  const { min, max } = field.bounds;
  const reach = 5 + skin;
  const body = fieldSolid(kernel, field, tolerance, skin);
  const cut = (from: number, to: number, z: number): Solid =>
    kernel.box([from, min[1] - reach, z], [to, max[1] + reach, max[2] + reach]);
  const low = sizes.thickness + Math.min(skin, under);
  const all = cut(min[0] - reach, max[0] + reach, sizes.thickness + Math.max(skin, under));
  if (under === skin) return body.subtract(all);
  // Only the tab is faced: its stock ends at the rim's back.
  const back = -(plan.halfX + plan.outer + skin);
  return body.subtract(all, under > skin ? cut(back, max[0] + reach, low) : cut(min[0] - reach, back, low));
}

/** Screw holes, made as they stand on the hatch with the show face up, and turned over. */
function screwTools(
  { sizes, skin, under }: PullState,
  { plan, bore }: Extract<Fastening, { by: 'screws' }>,
  kit: BuildKit,
): readonly Solid[] {
  if (sizes.screwed === null) return [];
  const { seat, at } = sizes.screwed;
  const holes = { seat, at, mouth: sizes.tabThickness, sink: 0, clear: sizes.thickness };
  return screwHoleTools(holes, plan, { bore, top: skin, under }, kit).map((tool) =>
    tool.rotate('x', Math.PI).translate([0, 0, sizes.thickness]),
  );
}
