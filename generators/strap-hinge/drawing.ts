import type { DimensionNote, DrawingNotes, DrawnLine } from '../../core/part/drawing-notes.js';
import type { Vec3 } from '../../core/solid/types.js';
import { filletCentre } from '../hinge/knuckle-section.js';
import { knuckleSpans } from '../hinge/knuckles.js';
import { leafPlanLines } from '../hinge/plan-lines.js';
import { faceHeight, leafOutlineOf, type StrapLeaf, screwsOf, sideOf } from './body.js';
import type { StrapHingeSizes } from './sizes.js';

/** Strap or plate from above, on its back, and cut through a knuckle. For the finished part. */
export function strapDrawing(s: StrapHingeSizes, leaf: StrapLeaf): DrawingNotes {
  const axis = s.barrelRadius;
  const face = faceHeight(s);
  const r = s.barrelRadius;
  const reach = leaf === 'plate' ? s.plateWidth : s.length;
  const half = s.rootWidth / 2;
  const past = 0.03 * Math.max(reach, 2 * half) + 1;
  const chain = (...points: Vec3[]): DrawnLine => ({ kind: 'chain', points });
  const spans = knuckleSpans(s.row, sideOf(leaf));
  const own = spans[0]!;
  const at = screwsOf(s, leaf);
  const mouth = s.screw.seat.mouthDiameter / 2;
  const places = spans.flatMap(([from, to]) => [0.5, 0.25, 0.75].map((share) => from + share * (to - from)));
  const cut = places.find((y) => at.every(([, sy]) => Math.abs(sy - y) > mouth)) ?? (places[1] as number);
  const { fillet } = s.strapSection;
  const [fx, fz] = filletCentre(s.strapSection);
  const hole = at[0];
  const plan: DimensionNote[] =
    leaf === 'strap'
      ? [
          { of: 'l_s', from: [0, -half, face], to: [s.length, 0, face], side: 'below' },
          { of: 'b_r', from: [s.taperStart, -half, face], to: [s.taperStart, half, face], side: 'left' },
          {
            of: 's_t',
            form: 'Ø{}',
            at: [s.length - s.tipRadius, 0, face],
            radius: s.tipRadius,
            outward: [1, 1, 0],
          },
          ...at.map(
            ([x]): DimensionNote => ({ of: x, from: [0, half, face], to: [x, 0, face], side: 'above' }),
          ),
        ]
      : [
          { of: 'b_p', from: [0, -half, face], to: [reach, -half, face], side: 'below' },
          { of: 'b_r', from: [-r, -s.rootWidth / 2, axis], to: [-r, s.rootWidth / 2, axis], side: 'left' },
          ...[...new Set(at.map(([x]) => x))].map(
            (x): DimensionNote => ({ of: x, from: [0, half, face], to: [x, half, face], side: 'above' }),
          ),
          ...[...new Set(at.map(([, y]) => y))].map(
            (y): DimensionNote => ({
              of: y + half,
              from: [reach, -half, face],
              to: [reach, y, face],
              side: 'right',
            }),
          ),
        ];
  return {
    views: [
      {
        from: '+z',
        lines: [
          ...leafPlanLines(
            leafOutlineOf(s, leaf),
            {
              row: s.row,
              side: sideOf(leaf),
              section: s.strapSection,
              floor: s.notchFloor,
              radius: s.notchRadius,
            },
            face,
          ),
          ...at.flatMap(([x, y]): DrawnLine[] =>
            [mouth, s.screw.seat.holeDiameter / 2].map((radius) => ({
              kind: 'visible',
              centre: [x, y, face],
              radius,
            })),
          ),
        ],
        extra: [
          chain([0, -s.rootWidth / 2 - past, axis], [0, s.rootWidth / 2 + past, axis]),
          ...spans.flatMap(([from, to]): DrawnLine[] =>
            [-1, 1].map((hand) => ({
              kind: 'hidden',
              points: [
                [(hand * s.holeDiameter) / 2, from, axis],
                [(hand * s.holeDiameter) / 2, to, axis],
              ],
            })),
          ),
          ...at.flatMap(([x, y]): DrawnLine[] => [
            chain([x - mouth - 1.5, y, face], [x + mouth + 1.5, y, face]),
            chain([x, y - mouth - 1.5, face], [x, y + mouth + 1.5, face]),
          ]),
        ],
        dimensions: [
          ...plan,
          { of: 'l_k', from: [-r, own[0], axis], to: [-r, own[1], axis], side: 'left' },
          {
            of: 'a_n',
            from: [0, leaf === 'plate' ? 0 : half, face],
            to: [s.notchFloor, leaf === 'plate' ? 0 : half, face],
            side: 'above',
          },
          ...(hole
            ? [
                {
                  of: ['d_s', 'D_s'],
                  form: `${at.length === 1 ? '' : `${at.length} × `}Ø{} / Ø{}`,
                  at: [hole[0], hole[1], face],
                  radius: mouth,
                } as const,
              ]
            : []),
        ],
      },
      {
        from: '-y',
        cut,
        extra: [
          chain([-r - past, cut, axis], [r + past, cut, axis]),
          chain([0, cut, axis - r - past], [0, cut, axis + r + past]),
        ],
        dimensions: [
          { of: 't', from: [reach, cut, 0], to: [reach, cut, face], side: 'right' },
          { of: 'd_k', form: 'Ø{}', at: [0, cut, axis], radius: r, outward: [-1, 0, 1] },
          { of: 'd_h', form: 'Ø{}', at: [0, cut, axis], radius: s.holeDiameter / 2 },
          { of: 'h_f', from: [reach, cut, face], to: [0, cut, axis + r], side: 'right' },
          {
            of: fillet,
            form: 'R{}',
            at: [fx - fillet * Math.SQRT1_2, cut, axis + fz - fillet * Math.SQRT1_2],
            outward: [1, 0, 1],
          },
        ],
      },
    ],
  };
}
