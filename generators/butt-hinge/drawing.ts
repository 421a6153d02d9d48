import type { DimensionNote, DrawingNotes, DrawnLine } from '../../core/part/drawing-notes.js';
import type { Vec3 } from '../../core/solid/types.js';
import { filletCentre } from '../hinge/knuckle-section.js';
import { knuckleSpans, type LeafSide, notchSpans, type Span } from '../hinge/knuckles.js';
import { axisHeight, faceHeight } from './body.js';
import type { ButtHingeSizes } from './sizes.js';

/** The leaf from above, on its back, and cut through a knuckle. For the finished part. */
export function leafDrawing(s: ButtHingeSizes, side: LeafSide): DrawingNotes {
  const { section, length, holeDiameter } = s;
  const [axis, face] = [axisHeight(s), faceHeight(s)];
  const r = section.barrelRadius;
  const back = axis - section.backDrop;
  const past = 0.04 * length;
  const half = length / 2;
  const chain = (...points: Vec3[]): DrawnLine => ({ kind: 'chain', points });
  const spans = knuckleSpans(s.row, side);
  const own = spans[0]!;
  const cut = cutPlace(s, spans);
  const notch = notchSpans(s.row, side).find(([from, to]) => from > -half && to < half);
  const [fx, fz] = filletCentre(section);
  const hole = s.screwsAt[0];
  const section2: DimensionNote[] = [
    { of: 't', from: [section.reach, cut, back], to: [section.reach, cut, face], side: 'right' },
    { of: 'd_k', form: 'Ø{}', at: [0, cut, axis], radius: r, outward: [-1, 0, 1] },
    { of: 'd_h', form: 'Ø{}', at: [0, cut, axis], radius: holeDiameter / 2 },
    { of: 'h_f', from: [section.reach, cut, face], to: [0, cut, axis + r], side: 'right' },
    {
      of: section.fillet,
      form: 'R{}',
      at: [fx - section.fillet * Math.SQRT1_2, cut, axis + fz - section.fillet * Math.SQRT1_2],
      outward: [1, 0, 1],
    },
  ];
  return {
    views: [
      {
        from: '-y',
        cut,
        extra: [
          chain([-r - past, cut, axis], [r + past, cut, axis]),
          chain([0, cut, axis - r - past], [0, cut, axis + r + past]),
        ],
        dimensions: section2,
      },
      {
        from: '+z',
        extra: [
          chain([0, -half - past, axis], [0, half + past, axis]),
          ...spans.flatMap(([from, to]): DrawnLine[] =>
            [-1, 1].map((hand) => ({
              kind: 'hidden',
              points: [
                [(hand * holeDiameter) / 2, from, axis],
                [(hand * holeDiameter) / 2, to, axis],
              ],
            })),
          ),
          ...s.screwsAt.flatMap(([x, y]): DrawnLine[] => {
            const reach = s.screw.seat.mouthDiameter / 2 + 0.5 * past;
            return [
              chain([x - reach, y, face], [x + reach, y, face]),
              chain([x, y - reach, face], [x, y + reach, face]),
            ];
          }),
        ],
        dimensions: [
          { of: 'l', from: [section.reach, -half, face], to: [section.reach, half, face], side: 'right' },
          { of: 'b_l', from: [0, -half, face], to: [section.reach, -half, face], side: 'below' },
          { of: 'l_k', from: [-r, own[0], axis], to: [-r, own[1], axis], side: 'left' },
          ...(notch
            ? [
                {
                  of: 'w_n',
                  from: [-r, notch[0], axis],
                  to: [-r, notch[1], axis],
                  side: 'left',
                } as const,
              ]
            : []),
          { of: 'a_n', from: [0, half, face], to: [s.notchFloor, half, face], side: 'above' },
          ...(hole
            ? [
                {
                  of: ['d_s', 'D_s'],
                  form: `${s.screwsAt.length === 1 ? '' : `${s.screwsAt.length} × `}Ø{} / Ø{}`,
                  at: [hole[0], hole[1], face],
                  radius: s.screw.seat.mouthDiameter / 2,
                } as const,
                ...screwPositions(s, face),
              ]
            : []),
        ],
      },
    ],
  };
}

/** Through a knuckle, clear of the screws where it can be. */
function cutPlace(s: ButtHingeSizes, spans: readonly Span[]): number {
  const clear = (y: number): number => Math.min(...s.screwsAt.map(([, at]) => Math.abs(at - y)), 1e3);
  const places = spans.flatMap(([from, to]) => [0.5, 0.3, 0.7].map((share) => from + share * (to - from)));
  return places.find((y) => clear(y) > s.screw.seat.mouthDiameter / 2) ?? places[0]!;
}

/** Where the screws are: across from the pin's axis, along from one end. */
function screwPositions(s: ButtHingeSizes, z: number): readonly DimensionNote[] {
  const half = s.length / 2;
  const columns = [...new Set(s.screwsAt.map(([x]) => Number(x.toFixed(6))))].sort((a, b) => a - b);
  const rows = [...new Set(s.screwsAt.map(([, y]) => Number(y.toFixed(6))))].sort((a, b) => a - b);
  return [
    ...columns.map((x): DimensionNote => ({ of: x, from: [0, half, z], to: [x, half, z], side: 'above' })),
    ...rows.map(
      (y): DimensionNote => ({
        of: y + half,
        from: [s.section.reach, -half, z],
        to: [s.section.reach, y, z],
        side: 'right',
      }),
    ),
  ];
}
