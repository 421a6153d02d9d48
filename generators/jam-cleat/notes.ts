import { maths } from '../../core/maths/maths.js';
import type { Dimension, GatePlace, VentPlace } from '../../core/part/contract.js';
import { lengthDimension as size } from '../../core/part/dimension.js';
import type { DimensionNote, DrawingNotes } from '../../core/part/drawing-notes.js';
import type { Stock } from '../../core/part/stock.js';
import type { Vec3 } from '../../core/solid/types.js';
import { flatRoom, roomiest } from '../hardware/flat-room.js';
import { sideFlat } from './body.js';
import type { JamCleatSizes } from './sizes.js';

/** The sizes to check on a jam cleat, as they are in this state. */
export function jamDimensions(
  s: JamCleatSizes,
  { skin, mating }: Stock,
  holeDiameter: number,
): readonly Dimension[] {
  const slope = maths.tan(s.taper);
  // Walls of the throat have both moved in along their normals; so has its end, away from the post.
  const closed = skin * (1 + 1 / maths.cos(s.taper)) - skin * slope;
  const length =
    Math.max(s.right, s.throat) - Math.min(s.left, s.backHorn > 0 ? -s.post - s.backHorn : 0) + 2 * skin;
  return [
    size('L', 'overall length', length, 'xy', 'calliper or rule'),
    size('H', 'overall height', s.top + skin + mating, 'xy', 'calliper, underside to the horns'),
    size('b', 'width', s.width + 2 * skin, 'z', 'micrometer over both sides'),
    size('t', 'thickness of the base', s.baseThickness + skin + mating, 'xy', 'calliper, at its free end'),
    size('l_b', 'length of the base', s.right - s.left + 2 * skin, 'xy', 'calliper'),
    size(
      'w_e',
      'height of the throat at its end, walls produced',
      s.end - closed,
      'xy',
      'feeler or drill shanks',
    ),
    {
      symbol: 'α',
      name: 'taper of the throat',
      value: s.taper,
      unit: 'rad',
      axis: 'none',
      method: 'protractor, or drill shanks at two depths',
    },
    size(
      'a',
      'between screws',
      s.baseScrew - s.postScrew,
      'xy',
      'pins in the holes, calliper over them, less a pin',
    ),
    size('d_h', 'screw holes', holeDiameter, 'xy', 'plug gauge or drill shank; 0 where left for the drill'),
    size('r_f', 'inside corners of the post', s.fillet - skin, 'xy', 'radius gauge'),
  ];
}

/** Gate on the side, over the post; vents on horns and base, the highest places as it lies. */
export function jamPlaces(
  s: JamCleatSizes,
  stock: Stock,
): { readonly gates: readonly GatePlace[]; readonly vents: readonly VentPlace[] } {
  const room = flatRoom(sideFlat(s, stock));
  const z = s.width + stock.skin;
  const gate = roomiest(room, { x: [-s.post, 0.4 * s.throat], y: [0, s.top] });
  const vent = (name: string, x: readonly [number, number], y: readonly [number, number]): VentPlace[] => {
    const { at, radius } = roomiest(
      (px, py) => Math.min(room(px, py), maths.hypot(px - gate.at[0], py - gate.at[1]) - gate.radius - 3.5),
      { x, y },
      3,
    );
    return radius < 0.75 ? [] : [{ name, at: [at[0], at[1], z] as Vec3, footDiameter: 2 * radius }];
  };
  const over = s.baseThickness + s.end;
  return {
    gates: [
      {
        name: 'side of the post',
        at: [gate.at[0], gate.at[1], z],
        innerDiameter: 0,
        outerDiameter: 2 * gate.radius,
      },
    ],
    vents: [
      ...vent('tip of the jamming horn', [s.throat, 0.5 * s.throat], [over, s.top]),
      ...vent('free end of the base', [s.right, 0.6 * s.throat], [0, s.baseThickness]),
      ...(s.backHorn > 0
        ? vent(
            'tip of the other horn',
            [-s.post - s.backHorn, -s.post],
            [s.baseThickness + s.backClearance, s.top],
          )
        : []),
    ],
  };
}

/** The side view, which is the way it is cast, and from above. */
export function jamDrawing(s: JamCleatSizes): DrawingNotes {
  const z = s.width;
  const across = (of: string, a: number, b: number, y: number, side: 'above' | 'below'): DimensionNote => ({
    of,
    from: [a, y, z],
    to: [b, y, z],
    side,
  });
  const back = s.backHorn > 0 ? -s.post - s.backHorn : -s.post;
  const axis = (x: number, top: number) => ({
    kind: 'chain' as const,
    points: [
      [x, -2, z / 2],
      [x, top + 2, z / 2],
    ] as const,
  });
  const mouthY = s.baseThickness + s.end + (s.throat - s.throat * 0.2) * maths.tan(s.taper);
  return {
    views: [
      {
        from: '+z',
        up: '+y',
        extra: [axis(s.postScrew, s.top), axis(s.baseScrew, s.baseThickness)],
        dimensions: [
          across('L', Math.min(back, s.left), Math.max(s.right, s.throat), s.top, 'above'),
          across('l_b', s.left, s.right, 0, 'below'),
          across('a', s.postScrew, s.baseScrew, 0, 'below'),
          { of: 'H', from: [s.throat - 1, 0, z], to: [s.throat - 1, s.top, z], side: 'right' },
          { of: 't', from: [s.right, 0, z], to: [s.right, s.baseThickness, z], side: 'right' },
          {
            of: 'α',
            corner: [0, s.baseThickness + s.end, z],
            legs: [
              [0.8 * s.throat, s.baseThickness + s.end, z],
              [0.8 * s.throat, mouthY, z],
            ],
          },
          {
            of: 'r_f',
            form: 'R{}',
            at: [-s.post - s.fillet * 0.293, s.baseThickness + s.fillet * 0.293, z],
            outward: [-1, 0.4, 0],
          },
        ],
      },
      {
        from: '+y',
        dimensions: [
          { of: 'b', from: [s.right, s.baseThickness, 0], to: [s.right, s.baseThickness, z], side: 'right' },
          {
            of: 'd_h',
            form: '2 × Ø{}',
            at: [s.baseScrew, s.baseThickness, z / 2],
            radius: s.seat.holeDiameter / 2,
          },
        ],
      },
    ],
  };
}
