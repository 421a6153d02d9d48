import type { Dimension } from '../../core/part/contract.js';
import { lengthDimension as length } from '../../core/part/dimension.js';
import type { BodySizes } from './body-sizes.js';
import type { BoreParameters } from './bore.js';
import { referenceDimensions, thicknessDimensions } from './tooth-dimensions.js';
import type { ToothState } from './tooth-state.js';

export interface GearState extends ToothState {
  readonly sizes: BodySizes;
  /** The finished bore, mm. */
  readonly bore: number;
  readonly boreShape: BoreParameters['boreShape'];
}

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
    ...referenceDimensions(state),
  ];
}
