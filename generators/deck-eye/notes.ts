import type { Dimension } from '../../core/part/contract.js';
import { lengthDimension as size } from '../../core/part/dimension.js';
import type { DimensionNote, DrawingNotes } from '../../core/part/drawing-notes.js';
import type { Stock } from '../../core/part/stock.js';
import type { Vec3 } from '../../core/solid/types.js';
import { poured } from '../hardware/deck-body.js';
import { flangeDimensions, flangeView } from '../hardware/flange-notes.js';
import type { DeckEyeSizes } from './sizes.js';

const topOf = ({ eye }: DeckEyeSizes): number =>
  eye.kind === 'ring' ? eye.centre + eye.opening / 2 + eye.bar : eye.centre + eye.radius;

/** The sizes to check on a deck eye, as they are in this state. */
export function eyeDimensions(
  s: DeckEyeSizes,
  { skin, mating }: Stock,
  holes: { readonly screw: number; readonly pin: number },
): readonly Dimension[] {
  const { eye, flange } = s;
  return [
    size('H', 'overall height', topOf(s) + skin + mating, 'z', 'height gauge, underside to the top'),
    ...(eye.kind === 'ring'
      ? [
          size(
            'w_o',
            'width of the opening',
            eye.opening - 2 * skin,
            'xy',
            'inside calliper, along the base',
          ),
          size(
            'h_o',
            'height of the opening',
            eye.centre + eye.opening / 2 - flange.thickness - 2 * skin,
            'z',
            'inside calliper, base to ring',
          ),
          size('d_b', 'thickness of the ring', eye.bar + 2 * skin, 'xy', 'calliper across its top'),
        ]
      : [
          size('t_l', 'thickness of the lug', eye.thickness + 2 * skin, 'xy', 'micrometer beside the hole'),
          size(
            'r_l',
            'radius of the lug',
            eye.radius + skin,
            'z',
            'calliper, hole to top, with half the hole',
          ),
          size('h_p', 'pin over the underside', eye.centre + mating, 'z', 'pin in the hole, height gauge'),
          size('d_p', "pin's hole", holes.pin, 'xy', 'plug gauge or drill shank; 0 where left for the drill'),
        ]),
    ...flangeDimensions(flange, { skin, mating }, holes.screw),
    size('r_f', 'fillet', s.fillet - skin, 'xy', 'radius gauge, eye to base'),
  ];
}

/** From the side and the end as it stands on deck, and from above. */
export function eyeDrawing(s: DeckEyeSizes): DrawingNotes {
  const { eye, flange } = s;
  const top = topOf(s);
  const chain = (...points: Vec3[]) => ({ kind: 'chain' as const, points: points.map(poured) });
  const length = (
    of: string,
    from: Vec3,
    to: Vec3,
    side: 'above' | 'below' | 'left' | 'right',
  ): DimensionNote => ({ of, from: poured(from), to: poured(to), side });
  const t = flange.thickness;
  const [half, wide] = [flange.length / 2, flange.width / 2];
  return {
    views: [
      {
        from: '-y',
        up: '-z',
        extra: [
          chain([0, 0, -3], [0, 0, top + 3]),
          ...(eye.kind === 'lug'
            ? [chain([-eye.radius - 3, 0, eye.centre], [eye.radius + 3, 0, eye.centre])]
            : []),
        ],
        dimensions: [
          length('H', [half, 0, 0], [0, 0, top], 'right'),
          length('t', [-half, 0, 0], [-half, 0, t], 'left'),
          length('l_b', [-half, 0, 0], [half, 0, 0], 'below'),
          ...(eye.kind === 'ring'
            ? [
                length('w_o', [-eye.opening / 2, 0, eye.centre], [eye.opening / 2, 0, eye.centre], 'above'),
                length('h_o', [0, 0, t], [0, 0, eye.centre + eye.opening / 2], 'right'),
              ]
            : [
                length('h_p', [-half, 0, 0], [0, 0, eye.centre], 'left'),
                {
                  of: 'd_p',
                  form: 'Ø{}',
                  at: poured([0, -eye.thickness / 2, eye.centre]),
                  radius: eye.hole / 2,
                },
                {
                  of: 'r_l',
                  form: 'R{}',
                  at: poured([eye.radius * Math.SQRT1_2, 0, eye.centre + eye.radius * Math.SQRT1_2]),
                  outward: [1, 0, -1] as Vec3,
                },
              ]),
        ],
      },
      flangeView(flange),
      {
        from: '+x',
        dimensions: [
          length('b_b', [0, -wide, 0], [0, wide, 0], 'below'),
          eye.kind === 'ring'
            ? length(
                'd_b',
                [0, -eye.bar / 2, top - eye.bar / 2],
                [0, eye.bar / 2, top - eye.bar / 2],
                'above',
              )
            : length('t_l', [0, -eye.thickness / 2, eye.centre], [0, eye.thickness / 2, eye.centre], 'above'),
        ],
      },
    ],
  };
}
