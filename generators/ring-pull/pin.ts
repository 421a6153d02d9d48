import { pinLength } from '../../core/hardware/index.js';
import type { BuildKit, Dimension, GatePlace } from '../../core/part/contract.js';
import type { DrawingNotes } from '../../core/part/drawing-notes.js';
import type { Stock } from '../../core/part/stock.js';
import type { Solid, Vec2 } from '../../core/solid/types.js';
import type { RingPullSizes } from './sizes.js';

/** Chamfer that leads the pin in, mm. */
export const leadChamfer = 0.5;

/** Overall length of the pin, mm: through both eyes and riveted, or as long as its grooves. */
export const lengthOfPin = (s: RingPullSizes): number =>
  s.style === 'surface'
    ? pinLength(s.pinDiameter, s.gap + 2 * s.eyeThickness, ['riveted', 'riveted'])
    : Math.floor(2 * (s.gap + 2 * s.eyeThickness)) / 2;

/** Stands upright on its chamfered end; the other is square and takes the sprue. */
export function pinSolid(s: RingPullSizes, stock: Stock, { kernel, tolerance }: BuildKit): Solid {
  return kernel.revolve(pinProfile(s, stock), tolerance);
}

function pinProfile(s: RingPullSizes, { mating, face }: Stock): readonly Vec2[] {
  const r = s.pinDiameter / 2 + mating;
  const [low, high] = [-face, lengthOfPin(s) + face];
  // A 45° chamfer between a face and a side, each moved by its own stock, and moved itself by the side's.
  const leg = Math.max(0.1, leadChamfer + face + mating - Math.SQRT2 * mating);
  return [
    [0, low],
    [r - leg, low],
    [r, low + leg],
    [r, high],
    [0, high],
  ];
}

export const pinGate = (s: RingPullSizes, { mating, face }: Stock): readonly GatePlace[] => [
  {
    name: 'upper end of the pin',
    at: [0, 0, lengthOfPin(s) + face],
    innerDiameter: 0,
    outerDiameter: s.pinDiameter + 2 * mating - 0.05,
  },
];

export const pinDimensions = (s: RingPullSizes, { mating, face }: Stock): readonly Dimension[] => [
  {
    symbol: 'd_p',
    name: 'pin diameter',
    value: s.pinDiameter + 2 * mating,
    unit: 'mm',
    axis: 'xy',
    method: 'micrometer',
  },
  {
    symbol: 'l_p',
    name: 'pin length',
    value: lengthOfPin(s) + 2 * face,
    unit: 'mm',
    axis: 'z',
    method: 'calliper',
  },
];

export function pinDrawing(s: RingPullSizes): DrawingNotes {
  const [r, l] = [s.pinDiameter / 2, lengthOfPin(s)];
  return {
    views: [
      {
        from: '-y',
        up: '+x',
        extra: [
          {
            kind: 'chain',
            points: [
              [0, 0, -3],
              [0, 0, l + 3],
            ],
          },
        ],
        dimensions: [
          { of: 'l_p', from: [-r, 0, 0], to: [-r, 0, l], side: 'below' },
          { of: 'd_p', form: 'Ø{}', from: [-r, 0, l], to: [r, 0, l], side: 'right' },
          {
            of: leadChamfer,
            form: '{} × 45°',
            at: [r - leadChamfer / 2, 0, leadChamfer / 2],
            outward: [1, 0, -1],
          },
        ],
      },
    ],
  };
}
