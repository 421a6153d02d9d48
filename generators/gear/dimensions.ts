import { chordalThickness } from '../../core/gear/chordal.js';
import { withFlankStock, withTipStock } from '../../core/gear/gear-states.js';
import { chooseSpan, spanOver } from '../../core/gear/span.js';
import type { GearSpec } from '../../core/gear/spec.js';
import { type ToothForm, toothForm } from '../../core/gear/tooth-form.js';
import type { Dimension } from '../../core/part/contract.js';
import type { Stock } from '../../core/part/stock.js';
import type { BodySizes } from './body-sizes.js';
import type { BoreParameters } from './bore.js';

export interface GearState {
  /** The gear as drawn, without stock. */
  readonly spec: GearSpec;
  /** The tooth of the state that is built. */
  readonly form: ToothForm;
  readonly sizes: BodySizes;
  readonly stock: Stock;
  /** Face width over which a measurement over teeth can lie, mm; for a double-helical gear one half. */
  readonly measurableWidth: number;
  /** The finished bore, mm. */
  readonly bore: number;
  readonly boreShape: BoreParameters['boreShape'];
}

const length = (
  symbol: string,
  name: string,
  value: number,
  axis: 'xy' | 'z',
  method: string,
): Dimension => ({
  symbol,
  name,
  value,
  unit: 'mm',
  axis,
  method,
});

const boreMethods: Readonly<Record<BodySizes['bore']['kind'], string>> = {
  finished: 'bore gauge or plug',
  cored: 'bore gauge or plug',
  pilot: 'cast as a pilot: drill and ream',
  dimple: 'cast solid: drill and ream',
  none: 'none',
};

/** The sizes an inspector checks on a cylindrical gear, as they are in this state. */
export function gearDimensions(state: GearState): readonly Dimension[] {
  const { spec, form, sizes, bore } = state;
  const across = state.boreShape === 'hexagon' || state.boreShape === 'square';
  const odd = spec.teeth % 2 === 1;
  return [
    length(
      'd_a',
      'tip diameter',
      2 * form.tipRadius,
      'xy',
      odd ? 'calliper over a ring or three tips' : 'calliper over opposite tips',
    ),
    length(
      'd_f',
      'root diameter',
      2 * form.rootRadius,
      'xy',
      odd ? 'depth from tip, doubled' : 'blade micrometer between opposite roots',
    ),
    ...thicknessDimensions(state),
    length('b', 'face width', sizes.upperFace - sizes.lowerFace, 'z', 'calliper over the side faces'),
    ...(sizes.upperEnd > sizes.upperFace || sizes.lowerEnd < sizes.lowerFace
      ? [length('L', 'length over hubs', sizes.upperEnd - sizes.lowerEnd, 'z', 'calliper over the hub ends')]
      : []),
    ...(bore > 0
      ? [
          length(
            across ? 's_b' : 'D',
            across ? 'bore across flats' : 'bore',
            sizes.bore.size,
            'xy',
            boreMethods[sizes.bore.kind],
          ),
        ]
      : []),
    ...(sizes.hasHub || sizes.web
      ? [length('d_h', 'hub diameter', 2 * sizes.hubRadius, 'xy', 'calliper')]
      : []),
    ...(sizes.web
      ? [
          length(
            't_w',
            'web thickness',
            sizes.web.upperFloor - sizes.web.lowerFloor,
            'z',
            'calliper with deep jaws',
          ),
        ]
      : []),
  ];
}

/** Span over teeth where a micrometer can be laid on, else the chordal thickness of one tooth and its height. */
function thicknessDimensions({ spec, form, stock, measurableWidth }: GearState): readonly Dimension[] {
  const drawn = toothForm(spec);
  const span = drawn.ok
    ? chooseSpan(spec, {
        faceWidth: measurableWidth,
        involuteFrom: 2 * drawn.form.formRadius,
        involuteTo: 2 * (drawn.form.tipRadius - form.tipRounding),
      })
    : undefined;
  const built = withTipStock(withFlankStock(spec, stock.flank), stock.tip);
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
    length('h_c', 'chordal height', chord.height, 'xy', 'set the tongue of the gear-tooth calliper to it'),
  ];
}
