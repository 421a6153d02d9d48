import { gearGeometry } from '../../core/gear/gear-geometry.js';
import { scaleGear } from '../../core/gear/gear-states.js';
import { fittingPins, type PinMeasurement, stockPinDiameters } from '../../core/gear/over-pins.js';
import {
  neighboursClear,
  overNeighbours,
  overRootPins,
  overThreePins,
  rootPinFits,
} from '../../core/gear/pin-sizes.js';
import { maths } from '../../core/maths/maths.js';
import type { Dimension } from '../../core/part/contract.js';
import { lengthDimension as length } from '../../core/part/dimension.js';
import { builtSpec, involuteLimits, type ToothState } from './tooth-state.js';

/** Room beside the contacts of a ball with the flanks, along the axis, mm (common practice, no source). */
const ballMargin = 1;

/** One size that a measurement over pins of the thickness gives. */
interface PinSize {
  readonly symbol: string;
  readonly name: string;
  readonly choice: string;
  readonly method: string;
  readonly of: (m: PinMeasurement) => number;
  readonly fits?: (m: PinMeasurement) => boolean;
}

/**
 * All pins that suit the state, the best first, in each way they are measured over; which of them suits part, casting
 * and pattern is known later. Then the size over pins on the roots.
 */
export function pinDimensions(state: ToothState): readonly Dimension[] {
  const { spec, form, measurableWidth } = state;
  const built = builtSpec(state);
  const { teeth } = spec;
  const sinBaseHelix = maths.sin(gearGeometry(spec).baseHelixAngle);
  const sort = spec.helixAngle === 0 ? 'pins' : 'balls';
  const level = spec.helixAngle === 0 ? '' : ', level with each other';
  const limits = involuteLimits(form);
  // Contacts with the two flanks are D_M sin β_b apart along the axis.
  const lies = (m: PinMeasurement, factor: number): boolean =>
    m.pinDiameter * sinBaseHelix + ballMargin <= measurableWidth * factor &&
    m.outerDiameter > 2 * form.tipRadius * factor &&
    m.innerDiameter > 2 * form.rootRadius * factor;
  const pins = fittingPins(built, undefined, limits).filter((m) => lies(m, 1));
  const sizes: readonly PinSize[] = [
    {
      symbol: 'M',
      name: 'dimension over two',
      choice: 'over pins',
      method: `micrometer over ${sort} in ${teeth % 2 === 0 ? 'opposite' : 'the two most nearly opposite'} spaces${level}`,
      of: (m) => m.dimension,
    },
    ...(teeth % 2 === 1
      ? [
          {
            symbol: 'M3',
            name: 'dimension over three',
            choice: 'over three pins',
            method: `micrometer, one flat on ${sort} in neighbouring spaces and the other on the third opposite${level}`,
            of: (m: PinMeasurement) => overThreePins(m, teeth),
            fits: (m: PinMeasurement) => neighboursClear(m, teeth),
          },
        ]
      : []),
    {
      symbol: 'P',
      name: 'pitch over two',
      choice: 'pitch over pins',
      method: `calliper over ${sort} in neighbouring spaces${level}, all round: it differs as the teeth are out of pitch`,
      of: (m) => overNeighbours(m, teeth),
      fits: (m) => neighboursClear(m, teeth),
    },
  ];
  return [
    ...sizes.flatMap((size) =>
      pins
        .filter((m) => size.fits?.(m) ?? true)
        .map((m) =>
          length(
            `${size.symbol}_${m.pinDiameter}`,
            `${size.name} ${m.pinDiameter} mm ${sort}`,
            size.of(m),
            'xy',
            size.method,
            {
              detail: true,
              choice: size.choice,
              // The pins do not grow with the pattern.
              atGrowth: (factor) => {
                const [grown] = fittingPins(scaleGear(built, factor), [m.pinDiameter], {
                  involuteFrom: limits.involuteFrom * factor,
                  involuteTo: limits.involuteTo * factor,
                });
                return grown && lies(grown, factor) && (size.fits?.(grown) ?? true)
                  ? size.of(grown)
                  : undefined;
              },
            },
          ),
        ),
    ),
    ...rootPinDimensions(state),
  ];
}

/** Root diameter where no calliper reaches it: pins that lie on the roots, the largest that do. */
function rootPinDimensions({ spec, form, measurableWidth }: ToothState): readonly Dimension[] {
  const { teeth, helixAngle } = spec;
  const sort = helixAngle === 0 ? 'pins' : 'balls';
  const opposite = teeth % 2 === 0 ? 'opposite' : 'the two most nearly opposite';
  return [...stockPinDiameters]
    .filter((pin) => pin < measurableWidth && rootPinFits(form, pin, helixAngle))
    .reverse()
    .map((pin) =>
      length(
        `R_${pin}`,
        `root over two ${pin} mm ${sort}`,
        overRootPins(2 * form.rootRadius, teeth, pin),
        'xy',
        `blade micrometer over ${sort} that lie on the roots of ${opposite} spaces${helixAngle === 0 ? '' : ', level with each other'}`,
        {
          detail: true,
          choice: 'root over pins',
          atGrowth: (factor) =>
            rootPinFits(form, pin, helixAngle, factor)
              ? overRootPins(2 * form.rootRadius * factor, teeth, pin)
              : undefined,
        },
      ),
    );
}
