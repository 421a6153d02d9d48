import { maths } from '../../core/maths/maths.js';
import {
  arc,
  type LinePiece,
  line,
  type Outline,
  type OutlinePiece,
  pieceEnd,
} from '../../core/shape/index.js';

/**
 * The plan of a ring with a tab, seen from above, eye centre at the origin, tab towards −X. Eye and rim are drawn round the same four
 * centres (±halfX, ±halfY), so that every offset of them keeps its centres.
 */
export interface PullPlan {
  readonly halfX: number;
  readonly halfY: number;
  /** Radii of eye and rim about the centres, mm. */
  readonly inner: number;
  readonly outer: number;
  readonly tabHalf: number;
  readonly fillet: number;
  /** Centres of the fillets between tab and rim: (−filletX, ±(tabHalf + fillet)). */
  readonly filletX: number;
  /** Direction from the lower fillet's centre to where it leaves for the rim, radians, 0 to π/2. */
  readonly filletEnd: number;
}

/** What the plan of a ring with a tab follows from, mm. */
export interface RingPlanSizes {
  /** Clear opening across the pull (along the pin). */
  readonly eyeWidth: number;
  /** Clear opening along the pull. */
  readonly eyeLength: number;
  readonly rimWidth: number;
  readonly tabWidth: number;
  /** Inside corners between tab and rim. */
  readonly filletRadius: number;
}

/** Where the arcs of the plan have their centres. For a tab wider than the rim the fillet is given as none. */
export function planOf(s: RingPlanSizes): PullPlan {
  const inner = Math.min(s.eyeWidth, s.eyeLength) / 2;
  const half = (total: number): number => (total / 2 - inner < 5e-4 ? 0 : total / 2 - inner);
  const [halfX, halfY] = [half(s.eyeLength), half(s.eyeWidth)];
  const outer = inner + s.rimWidth;
  const [tabHalf, fillet] = [s.tabWidth / 2, s.filletRadius];
  // The fillet's centre is `fillet` from the tab's side and from the rim: from its arc, or from its straight back.
  const rise = tabHalf + fillet - halfY;
  const reach = outer + fillet;
  const onArc = rise > 0 && rise < reach;
  const along = onArc ? Math.sqrt(reach * reach - rise * rise) : rise <= 0 ? reach : 0;
  return {
    halfX,
    halfY,
    inner,
    outer,
    tabHalf,
    fillet,
    filletX: halfX + along,
    filletEnd: onArc ? maths.atan2(rise, along) : rise <= 0 ? 0 : Math.PI / 2,
  };
}

/** Lower half of a tab's end, from its middle to the tab's side: square with rounded corners. */
export const squareEnd = (tabEnd: number, h: number, corner: number): Outline => [
  line([-tabEnd, 0], [-tabEnd, corner - h]),
  arc([corner - tabEnd, corner - h], corner, Math.PI, Math.PI / 2),
];

/**
 * The plan's outline, arcs tangent throughout. `end` is the lower half of the tab's end, from its middle at
 * x = −tabEnd to the tab's side. The checks must have passed: the tab narrower than the ring and long enough for its end and fillets.
 */
export function ringOutline(
  plan: PullPlan,
  tabEnd: number,
  corner: number,
  end: Outline = squareEnd(tabEnd, plan.tabHalf, corner),
): Outline {
  const { halfX, halfY, outer, tabHalf: h, fillet: f, filletX, filletEnd } = plan;
  const half = Math.PI / 2;
  // The lower half from the middle of the tab's end to the middle of the free end.
  const below: OutlinePiece[] = [
    ...end,
    line(pieceEnd(end[end.length - 1]!), [-filletX, -h]),
    arc([-filletX, -(h + f)], f, half, filletEnd - half),
    line([-halfX - outer, -(h + f)], [-halfX - outer, -halfY]),
    arc([-halfX, -halfY], outer, Math.PI + filletEnd, half - filletEnd),
    line([-halfX, -halfY - outer], [halfX, -halfY - outer]),
    arc([halfX, -halfY], outer, -half, half),
    line([halfX + outer, -halfY], [halfX + outer, 0]),
  ].filter(
    (piece) => length(piece) > 1e-9 && !(piece.kind === 'line' && filletEnd > 0 && isBack(piece, plan)),
  );
  return closeBelow(below);
}

/** An outline symmetrical about the X axis from its lower half. */
export const closeBelow = (below: Outline): Outline => [...below, ...below.map(mirrored).reverse()];

/** The straight between a fillet and the ring's arc is there only where the fillet ends on the ring's straight back. */
const isBack = ({ from, to }: LinePiece, { halfX, outer }: PullPlan): boolean =>
  from[0] === to[0] && from[0] === -halfX - outer;

const length = (piece: OutlinePiece): number =>
  piece.kind === 'line'
    ? maths.hypot(piece.to[0] - piece.from[0], piece.to[1] - piece.from[1])
    : piece.radius * Math.abs(piece.sweep);

/** The piece seen in the X axis, run the other way. */
const mirrored = (piece: OutlinePiece): OutlinePiece =>
  piece.kind === 'line'
    ? line([piece.to[0], -piece.to[1]], [piece.from[0], -piece.from[1]])
    : arc([piece.centre[0], -piece.centre[1]], piece.radius, -(piece.start + piece.sweep), piece.sweep);
