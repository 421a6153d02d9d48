import { maths } from '../../core/maths/maths.js';
import type { Dimension } from '../../core/part/contract.js';
import { lengthDimension as size } from '../../core/part/dimension.js';
import type { DimensionNote, DrawingNotes } from '../../core/part/drawing-notes.js';
import { noStock, type Stock } from '../../core/part/stock.js';
import { offsetOutline, outlinePolygon } from '../../core/shape/index.js';
import type { Vec3 } from '../../core/solid/types.js';
import { openingOutline } from './body.js';
import { cupSide, type DishSide, flareEnd, floorEdge, recessSide, straightOf, wallAt } from './profile.js';
import type { FlushPullSizes } from './sizes.js';

/** Heights at which recess and cup are measured: half way up their straight walls. */
export const measuredAt = (side: DishSide): number => (straightOf(side)[0] + straightOf(side)[1]) / 2;

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

/** The sizes to check on a flush pull, as they are in this state. @param hole as cast, mm; 0 where it is left for the drill */
export function flushDimensions(s: FlushPullSizes, stock: Stock, hole: number): readonly Dimension[] {
  const { skin, mating, face } = stock;
  const [recess, cup] = [recessSide(s, stock), cupSide(s, stock)];
  const under = s.top - measuredAt(recessSide(s, noStock));
  const inside = wallAt(recess, s.top - under);
  const over = s.top - measuredAt(cupSide(s, noStock));
  const outside = wallAt(cup, s.top - over);
  const [x, y] = s.screws[0]!;
  const apart = s.screws.length === 2 ? 'screws apart' : 'screws apart, along';
  return [
    size('L', 'length of the plate', s.plateLength + 2 * skin, 'xy', 'calliper'),
    size('B', 'width of the plate', s.plateWidth + 2 * skin, 'xy', 'calliper'),
    size('t_p', 'thickness of the plate', s.plateThickness + face + mating, 'z', 'micrometer at the edge'),
    size('h', 'overall height', s.top + face + skin, 'z', 'height gauge'),
    size('h_r', 'depth of the recess', s.recessDepth + face - skin, 'z', 'depth gauge from the face'),
    size('t_w', 'thickness of the floor', s.wall + 2 * skin, 'z', 'thickness calliper in the middle'),
    size(
      'l_m',
      'length of the recess, half way down its wall',
      s.recessLength + 2 * inside,
      'xy',
      `inside calliper, ${mm(under + face)} under the face`,
    ),
    size(
      'b_m',
      'width of the recess, half way down its wall',
      s.recessWidth + 2 * inside,
      'xy',
      `inside calliper, ${mm(under + face)} under the face`,
    ),
    size(
      'b_c',
      'width of the cup, half way down its wall',
      s.recessWidth + 2 * outside,
      'xy',
      `calliper, ${mm(over + face)} under the face`,
    ),
    size('a_x', apart, 2 * x, 'xy', 'calliper between centres'),
    ...(y > 0 ? [size('a_y', 'screws apart, across', 2 * y, 'xy', 'calliper between centres')] : []),
    size('d_s', 'screw hole diameter', hole, 'xy', 'plug gauge; 0 where it is left for the drill'),
  ];
}

/** Lengthwise section, plan and cross section of the finished pull. */
export function flushDrawing(s: FlushPullSizes): DrawingNotes {
  const recess = recessSide(s, noStock);
  const [endX, endY] = [s.plateLength / 2, s.plateWidth / 2];
  const past = 0.04 * s.plateLength;
  const down = measuredAt(recess);
  const cupDown = measuredAt(cupSide(s, noStock));
  const inside = wallAt(recess, down);
  const outside = s.recessWidth / 2 + wallAt(cupSide(s, noStock), cupDown);
  const [x, y] = s.screws[0]!;
  const chain = (...points: Vec3[]) => ({ kind: 'chain' as const, points });
  const length = (
    of: string,
    from: Vec3,
    to: Vec3,
    side: 'above' | 'below' | 'left' | 'right',
  ): DimensionNote => ({
    of,
    from,
    to,
    side,
  });
  const half = s.recessLength / 2 + inside;
  const across = s.recessWidth / 2 + inside;
  const degrees = Number(((s.draft * 180) / Math.PI).toFixed(1));
  const corner = filletCorner(recess, s.recessWidth / 2);
  return {
    views: [
      {
        from: '-y',
        cut: 0,
        extra: [
          chain([0, 0, -past], [0, 0, s.top + past]),
          ...(y === 0 ? [x, -x].map((at) => chain([at, 0, s.under - past], [at, 0, s.top + past])) : []),
        ],
        dimensions: [
          length('h', [-endX, 0, 0], [-endX, 0, s.top], 'left'),
          length('t_p', [endX, 0, s.under], [endX, 0, s.top], 'right'),
          length('l_m', [-half, 0, down], [half, 0, down], 'above'),
          length('t_w', [-s.recessLength / 6, 0, 0], [-s.recessLength / 6, 0, s.wall], 'left'),
        ],
      },
      {
        from: '+z',
        extra: [
          chain([-endX - past, 0, s.top], [endX + past, 0, s.top]),
          chain([0, -endY - past, s.top], [0, endY + past, s.top]),
          smoothEdge(s, flareEnd(recess), s.top),
          smoothEdge(s, floorEdge(recess), s.wall),
        ],
        dimensions: [
          length('L', [-endX, 0, s.top], [endX, 0, s.top], 'below'),
          length('a_x', [-x, -y, s.top], [x, -y, s.top], 'below'),
          length('B', [0, -endY, s.top], [0, endY, s.top], 'right'),
          ...(y > 0 ? [length('a_y', [-x, -y, s.top], [-x, y, s.top], 'left')] : []),
          {
            of: 'd_s',
            form: `${s.screws.length} × Ø{}`,
            at: [-x, y, s.top],
            radius: s.seat.holeDiameter / 2,
          },
        ],
      },
      {
        from: '-x',
        cut: 0,
        extra: [chain([0, 0, -past], [0, 0, s.top + past])],
        dimensions: [
          length('b_m', [0, -across, down], [0, across, down], 'above'),
          length('b_c', [0, -outside, cupDown], [0, outside, cupDown], 'below'),
          length('h_r', [0, endY, s.top], [0, 0, s.wall], 'right'),
          { of: s.floorFillet, form: 'R{}', at: [0, corner[0], corner[1]], outward: [0, -1, 1] },
          ...(degrees > 0
            ? [{ of: degrees, form: 'draft {}°', at: [0, -across, down] as Vec3, outward: [0, 1, 1] as Vec3 }]
            : []),
        ],
      },
    ],
  };
}

/** Where a rounding runs into a face: no edge of the metal, drawn thin (ISO 128-2). */
const smoothEdge = (s: FlushPullSizes, outset: number, z: number) => ({
  kind: 'thin' as const,
  closed: true,
  points: outlinePolygon(offsetOutline(openingOutline(s), outset), 0.02).map(([x, y]): Vec3 => [x, y, z]),
});

/** Middle of the fillet at the floor of a section whose opening reaches so far from the axis: [from the axis, z]. */
function filletCorner(side: DishSide, half: number): readonly [number, number] {
  const middle = -(Math.PI / 4 + side.draft / 2);
  const z = side.low + side.round;
  const centre = half + wallAt(side, z) - side.round / maths.cos(side.draft);
  return [centre + side.round * maths.cos(middle), z + side.round * maths.sin(middle)];
}
