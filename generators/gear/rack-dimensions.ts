import { rackThickness } from '../../core/gear/chordal.js';
import { stockPinDiameters } from '../../core/gear/over-pins.js';
import type { RackForm } from '../../core/gear/rack-form.js';
import { idealRackPin, type RackPin, rackPin } from '../../core/gear/rack-pins.js';
import type { GearSpec } from '../../core/gear/spec.js';
import { maths } from '../../core/maths/maths.js';
import type { Dimension } from '../../core/part/contract.js';
import { lengthDimension as length } from '../../core/part/dimension.js';
import type { Stock } from '../../core/part/stock.js';

export interface RackState {
  /** The rack as drawn, without stock. */
  readonly spec: GearSpec;
  /** The tooth of the state that is built. */
  readonly form: RackForm;
  readonly stock: Stock;
  /** Height of the back below the datum line, mm, in this state. */
  readonly back: number;
  readonly ends: readonly [number, number];
  readonly faces: readonly [number, number];
}

/** Pitches that the check over two pins takes in, where the rack has them. */
const pitchesOver = 10;

/** The sizes an inspector checks on a rack, as they are in this state. */
export function rackDimensions(state: RackState): readonly Dimension[] {
  const { spec, form, stock, back, ends, faces } = state;
  const thickness = rackThickness(spec);
  const height = { role: 'setting' } as const;
  return [
    length('L', 'length', ends[1] - ends[0], 'xy', 'calliper over the ends'),
    length('h_t', 'back to tips', form.tipHeight + back, 'xy', 'micrometer over back and tips'),
    length('h_f', 'back to roots', form.rootHeight + back, 'xy', 'blade micrometer'),
    length(
      's_n',
      'normal tooth thickness',
      thickness.thickness + (2 * stock.flank) / maths.cos(spec.normalPressureAngle),
      'xy',
      'gear-tooth calliper square to the teeth at the height below',
    ),
    length(
      'h_s',
      'height of that thickness',
      form.tipHeight,
      'xy',
      'set the tongue of the gear-tooth calliper to it',
      height,
    ),
    ...pinDimensions(state),
    length('b', 'face width', faces[1] - faces[0], 'z', 'calliper over the side faces'),
    length('p_n', 'normal pitch', Math.PI * spec.normalModule, 'xy', 'calculated', {
      detail: true,
      role: 'reference',
    }),
  ];
}

/** Height over a pin from the back, and pitch over two pins some teeth apart. */
function pinDimensions({ spec, form, stock, back, ends, faces }: RackState): readonly Dimension[] {
  const alpha = spec.normalPressureAngle;
  const built = (factor: number) => ({
    normalModule: spec.normalModule * factor,
    normalPressureAngle: alpha,
    thinning: (spec.thinning - (2 * stock.flank) / maths.cos(alpha)) * factor,
  });
  const foot = spec.rootRadius * spec.normalModule - stock.flank;
  const flankEnd = form.rootHeight + Math.max(0, foot) * (1 - maths.sin(alpha));
  const fitting = (pin: number, factor: number): RackPin | undefined => {
    const m = rackPin(built(factor), pin);
    const fits =
      m.contactHeight > flankEnd * factor &&
      m.contactHeight < form.tipHeight * factor &&
      m.topHeight > form.tipHeight * factor &&
      m.centreHeight - pin / 2 > form.rootHeight * factor;
    return fits ? m : undefined;
  };
  const ideal = idealRackPin(built(1));
  const pins = stockPinDiameters
    .flatMap((pin) => fitting(pin, 1) ?? [])
    .sort((a, b) => Math.abs(a.pinDiameter - ideal) - Math.abs(b.pinDiameter - ideal));
  const pitch = Math.PI * spec.normalModule;
  // Square to the teeth, and within the face.
  const { sin, cos } = { sin: maths.sin(spec.helixAngle), cos: maths.cos(spec.helixAngle) };
  const width = faces[1] - faces[0];
  const along = Math.min((ends[1] - ends[0]) * cos - width * sin, width / sin);
  const over = Math.min(pitchesOver, Math.floor(along / pitch) - 2);
  return [
    ...pins.map(({ pinDiameter, topHeight }) =>
      length(
        `H_${pinDiameter}`,
        `back to a ${pinDiameter} mm pin`,
        back + topHeight,
        'xy',
        'micrometer over the back and a pin in a tooth space',
        {
          choice: 'over a pin',
          atGrowth: (factor) => {
            const grown = fitting(pinDiameter, factor);
            return grown && back * factor + grown.topHeight;
          },
        },
      ),
    ),
    ...(over < 1
      ? []
      : pins.map(({ pinDiameter }) =>
          length(
            `P_${pinDiameter}`,
            `${over} ${over === 1 ? 'pitch' : 'pitches'} over two ${pinDiameter} mm pins`,
            over * pitch + pinDiameter,
            'xy',
            `calliper square to the teeth over pins ${over} ${over === 1 ? 'space' : 'spaces'} apart`,
            {
              detail: true,
              choice: 'pitch over pins',
              atGrowth: (factor) =>
                fitting(pinDiameter, factor) ? over * pitch * factor + pinDiameter : undefined,
            },
          ),
        )),
  ];
}
