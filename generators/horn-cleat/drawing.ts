import type { DimensionNote, DrawingNotes } from '../../core/part/drawing-notes.js';
import type { Vec3 } from '../../core/solid/types.js';
import { poured } from '../hardware/deck-body.js';
import { crownHeight, extremes, hornTube } from './body.js';
import type { HornCleatSizes } from './sizes.js';

/** From the side as it stands on deck, from above and from the end. Points are given deck up, and turned over. */
export function cleatDrawing(s: HornCleatSizes): DrawingNotes {
  const tube = hornTube(s);
  const tip = extremes(tube);
  const crown = crownHeight(s);
  const under = s.baseThickness + s.clearance;
  const half = s.baseThickness + s.clearance / 2;
  const chain = (...points: Vec3[]) => ({ kind: 'chain' as const, points: points.map(poured) });
  const past = 0.03 * s.length;
  const at = (x: number, y: number, z: number): Vec3 => poured([x, y, z]);
  const length = (
    of: string,
    from: Vec3,
    to: Vec3,
    side: 'above' | 'below' | 'left' | 'right',
  ): DimensionNote => ({ of, from: poured(from), to: poured(to), side });
  const head = s.fasteners === 2 ? crown + s.hornHeight / 2 : s.baseThickness;
  return {
    views: [
      {
        from: '-y',
        up: '-z',
        extra: [chain([0, 0, -past], [0, 0, crown + s.hornHeight / 2 + past])],
        dimensions: [
          length(
            'L',
            [-s.length / 2, 0, tip.z - s.tipHeight / 2],
            [s.length / 2, 0, tip.z - s.tipHeight / 2],
            'above',
          ),
          length('H', [s.baseLength / 2, 0, 0], [s.length / 2 - s.tipHeight, 0, tip.z], 'right'),
          length('l_b', [-s.baseLength / 2, 0, 0], [s.baseLength / 2, 0, 0], 'below'),
          length('t', [-s.baseLength / 2, 0, 0], [-s.baseLength / 2, 0, s.baseThickness], 'left'),
          ...(s.base === 'open'
            ? [
                length('h_r', [0, 0, under], [0, 0, under + s.hornHeight], 'left'),
                length('h_1', [0, 0, s.baseThickness], [0, 0, under], 'right'),
                length('w_o', [-s.opening / 2, 0, half], [s.opening / 2, 0, half], 'below'),
              ]
            : [length('l_l', [-s.legLength / 2, 0, half], [s.legLength / 2, 0, half], 'below')]),
        ],
      },
      {
        from: '-z',
        extra: [
          chain([-s.length / 2 - past, 0, 0], [s.length / 2 + past, 0, 0]),
          chain([0, -s.baseWidth / 2 - past, 0], [0, s.baseWidth / 2 + past, 0]),
          ...[-1, 1].flatMap((sx) =>
            (s.fasteners === 2 ? [0] : [-1, 1]).map((sy) =>
              chain(
                [sx * s.screwAlong, sy * s.screwAcross - s.seat.mouthDiameter / 2 - 1, head],
                [sx * s.screwAlong, sy * s.screwAcross + s.seat.mouthDiameter / 2 + 1, head],
              ),
            ),
          ),
        ],
        dimensions: [
          length('a_1', [-s.screwAlong, s.screwAcross, head], [s.screwAlong, s.screwAcross, head], 'below'),
          ...(s.fasteners === 4
            ? [
                length(
                  'a_2',
                  [s.screwAlong, -s.screwAcross, head],
                  [s.screwAlong, s.screwAcross, head],
                  'right',
                ),
              ]
            : []),
          {
            of: 'd_h',
            form: `${s.fasteners} × Ø{}`,
            at: at(s.screwAlong, s.screwAcross, head),
            radius: s.seat.holeDiameter / 2,
          },
        ],
      },
      {
        from: '+x',
        dimensions: [
          length('b_h', [0, -s.hornWidth / 2, crown], [0, s.hornWidth / 2, crown], 'above'),
          length('b_b', [0, -s.baseWidth / 2, 0], [0, s.baseWidth / 2, 0], 'below'),
          length('b_l', [0, -s.legWidth / 2, half], [0, s.legWidth / 2, half], 'below'),
        ],
      },
    ],
  };
}
