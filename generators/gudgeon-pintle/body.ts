import { maths } from '../../core/maths/maths.js';
import type { BuildKit } from '../../core/part/contract.js';
import { isNoStock, type Stock } from '../../core/part/stock.js';
import { bevelEdge, holeCutter, placeTool, plateSolid, roundEdge } from '../../core/shape/index.js';
import { segmentsOfCircle } from '../../core/solid/segments.js';
import type { Solid, Vec2, Vec3 } from '../../core/solid/types.js';
import type { ScrewHolePlan } from '../hardware/screw-holes.js';
import type { BorePlan } from '../hinge/pin-bore.js';
import { planOutline } from './outline.js';
import type { RudderSizes } from './sizes.js';
import { outerHalf } from './strap-shape.js';

/**
 * Leg of the pin's tip, mm across: its taper leads it into the gudgeon. A casting has none, for the sprue stands there;
 * it is turned with the pin.
 */
export const tipInset = ({ pinDiameter }: RudderSizes, stock: Stock): number =>
  isNoStock(stock) ? 0.2 * pinDiameter : 0;

/** The bevel at the lower edges, which prints without support where a rounding would not. */
export const lowerBevel = ({ edge }: RudderSizes): number => 0.7 * edge;

/**
 * Pintle or gudgeon in one state: z = 0 the lower face, the bearing face at z = width up, with the pin, if it is cast,
 * standing on it. The checks must have passed.
 */
export function rudderSolid(
  s: RudderSizes,
  stock: Stock,
  plans: { readonly bore: BorePlan; readonly holes: ScrewHolePlan },
  kit: BuildKit,
): Solid {
  const { kernel, tolerance } = kit;
  const body = plateSolid(
    kernel,
    {
      outline: planOutline(s),
      z0: 0,
      z1: s.width,
      topEdge: roundEdge(s.edge),
      bottomEdge: bevelEdge(lowerBevel(s)),
    },
    tolerance,
    { side: stock.skin, top: stock.face, bottom: stock.skin },
  );
  const whole = s.castPin ? body.add(pinSolid(s, stock, kit)) : body;
  const tools = [...boreTool(s, stock, plans.bore, kit), ...screwTools(s, stock, plans.holes, kit)];
  return tools.length === 0 ? whole : whole.subtract(...tools);
}

/** Fillet at the pin's root in a state, mm. */
export const rootFilletIn = (s: RudderSizes, { mating, face }: Stock): number =>
  s.pinFillet - Math.min(mating, face);

function pinSolid(s: RudderSizes, stock: Stock, { kernel, tolerance }: BuildKit): Solid {
  const r = s.pinDiameter / 2 + stock.mating;
  const f = rootFilletIn(s, stock);
  const root = s.width + stock.face;
  const top = s.width + s.pintleLength + stock.mating;
  const inset = tipInset(s, stock);
  const chords = Math.max(3, Math.ceil(segmentsOfCircle(f, tolerance) / 4));
  const fillet = Array.from({ length: chords }, (_, i): Vec2 => {
    const a = ((i + 1) / chords) * (Math.PI / 2);
    return [r + f - f * maths.sin(a), root + f - f * maths.cos(a)];
  });
  // The fillet's last chord goes on into the body, so that it meets the face at an angle.
  const under = s.width / 2;
  return kernel.revolve(
    [
      [0, under],
      [r + f + 0.3, under],
      [r + f + 0.3, root - 0.01],
      ...fillet,
      ...(inset > 0 ? [[r, top - 1.75 * inset] as const] : []),
      [r - inset, top],
      [0, top],
    ],
    tolerance,
  );
}

/**
 * The hole for the pin: a gudgeon's from its bearing face, with room for the root of the pintle's pin; a pintle's for a
 * pin of rod from the lower face, with a seat to rivet it over into. Cones to start a drill in are in the bearing face.
 */
function boreTool(
  s: RudderSizes,
  stock: Stock,
  plan: BorePlan,
  { kernel, tolerance }: BuildKit,
): readonly Solid[] {
  if (s.castPin || plan.form === 'solid') return [];
  const fromTop = { bore: stock.bore, face: stock.face, farFace: stock.skin };
  const bearing: Vec3 = [0, 0, s.width];
  if (plan.form === 'dimples') {
    const cone = holeCutter(kernel, drillCone(s.holeDiameter), tolerance, { ...fromTop, bore: 0 });
    return cone === null ? [] : [cone.translate(bearing)];
  }
  const hole = {
    kind: 'countersunk',
    diameter: s.holeDiameter,
    depth: s.width,
    headDiameter: s.holeDiameter + 2 * s.chamfer,
    angle: Math.PI / 2,
  } as const;
  if (s.piece === 'gudgeon') {
    const tool = holeCutter(kernel, hole, tolerance, fromTop);
    return tool === null ? [] : [tool.translate(bearing)];
  }
  const fromUnder = { bore: stock.bore, face: stock.skin, farFace: stock.face };
  const tool = holeCutter(kernel, hole, tolerance, fromUnder);
  return tool === null ? [] : [placeTool(tool, [0, 0, 0], [0, 0, -1])];
}

/** A cone, 90°, to start a drill for a hole in. */
const drillCone = (holeDiameter: number) =>
  ({ kind: 'dimple', diameter: 0.6 * holeDiameter, angle: Math.PI / 2 }) as const;

interface Mouth {
  readonly at: Vec3;
  /** The way out. */
  readonly outward: Vec3;
}

/** Where the heads of the screws are: in the front of a plate, in one strap of two. */
export const headMouths = (s: RudderSizes): readonly Mouth[] =>
  s.mount === 'plate'
    ? s.screwsAt.map(([y, z]) => ({ at: [s.front, y, z], outward: [-1, 0, 0] }))
    : s.screwsAt.map(([x, z]) => ({ at: [x, -outerHalf(s), z], outward: [0, -1, 0] }));

/** Where bolts come out of the other strap, for their nuts. */
export const nutMouths = (s: RudderSizes): readonly Mouth[] =>
  s.mount === 'plate' ? [] : s.screwsAt.map(([x, z]) => ({ at: [x, outerHalf(s), z], outward: [0, 1, 0] }));

function screwTools(
  s: RudderSizes,
  stock: Stock,
  plan: ScrewHolePlan,
  { kernel, tolerance }: BuildKit,
): readonly Solid[] {
  if (plan.form === 'solid') return [];
  const { holeDiameter: diameter, mouthDiameter: headDiameter, angle } = s.seat;
  const faces = { bore: stock.bore, face: stock.skin, farFace: stock.skin };
  const depth = s.thickness;
  const whole = plan.form === 'hole';
  const head = holeCutter(
    kernel,
    { kind: 'countersunk', diameter, depth, headDiameter, angle, ...(whole ? {} : { shank: false }) },
    tolerance,
    faces,
  );
  const nut = whole
    ? holeCutter(kernel, { kind: 'plain', diameter, depth }, tolerance, faces)
    : holeCutter(kernel, drillCone(diameter), tolerance, { ...faces, bore: 0 });
  const place = (tool: Solid | null, mouths: readonly Mouth[]): readonly Solid[] =>
    tool === null ? [] : mouths.map(({ at, outward }) => placeTool(tool, at, outward));
  return [...place(head, headMouths(s)), ...place(nut, nutMouths(s))];
}
