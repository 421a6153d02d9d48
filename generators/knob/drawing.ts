import { maths } from '../../core/maths/maths.js';
import type { DimensionNote, DrawingNotes } from '../../core/part/drawing-notes.js';
import { knobProfile } from './profile.js';
import type { KnobSizes } from './sizes.js';

/** A cut through the axis, and the foot seen from above. For the finished part. */
export function knobDrawing(s: KnobSizes): DrawingNotes {
  const { head, projection: h, spindle, foot, footThickness, holeDiameter, holeDepth, dome, rim } = s;
  const past = 0.06 * Math.max(head, h);
  // Where the profile is cylindrical, as far as anything is left of it between the fillets.
  const waist = waistHeight(s);
  const radii: readonly DimensionNote[] = filletNotes(s);
  return {
    views: [
      {
        from: '-y',
        cut: 0,
        extra: [
          {
            kind: 'chain',
            points: [
              [0, 0, -past],
              [0, 0, h + past],
            ],
          },
        ],
        dimensions: [
          {
            of: 'D',
            form: 'Ø{}',
            from: [-head / 2, 0, dome + rim / 2],
            to: [head / 2, 0, dome + rim / 2],
            side: 'below',
          },
          { of: 'H', from: [0, 0, 0], to: [foot / 2, 0, h], side: 'right' },
          {
            of: 'd_s',
            form: 'Ø{}',
            from: [-spindle / 2, 0, waist],
            to: [spindle / 2, 0, waist],
            side: 'above',
          },
          { of: 'd_f', form: 'Ø{}', from: [-foot / 2, 0, h], to: [foot / 2, 0, h], side: 'above' },
          { of: 't_f', from: [-foot / 2, 0, h - footThickness], to: [-foot / 2, 0, h], side: 'left' },
          { of: 'h_h', from: [0, 0, h - holeDepth], to: [-foot / 2, 0, h], side: 'left' },
          ...radii,
        ],
      },
      {
        from: '+z',
        extra: [
          {
            kind: 'chain',
            points: [
              [-head / 2 - past, 0, h],
              [head / 2 + past, 0, h],
            ],
          },
          {
            kind: 'chain',
            points: [
              [0, -head / 2 - past, h],
              [0, head / 2 + past, h],
            ],
          },
        ],
        dimensions: [{ of: 'd_h', form: 'Ø{}', at: [0, 0, h], radius: holeDiameter / 2 }],
      },
    ],
  };
}

function waistHeight(s: KnobSizes): number {
  const profile = knobProfile(s) ?? [];
  const straight = profile.find(
    (piece) =>
      piece.kind === 'line' &&
      piece.from[0] === piece.to[0] &&
      Math.abs(piece.from[0] - s.spindle / 2) < 1e-6,
  );
  return straight?.kind === 'line'
    ? (straight.from[1] + straight.to[1]) / 2
    : s.projection - s.footThickness - s.footFillet;
}

/** Radii on the right side of the section, one to each rounding. */
function filletNotes(s: KnobSizes): readonly DimensionNote[] {
  return (knobProfile(s) ?? []).flatMap((piece): readonly DimensionNote[] => {
    if (piece.kind !== 'arc' || piece.radius > 2 * s.head || piece.centre[0] === 0) return [];
    const middle = piece.start + piece.sweep / 2;
    const out = Math.sign(piece.sweep);
    return [
      {
        of: piece.radius,
        form: 'R{}',
        at: [
          piece.centre[0] + piece.radius * maths.cos(middle),
          0,
          piece.centre[1] + piece.radius * maths.sin(middle),
        ],
        outward: [out * maths.cos(middle), 0, out * maths.sin(middle)],
      },
    ];
  });
}
