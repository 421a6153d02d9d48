import { chordalThickness, constantChord } from '../../core/gear/chordal.js';
import { gearGeometry } from '../../core/gear/gear-geometry.js';
import { chooseSpan, spanOver } from '../../core/gear/span.js';
import type { GearSpec } from '../../core/gear/spec.js';
import { type ToothForm, toothForm } from '../../core/gear/tooth-form.js';
import type { Dimension } from '../../core/part/contract.js';
import { lengthDimension as length } from '../../core/part/dimension.js';
import { indexDimension } from './index-dimension.js';
import { pinDimensions } from './pin-dimensions.js';
import { builtSpec, helixDimensions, involuteLimits, type ToothState } from './tooth-state.js';

/**
 * Span over teeth where a micrometer can be laid on, and the chordal thickness of one tooth with its height; then the
 * sizes over pins or balls and the constant chord.
 */
export function thicknessDimensions(state: ToothState): readonly Dimension[] {
  return [...spanOrChord(state), ...pinDimensions(state), ...constantChordDimensions(state)];
}

function spanOrChord(state: ToothState): readonly Dimension[] {
  const { spec, form, measurableWidth } = state;
  const drawn = toothForm(spec);
  const span = drawn.ok
    ? chooseSpan(spec, {
        faceWidth: measurableWidth,
        involuteFrom: 2 * drawn.form.formRadius,
        involuteTo: 2 * (drawn.form.tipRadius - form.tipRounding),
      })
    : undefined;
  const built = builtSpec(state);
  if (span) {
    // The same number of teeth in every state, so that the readings compare.
    const k = span.teethSpanned;
    return [
      length(
        `W_${k}`,
        `span over ${k} teeth`,
        spanOver(built, k).span,
        'xy',
        `disc micrometer over ${k} teeth`,
      ),
      ...chordDimensions(built, form, true),
    ];
  }
  return chordDimensions(built, form, false);
}

/** For the inspection sheet alone where there is a span: a span does not hang on the tip diameter, a chord does. */
function chordDimensions(built: GearSpec, form: ToothForm, detail: boolean): readonly Dimension[] {
  const chord = chordalThickness(built, 2 * form.tipRadius);
  return [
    length(
      's_c',
      'normal chordal tooth thickness',
      chord.thickness,
      'xy',
      'gear-tooth calliper at the chordal height',
      detail ? { detail } : {},
    ),
    length('h_c', 'chordal height', chord.height, 'xy', 'set the tongue of the gear-tooth calliper to it', {
      role: 'setting',
      ...(detail ? { detail } : {}),
    }),
  ];
}

function constantChordDimensions(state: ToothState): readonly Dimension[] {
  const { form } = state;
  const chord = constantChord(builtSpec(state), 2 * form.tipRadius);
  const { involuteFrom, involuteTo } = involuteLimits(form);
  // Where the basic rack touches both flanks there must be involute.
  if (chord.contactDiameter <= involuteFrom || chord.contactDiameter >= involuteTo) return [];
  return [
    length(
      's_cc',
      'constant chord',
      chord.thickness,
      'xy',
      'gear-tooth calliper at the height of the constant chord',
      { detail: true },
    ),
    length(
      'h_cc',
      'height of the constant chord',
      chord.height,
      'xy',
      'set the tongue of the gear-tooth calliper to it',
      { detail: true, role: 'setting' },
    ),
  ];
}

/** Calculated sizes that the measured ones refer to. Stock does not change them: it moves the flanks, not their base cylinder. */
export function referenceDimensions({ spec }: ToothState): readonly Dimension[] {
  const g = gearGeometry(spec);
  const reference = (symbol: string, name: string, value: number): Dimension =>
    length(symbol, name, value, 'xy', 'calculated', { detail: true, role: 'reference' });
  return [
    reference('d', 'reference diameter', g.referenceDiameter),
    reference('d_b', 'base diameter', g.baseDiameter),
    ...helixDimensions(spec),
    indexDimension(spec.teeth),
  ];
}
