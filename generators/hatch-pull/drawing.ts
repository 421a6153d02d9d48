import { maths } from '../../core/maths/maths.js';
import type { DimensionNote, DrawingNotes, DrawnLine, LengthNote } from '../../core/part/drawing-notes.js';
import type { Vec2, Vec3 } from '../../core/solid/types.js';
import type { PullState } from './levels.js';
import { isPlain } from './sizes.js';

/** A cut along the middle with pin's hole or screws and the lip, and the plan. For the finished part. */
export function pullDrawing(state: PullState): DrawingNotes {
  const past = 0.04 * (state.tabEnd + state.freeEnd);
  const { plan, top } = state;
  const side = plan.halfY + plan.outer + past;
  return {
    views: [
      {
        from: '-y',
        cut: 0,
        extra: [...fastenerLines(state, 'section', past), ...lipPlane(state)],
        dimensions: sectionDimensions(state),
      },
      {
        // Of a screwed pull the show face, with its countersinks.
        from: state.sizes.screwed === null ? '+z' : '-z',
        extra: [...fastenerLines(state, 'plan', past), chain([0, -side, top], [0, side, top])],
        dimensions: planDimensions(state),
      },
    ],
  };
}

const chain = (...points: Vec3[]): DrawnLine => ({ kind: 'chain', points });

/** Centre lines of the pin's hole or the screws, and the hole's hidden edges. */
function fastenerLines(state: PullState, view: 'section' | 'plan', past: number): readonly DrawnLine[] {
  const { sizes, plan, pinX, pinZ, holeRadius: r, top } = state;
  if (sizes.screwed !== null) {
    const reach = sizes.screwed.seat.mouthDiameter / 2 + 1;
    const low = top - sizes.tabThickness;
    if (view === 'section') {
      const inCut = sizes.screwed.at.filter(([, y]) => y === 0);
      return inCut.map(([x]) => chain([x, 0, low - past], [x, 0, top + past]));
    }
    return sizes.screwed.at.flatMap(([x, y]) => [
      chain([x - reach, y, top], [x + reach, y, top]),
      chain([x, y - reach, top], [x, y + reach, top]),
    ]);
  }
  const tab = plan.tabHalf;
  if (view === 'section') {
    return [
      chain([-pinX - 1.4 * r, 0, pinZ], [-pinX + 1.4 * r, 0, pinZ]),
      chain([-pinX, 0, -past], [-pinX, 0, top + past]),
    ];
  }
  const hidden = (x: number): DrawnLine => ({
    kind: 'hidden',
    points: [-tab, tab].map((y): Vec3 => [x, y, pinZ]),
  });
  return [hidden(-pinX - r), hidden(-pinX + r), chain([-pinX, -tab - past, pinZ], [-pinX, tab + past, pinZ])];
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
  const { sizes, plan, pinX, pinZ, tabEnd, freeEnd, holeRadius, top, leg, lip } = state;
  const { screwed, thickness, tabThickness } = sizes;
  const oval = sizes.section === 'oval';
  const eye = plan.halfX + plan.inner;
  const across = (of: string, from: number, to: number, z: number, side: 'above' | 'below'): LengthNote => ({
    of,
    from: [from, 0, z],
    to: [to, 0, z],
    side,
  });
  return [
    ...(oval
      ? [
          {
            of: 't',
            from: [0.5 * (eye + freeEnd), 0, 0],
            to: [0.5 * (eye + freeEnd), 0, top],
            side: 'right',
          } as const,
          { of: 't_t', from: [-tabEnd, 0, top - tabThickness], to: [-tabEnd, 0, top], side: 'left' } as const,
          {
            of: 'r_e',
            form: 'R{}',
            at: [0.293 * sizes.edgeRadius - tabEnd, 0, top - tabThickness + 0.293 * sizes.edgeRadius],
            outward: [-1, 0, -1],
          } as const,
        ]
      : [{ of: 't', from: [leg - tabEnd, 0, 0], to: [leg - tabEnd, 0, top], side: 'left' } as const]),
    ...(screwed === null
      ? [
          across('e_p', -tabEnd, -pinX, pinZ, 'below'),
          across('a_p', -pinX, -eye, pinZ, 'below'),
          { of: 'd_h', form: 'Ø{}', at: [-pinX, 0, pinZ], radius: holeRadius } as const,
        ]
      : [across('e_s', screwed.at[0][0], -eye, thickness - tabThickness, 'below')]),
    across('b_r', eye, freeEnd, oval ? thickness / 2 : leg, 'below'),
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

/** Screws' places, their holes and countersinks, and the tab's length. */
function screwNotes({ sizes, plan, tabEnd, top }: PullState): readonly DimensionNote[] {
  const { screwed, tab } = sizes;
  if (screwed === null) return [];
  const at = ([x, y]: Vec2): Vec3 => [x, y, top];
  const [first, second] = screwed.at;
  const outward: Vec3 = [-1, 1, 0];
  return [
    { of: 'l_t', from: [-tabEnd, 0, top], to: [-plan.halfX - plan.outer, 0, top], side: 'above' },
    { of: 'a_s', from: at(second), to: at(first), side: tab === 'leaf' ? 'below' : 'left' },
    { of: 'd_s', form: '2 × Ø{}', at: at(first), radius: screwed.seat.holeDiameter / 2, outward },
    { of: 'd_c', form: '2 × Ø{}', at: at(second), radius: screwed.seat.mouthDiameter / 2, outward },
  ];
}

function planDimensions(state: PullState): readonly DimensionNote[] {
  const { sizes, plan, tabEnd, freeEnd, top, sideLeg } = state;
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
    upright('b_t', plan.tabHalf, isPlain(sizes) ? sideLeg - tabEnd : -plan.filletX - 0.3, 'left'),
    ...screwNotes(state),
    {
      of: 'r_f',
      form: 'R{}',
      at: [
        plan.fillet * maths.cos(corner) - plan.filletX,
        plan.fillet * maths.sin(corner) - plan.tabHalf - plan.fillet,
        top,
      ],
      outward: [-maths.cos(corner), -maths.sin(corner), 0],
    },
  ];
}
