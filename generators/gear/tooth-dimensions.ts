import { chordalThickness, constantChord } from '../../core/gear/chordal.js';
import { gearGeometry } from '../../core/gear/gear-geometry.js';
import { scaleGear, withFlankStock, withTipStock } from '../../core/gear/gear-states.js';
import { fittingPins, type PinMeasurement } from '../../core/gear/over-pins.js';
import { chooseSpan, spanOver } from '../../core/gear/span.js';
import type { GearSpec } from '../../core/gear/spec.js';
import { type ToothForm, toothForm } from '../../core/gear/tooth-form.js';
import type { Dimension } from '../../core/part/contract.js';
import type { Stock } from '../../core/part/stock.js';

export interface ToothState {
  /** The gear as drawn, without stock. */
  readonly spec: GearSpec;
  /** The tooth of the state that is built. */
  readonly form: ToothForm;
  readonly stock: Stock;
  /** Face width over which a measurement over teeth can lie, mm; for a double-helical gear one half. */
  readonly measurableWidth: number;
}

export const length = (
  symbol: string,
  name: string,
  value: number,
  axis: 'xy' | 'z',
  method: string,
  more: Pick<Dimension, 'atGrowth' | 'choice' | 'detail' | 'role'> = {},
): Dimension => ({ symbol, name, value, unit: 'mm', axis, method, ...more });

/** The gear whose flanks and tips are those of the state. */
const builtSpec = ({ spec, stock }: ToothState): GearSpec =>
  withTipStock(withFlankStock(spec, stock.flank), stock.tip);

/** Diameters between which the flank is involute, mm. */
const involuteLimits = (form: ToothForm) => ({
  involuteFrom: 2 * form.formRadius,
  involuteTo: 2 * (form.tipRadius - form.tipRounding),
});

/**
 * Span over teeth where a micrometer can be laid on, else the chordal thickness of one tooth and its height; then
 * the size over two pins or balls and the constant chord.
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
    ];
  }
  const chord = chordalThickness(built, 2 * form.tipRadius);
  return [
    length(
      's_c',
      'normal chordal tooth thickness',
      chord.thickness,
      'xy',
      'gear-tooth calliper at the chordal height',
    ),
    length('h_c', 'chordal height', chord.height, 'xy', 'set the tongue of the gear-tooth calliper to it', {
      role: 'setting',
    }),
  ];
}

/** Room beside the contacts of a ball with the flanks, along the axis, mm (common practice, no source). */
const ballMargin = 1;

/** All pins that suit the state, the best first: which of them suits part, casting and pattern is known later. */
function pinDimensions(state: ToothState): readonly Dimension[] {
  const { spec, form, measurableWidth } = state;
  const built = builtSpec(state);
  const helical = spec.helixAngle !== 0;
  const sinBaseHelix = Math.sin(gearGeometry(spec).baseHelixAngle);
  // Contacts with the two flanks are D_M sin β_b apart along the axis.
  const lies = (m: PinMeasurement, factor: number): boolean =>
    m.pinDiameter * sinBaseHelix + ballMargin <= measurableWidth * factor &&
    m.outerDiameter > 2 * form.tipRadius * factor &&
    m.innerDiameter > 2 * form.rootRadius * factor;
  const limits = involuteLimits(form);
  const places = `in ${spec.teeth % 2 === 0 ? 'opposite' : 'the two most nearly opposite'} spaces`;
  return fittingPins(built, undefined, limits)
    .filter((m) => lies(m, 1))
    .map(({ pinDiameter, dimension }) =>
      length(
        `M_${pinDiameter}`,
        `dimension over two ${pinDiameter} mm ${helical ? 'balls' : 'pins'}`,
        dimension,
        'xy',
        helical ? `micrometer over balls ${places}, level with each other` : `micrometer over pins ${places}`,
        {
          detail: true,
          choice: 'over pins',
          // The pins do not grow with the pattern.
          atGrowth: (factor) => {
            const grown = scaleGear(built, factor);
            const [m] = fittingPins(grown, [pinDiameter], {
              involuteFrom: limits.involuteFrom * factor,
              involuteTo: limits.involuteTo * factor,
            });
            return m && lies(m, factor) ? m.dimension : undefined;
          },
        },
      ),
    );
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
  const reference = (symbol: string, name: string, value: number, axis: 'xy' | 'z'): Dimension =>
    length(symbol, name, value, axis, 'calculated', { detail: true, role: 'reference' });
  return [
    reference('d', 'reference diameter', g.referenceDiameter, 'xy'),
    reference('d_b', 'base diameter', g.baseDiameter, 'xy'),
    ...(spec.helixAngle === 0
      ? []
      : [reference('p_z', 'helix lead', g.lead, 'z'), reference('p_x', 'axial pitch', g.axialPitch, 'z')]),
  ];
}
