import { gearGeometry } from '../../core/gear/gear-geometry.js';
import { scaleGear, withFlankStock } from '../../core/gear/gear-states.js';
import { type BetweenPins, internalGeometry, measureBetweenPins } from '../../core/gear/internal.js';
import type { InternalGearSpec } from '../../core/gear/internal-form.js';
import { stockPinDiameters } from '../../core/gear/over-pins.js';
import type { ToothForm } from '../../core/gear/tooth-form.js';
import { maths } from '../../core/maths/maths.js';
import type { Dimension } from '../../core/part/contract.js';
import { lengthDimension as length } from '../../core/part/dimension.js';
import type { Stock } from '../../core/part/stock.js';
import { indexDimension } from './index-dimension.js';
import { helixDimensions } from './tooth-state.js';

export interface RingState {
  /** The ring as drawn, without stock. */
  readonly spec: InternalGearSpec;
  /** The tooth space of the state that is built. */
  readonly space: ToothForm;
  readonly stock: Stock;
  readonly outsideRadius: number;
  /** Heights of the side faces, mm. */
  readonly faces: readonly [number, number];
}

/** The sizes an inspector checks on a ring gear, as they are in this state. */
export function ringDimensions(state: RingState): readonly Dimension[] {
  const { spec, space, outsideRadius, faces } = state;
  const { referenceDiameter, baseDiameter } = internalGeometry(spec);
  const odd = spec.teeth % 2 === 1;
  const between = (what: string): string =>
    odd ? `three-point inside micrometer on the ${what}` : `inside calliper between opposite ${what}`;
  const reference = (symbol: string, name: string, value: number): Dimension =>
    length(symbol, name, value, 'xy', 'calculated', { detail: true, role: 'reference' });
  return [
    length('d_a', 'tip diameter (inside)', 2 * space.rootRadius, 'xy', between('tips')),
    length('d_f', 'root diameter', 2 * space.tipRadius, 'xy', between('roots')),
    ...pinDimensions(state),
    length('D_o', 'outside diameter', 2 * outsideRadius, 'xy', 'calliper'),
    length('b', 'face width', faces[1] - faces[0], 'z', 'calliper over the side faces'),
    reference('d', 'reference diameter', referenceDiameter),
    reference('d_b', 'base diameter', baseDiameter),
    ...helixDimensions(spec),
    indexDimension(spec.teeth),
  ];
}

/** Pins and balls wider than this many modules fit no space. */
const widest = 3;

/** Pins that stand inside the tips, clear the roots and touch the involute; nearest to its middle first. */
function pinDimensions({ spec, space, stock, faces }: RingState): readonly Dimension[] {
  const built = withFlankStock(spec, stock.flank);
  const sort = spec.helixAngle === 0 ? 'pins' : 'balls';
  const fitting = (ring: InternalGearSpec, pin: number, factor: number): BetweenPins | undefined => {
    const m = between(ring, pin);
    if (!m) return undefined;
    const radius = m.centreDiameter / 2;
    const fits =
      radius - pin / 2 < space.rootRadius * factor &&
      radius + pin / 2 < space.tipRadius * factor &&
      m.contactDiameter > 2 * space.rootRadius * factor &&
      m.contactDiameter < 2 * space.formRadius * factor &&
      pin < (faces[1] - faces[0]) * factor;
    return fits ? m : undefined;
  };
  const middle = gearGeometry(spec).referenceDiameter - 2 * spec.profileShift * spec.normalModule;
  const places = spec.teeth % 2 === 0 ? 'opposite' : 'the two most nearly opposite';
  return stockPinDiameters
    .filter((pin) => pin < widest * spec.normalModule)
    .flatMap((pin) => fitting(built, pin, 1) ?? [])
    .sort((a, b) => Math.abs(a.contactDiameter - middle) - Math.abs(b.contactDiameter - middle))
    .map((m) =>
      length(
        `M_${m.pinDiameter}`,
        `dimension between two ${m.pinDiameter} mm ${sort}`,
        m.dimension,
        'xy',
        `inside micrometer between ${sort} in ${places} spaces${sort === 'balls' ? ', level with each other' : ''}`,
        {
          choice: 'between pins',
          atGrowth: (factor) => fitting(scaleGear(built, factor), m.pinDiameter, factor)?.dimension,
        },
      ),
    );
}

/** Between pins, where the space takes them. */
function between(ring: InternalGearSpec, pin: number): BetweenPins | undefined {
  const widestPin =
    internalGeometry(ring).spaceHalfAngle *
    ring.normalModule *
    ring.teeth *
    maths.cos(ring.normalPressureAngle);
  return pin <= widestPin ? measureBetweenPins(ring, pin) : undefined;
}
