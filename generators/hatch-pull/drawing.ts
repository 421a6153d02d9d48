import type { DimensionNote, DrawingNotes, DrawnLine, LengthNote } from '../../core/part/drawing-notes.js';
import type { Vec3 } from '../../core/solid/types.js';
import type { PullState } from './levels.js';

/** A cut along the middle with the pin's hole and the lip, and the plan of the underside. For the finished part. */
export function pullDrawing(state: PullState): DrawingNotes {
  const past = 0.04 * (state.tabEnd + state.freeEnd);
  const chain = (...points: Vec3[]): DrawnLine => ({ kind: 'chain', points });
  const { plan, pinX, holeRadius: r, top } = state;
  const middle = top / 2;
  const tab = plan.tabHalf;
  const side = plan.halfY + plan.outer + past;
  return {
    views: [
      {
        from: '-y',
        cut: 0,
        extra: [
          chain([-pinX - 1.4 * r, 0, middle], [-pinX + 1.4 * r, 0, middle]),
          chain([-pinX, 0, -past], [-pinX, 0, top + past]),
          ...lipPlane(state),
        ],
        dimensions: sectionDimensions(state),
      },
      {
        from: '+z',
        extra: [
          { kind: 'hidden', points: [-tab, tab].map((y): Vec3 => [-pinX - r, y, middle]) },
          { kind: 'hidden', points: [-tab, tab].map((y): Vec3 => [-pinX + r, y, middle]) },
          chain([-pinX, -tab - past, middle], [-pinX, tab + past, middle]),
          chain([0, -side, top], [0, side, top]),
        ],
        dimensions: planDimensions(state),
      },
    ],
  };
}

/** The lip's plane, drawn on to the free end. */
const lipPlane = ({ lip, freeEnd, top }: PullState): readonly DrawnLine[] =>
  lip
    ? [
        {
          kind: 'thin',
          points: [
            [lip.crease, 0, top],
            [freeEnd, 0, lip.edgeThickness],
          ],
        },
      ]
    : [];

function sectionDimensions(state: PullState): readonly DimensionNote[] {
  const { plan, pinX, tabEnd, freeEnd, holeRadius, top, leg, lip } = state;
  const middle = top / 2;
  const eye = plan.halfX + plan.inner;
  const across = (of: string, from: number, to: number, z: number, side: 'above' | 'below'): LengthNote => ({
    of,
    from: [from, 0, z],
    to: [to, 0, z],
    side,
  });
  return [
    { of: 't', from: [leg - tabEnd, 0, 0], to: [leg - tabEnd, 0, top], side: 'left' },
    across('e_p', -tabEnd, -pinX, middle, 'below'),
    across('a_p', -pinX, -eye, middle, 'below'),
    across('b_r', eye, freeEnd, leg, 'below'),
    { of: 'd_h', form: 'Ø{}', at: [-pinX, 0, middle], radius: holeRadius },
    ...(leg > 0
      ? [
          {
            of: 'c',
            form: '{} × 45°',
            at: [leg / 2 - tabEnd, 0, top - leg / 2] as const,
            outward: [-1, 0, 1] as const,
          },
        ]
      : []),
    ...(lip
      ? [
          across('l_l', lip.crease, freeEnd, top, 'above'),
          {
            of: 't_l',
            from: [freeEnd, 0, 0] as const,
            to: [freeEnd, 0, lip.edgeThickness] as const,
            side: 'right' as const,
          },
          {
            of: 'θ_l',
            corner: [lip.crease, 0, top] as const,
            legs: [
              [freeEnd, 0, top],
              [freeEnd, 0, lip.edgeThickness],
            ] as const,
          },
        ]
      : []),
  ];
}

function planDimensions({ plan, tabEnd, freeEnd, top, sideLeg }: PullState): readonly DimensionNote[] {
  const upright = (of: string, half: number, x: number, side: 'left' | 'right'): LengthNote => ({
    of,
    from: [x, -half, top],
    to: [x, half, top],
    side,
  });
  const eye = plan.halfX + plan.inner;
  const corner = (Math.PI / 2 + plan.filletEnd) / 2;
  return [
    { of: 'l', from: [-tabEnd, 0, top], to: [freeEnd, 0, top], side: 'below' },
    { of: 'l_e', from: [-eye, 0, top], to: [eye, 0, top], side: 'above' },
    upright('b', plan.halfY + plan.outer, 0, 'right'),
    upright('w_e', plan.halfY + plan.inner, 0, 'right'),
    upright('b_t', plan.tabHalf, sideLeg - tabEnd, 'left'),
    {
      of: 'r_f',
      form: 'R{}',
      at: [
        plan.fillet * Math.cos(corner) - plan.filletX,
        plan.fillet * Math.sin(corner) - plan.tabHalf - plan.fillet,
        top,
      ],
      outward: [-Math.cos(corner), -Math.sin(corner), 0],
    },
  ];
}
