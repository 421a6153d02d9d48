import type { DimensionNote, DrawingNotes, DrawnLine } from '../../core/part/drawing-notes.js';
import type { Vec3 } from '../../core/solid/types.js';
import type { RudderSizes } from './sizes.js';
import { innerCorner, outerHalf } from './strap-shape.js';

/** Seen along the pin from above, and from the side; a gudgeon cut through its hole. For the finished part. */
export function rudderDrawing(s: RudderSizes): DrawingNotes {
  const strap = s.mount === 'strap';
  const half = strap ? outerHalf(s) : s.reach;
  const end = strap ? s.standOff + s.reach : s.standOff;
  const top = s.width;
  const height = s.castPin ? s.width + s.pintleLength : s.width;
  const past = 0.05 * Math.max(half, end) + 1.5;
  const chain = (...points: Vec3[]): DrawnLine => ({ kind: 'chain', points });
  const mouth = s.seat.mouthDiameter / 2;
  const r = s.bossRadius;
  const screw: DimensionNote[] = strap
    ? [
        ...s.screwsAt.map(
          ([x]): DimensionNote => ({
            of: x,
            from: [0, -half, 0],
            to: [x, -half, s.width / 2],
            side: 'below',
          }),
        ),
        {
          of: ['d_s', 'D_s'],
          form: `${s.screwsAt.length === 1 ? '' : `${s.screwsAt.length} × `}Ø{}${s.castPin ? ' / Ø{}' : ', Ø{} in the other strap'}`,
          at: [s.screwsAt[0]![0], -half, s.width / 2],
          // A cut takes the strap with the heads away.
          radius: s.castPin ? mouth : s.seat.holeDiameter / 2,
        },
      ]
    : [];
  const plateScrews: DimensionNote[] = strap
    ? []
    : [
        ...s.screwsAt
          .filter(([y]) => y > 0)
          .map(
            ([y]): DimensionNote => ({
              of: 2 * y,
              from: [s.front, -y, s.width / 2],
              to: [s.front, y, s.width / 2],
              side: 'below',
            }),
          ),
        {
          of: ['d_s', 'D_s'],
          form: `${s.screwsAt.length} × Ø{} / Ø{}`,
          at: [s.front, s.screwsAt[0]![0], s.width / 2],
          radius: mouth,
        },
      ];
  const plan: DimensionNote[] = [
    { of: 'd_b', form: 'Ø{}', at: [0, 0, top], radius: r, outward: [-1, 1, 0] },
    ...(s.castPin ? [] : [{ of: 'd_h', form: 'Ø{}', at: [0, 0, top], radius: s.holeDiameter / 2 } as const]),
    { of: 's_o', from: [0, 0, top], to: [s.standOff, 0, top], side: 'above' },
    { of: 'b_o', from: [end, -half, top], to: [end, half, top], side: 'right' },
    ...(strap
      ? ([
          { of: 'b', from: [end, -s.wood / 2, top], to: [end, s.wood / 2, top], side: 'right' },
          { of: 'l', from: [-r, 0, top], to: [end, 0, top], side: 'below' },
          { of: 't', from: [end, s.wood / 2, top], to: [end, half, top], side: 'right' },
          {
            of: innerCorner(s),
            form: 'R{}',
            at: [
              s.standOff + innerCorner(s) * (1 - Math.SQRT1_2),
              s.wood / 2 - innerCorner(s) * (1 - Math.SQRT1_2),
              top,
            ],
            outward: [1, -1, 0],
          },
        ] as const)
      : ([{ of: 't', from: [s.front, half, top], to: [s.standOff, half, top], side: 'above' }] as const)),
  ];
  const side: DimensionNote[] = [
    { of: 'w', from: [end, 0, 0], to: [end, 0, top], side: 'right' },
    ...(s.castPin
      ? ([
          {
            of: 'd',
            form: 'Ø{}',
            from: [-s.pinDiameter / 2, 0, height],
            to: [s.pinDiameter / 2, 0, height],
            side: 'above',
          },
          {
            of: s.pinFillet,
            form: 'R{}',
            at: [
              s.pinDiameter / 2 + s.pinFillet * (1 - Math.SQRT1_2),
              0,
              top + s.pinFillet * (1 - Math.SQRT1_2),
            ],
            outward: [1, 0, 1],
          },
          { of: 'l_p', from: [-s.pinDiameter / 2, 0, top], to: [0, 0, height], side: 'left' },
        ] as const)
      : [
          {
            of: s.chamfer,
            form: '{} × 45°',
            at: [
              -(s.holeDiameter + s.chamfer) / 2,
              0,
              s.piece === 'gudgeon' ? top - s.chamfer / 2 : s.chamfer / 2,
            ],
            outward: [-1, 0, s.piece === 'gudgeon' ? 1 : -1],
          } as const,
        ]),
  ];
  return {
    views: [
      {
        from: '-y',
        ...(s.castPin ? {} : { cut: 0 }),
        extra: [chain([0, 0, -past], [0, 0, height + past])],
        dimensions: [...side, ...screw],
      },
      {
        from: '+z',
        extra: [
          chain([-r - past, 0, top], [r + past, 0, top]),
          chain([0, -r - past, top], [0, r + past, top]),
        ],
        dimensions: plan,
      },
      ...(strap ? [] : [{ from: '-x', dimensions: plateScrews } as const]),
    ],
  };
}
