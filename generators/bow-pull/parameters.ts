import { z } from 'zod';
import { choice, count, length, number } from '../../core/part/fields.js';
import { strengthField } from '../hardware/load-fields.js';
import { screwField } from '../hardware/screw-field.js';
import { holeField } from '../hardware/screw-holes.js';

/** A bow pull's parameters, mm. */
export const bowPullParameters = z.object({
  fingers: count({
    group: 'Size',
    help: 'Fingers that go behind the grip; every other size follows from it',
    min: 1,
    max: 4,
    default: 2,
  }),
  hand: choice(['bare', 'gloved'], {
    group: 'Size',
    help: 'Room for bare or gloved fingers',
    default: 'bare',
  }),
  fixing: choice(['screws', 'studs'], {
    group: 'Size',
    help: 'Countersunk screws through the feet, or studs from behind in tapped holes',
    default: 'screws',
  }),
  series: choice(['metric', 'inch'], {
    group: 'Size',
    help: 'Whether worked-out sizes land on half millimetres and metric screws, or on 1/32 in and inch screws',
    default: 'metric',
  }),
  width: length({
    group: 'Grip',
    help: 'Clear width between the legs at the door, without their fillets',
    symbol: 'w',
    min: 20,
    max: 250,
    derived: 'the room that the fingers want',
  }),
  depth: length({
    group: 'Grip',
    help: 'Clear depth behind the middle of the grip',
    symbol: 'h_c',
    min: 12,
    max: 90,
    derived: 'the room that the fingers want',
  }),
  gripHeight: length({
    group: 'Grip',
    help: 'Thickness of the grip in its middle, square to the door',
    symbol: 'h_g',
    min: 4,
    max: 40,
    derived: '8 mm and 1.5 mm for each finger, at least what the pull wants in the hand',
  }),
  gripWidth: length({
    group: 'Grip',
    help: 'Width of the grip in its middle, along the door',
    symbol: 'b_g',
    min: 4,
    max: 60,
    derived: '1.3 of its thickness',
  }),
  legHeight: length({
    group: 'Grip',
    help: 'Thickness of the legs at the feet, along the pull',
    symbol: 'h_l',
    min: 4,
    max: 40,
    derived: '0.95 of the grip',
  }),
  legWidth: length({
    group: 'Grip',
    help: 'Width of the legs at the feet',
    symbol: 'b_l',
    min: 4,
    max: 60,
    derived: '0.95 of the grip',
  }),
  footThickness: length({
    group: 'Feet',
    help: 'Thickness of the feet',
    symbol: 't_f',
    min: 2,
    max: 20,
    derived: '0.4 of the grip, or what the countersinks need',
  }),
  footWidth: length({
    group: 'Feet',
    help: 'Width of the feet',
    symbol: 'b_f',
    min: 6,
    max: 90,
    derived: 'the leg and its fillets, or what the screws need',
  }),
  screw: screwField('about 0.36 of the grip'),
  holes: holeField,
  pull: number({
    group: 'Load',
    help: 'Pull on the grip, N',
    min: 10,
    max: 10000,
    derived: '100 for each finger',
  }),
  ...strengthField,
  fillet: length({
    group: 'Casting',
    help: 'Radius where the legs run into the feet',
    symbol: 'r_f',
    min: 1,
    max: 30,
    derived: 'half of the leg',
  }),
});
