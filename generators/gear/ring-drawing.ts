import type { HelixStretch } from '../../core/gear/helix.js';
import type { GearSpec } from '../../core/gear/spec.js';
import type { ToothForm } from '../../core/gear/tooth-form.js';
import { type PitchOutline, wholeOutline } from '../../core/gear/transverse-profile.js';
import { maths } from '../../core/maths/maths.js';
import type { DrawingNotes, DrawnLine, LengthNote } from '../../core/part/drawing-notes.js';
import type { Vec3 } from '../../core/solid/types.js';
import { easingRows, handOf, helixRows, toothRows } from './drawing-data.js';
import { inSection } from './drawn-profile.js';
import type { ToothParameters } from './tooth-spec.js';

/** What the drawing of a ring gear is made from: the finished ring. */
export interface DrawnRing {
  readonly parameters: Omit<ToothParameters, 'tipRounding'>;
  readonly cutterTeeth: number;
  readonly spec: GearSpec;
  /** The tooth space as if it were a tooth. */
  readonly space: ToothForm;
  readonly outsideRadius: number;
  readonly faceWidth: number;
  readonly stretch: HelixStretch;
  readonly pitch: PitchOutline;
}

/** A full section on the axis, teeth not cut, with the sign of the helix inside (ISO 2203); and the view along the axis. */
export function ringDrawing(ring: DrawnRing): DrawingNotes {
  const { space, outsideRadius: outside, faceWidth: b, pitch, stretch } = ring;
  const [tip, root, reference] = [space.rootRadius, space.tipRadius, space.rack.radius];
  const past = Math.max(0.8, 0.04 * outside);
  const along = (kind: DrawnLine['kind'], r: number, over = 0): DrawnLine => ({
    kind,
    points: [inSection(-over, r), inSection(b + over, r)],
  });
  const half = (sign: 1 | -1): readonly Vec3[] =>
    [
      [0, root],
      [b, root],
      [b, outside],
      [0, outside],
    ].map(([z, r]) => inSection(z as number, sign * (r as number)));
  const circle = (kind: DrawnLine['kind'], radius: number): DrawnLine => ({
    kind,
    centre: [0, 0, b],
    radius,
  });
  const reach = outside + past;
  const diameter = (of: string, r: number, z: number, side: 'left' | 'right'): LengthNote => ({
    of,
    form: 'Ø{}',
    from: inSection(z, -r),
    to: inSection(z, r),
    side,
  });
  return {
    views: [
      {
        from: '+x',
        up: '+y',
        lines: [
          { kind: 'visible', points: half(1), closed: true },
          { kind: 'visible', points: half(-1), closed: true },
          { kind: 'visible', points: [inSection(0, -outside), inSection(0, outside)] },
          { kind: 'visible', points: [inSection(b, -outside), inSection(b, outside)] },
          along('visible', tip),
          along('visible', -tip),
          along('chain', reference, past),
          along('chain', -reference, past),
          along('chain', 0, past),
          ...helixInside(ring),
        ],
        hatched: [half(1), half(-1)],
        dimensions: [
          { of: 'b', from: inSection(0, -outside), to: inSection(b, -outside), side: 'below' },
          diameter('D_o', outside, 0, 'right'),
          diameter('d_a', tip, b, 'left'),
        ],
      },
      {
        from: '+z',
        lines: [
          {
            kind: 'visible',
            points: wholeOutline(pitch, stretch.turn(b)).map(([x, y]) => [x, y, b]),
            closed: true,
          },
          circle('visible', outside),
          circle('chain', reference),
          circle('thin', tip),
          circle('thin', root),
          {
            kind: 'chain',
            points: [
              [-reach, 0, b],
              [reach, 0, b],
            ],
          },
          {
            kind: 'chain',
            points: [
              [0, -reach, b],
              [0, reach, b],
            ],
          },
        ],
      },
    ],
    dataTitle: 'Gear data (internal teeth)',
    data: dataOf(ring),
  };
}

function dataOf({ parameters, spec, space, stretch, cutterTeeth, outsideRadius }: DrawnRing) {
  return [
    ...toothRows(parameters, spec),
    ...helixRows(spec, `${handOf(stretch)}-hand; its pinion too`),
    { symbol: 'x', name: 'profile shift coefficient', value: String(Number(spec.profileShift.toFixed(4))) },
    { symbol: 'z_0', name: 'teeth of the cutter', value: String(cutterTeeth) },
    { symbol: 'h', name: 'tooth depth', value: space.tipRadius - space.rootRadius },
    { name: 'rim outside the roots', value: outsideRadius - space.tipRadius },
    ...easingRows(spec, 0),
  ];
}

/** The far side of the ring's inside shows: there a right-hand helix leans as a left-hand one does outside. */
function helixInside({ spec, space, stretch, faceWidth: b }: DrawnRing): readonly DrawnLine[] {
  if (spec.helixAngle === 0) return [];
  const r = space.rack.radius;
  const half = Math.min(0.38 * b, (0.15 * r) / maths.tan(spec.helixAngle));
  const middle = b / 2;
  return [-0.16, 0, 0.16].map((share) => ({
    kind: 'thin',
    points: [middle - half, middle + half].map((z) =>
      inSection(z, r * (share - 0.35 - stretch.turn(z) + stretch.turn(middle))),
    ),
  }));
}
