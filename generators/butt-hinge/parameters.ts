import { z } from 'zod';
import { angle, choice, count, length } from '../../core/part/fields.js';
import { holeField } from '../hardware/screw-holes.js';
import { doorFields } from '../hinge/door-load.js';
import { leafScrewField } from '../hinge/leaf-screws.js';
import { boreField } from '../hinge/pin-bore.js';

const degree = Math.PI / 180;

/** A butt hinge's parameters: mm and radians. */
export const buttHingeParameters = z.object({
  size: length({
    group: 'Size',
    help: 'Length of the leaves along the pin; every other size follows from it',
    symbol: 'l',
    min: 20,
    max: 250,
    default: 76,
  }),
  series: choice(['metric', 'inch'], {
    group: 'Size',
    help: 'Whether worked-out sizes land on half millimetres, metric rod and screws, or on 1/32 in and inch ones',
    default: 'metric',
  }),
  openWidth: length({
    group: 'Size',
    help: 'Width over both leaves, open flat',
    symbol: 'b',
    min: 14,
    max: 250,
    derived: 'the length (a square hinge); narrow ones are two thirds of it',
  }),
  openAngle: angle({
    group: 'Size',
    help: 'How far it is to open, from closed; the sweep is checked over all of it',
    min: 60 * degree,
    max: 270 * degree,
    default: 180 * degree,
  }),
  thickness: length({
    group: 'Leaves',
    help: 'Thickness of the leaves',
    symbol: 't',
    min: 1.5,
    max: 16,
    derived: '1.3 of a rolled steel butt of this length, more where the door asks for it',
  }),
  closedGap: length({
    group: 'Leaves',
    help: 'Between the closed leaves; under the derived value the barrel stands proud of their backs',
    symbol: 'g',
    min: 0.5,
    max: 40,
    derived: 'as puts the backs flush with the barrel',
  }),
  edge: length({
    group: 'Leaves',
    help: 'Rounding of all outside edges',
    symbol: 'r_e',
    min: 0,
    max: 3,
    derived: 'a sixth of the thickness, at least 0.5 mm',
  }),
  pinDiameter: length({
    group: 'Knuckles',
    help: 'Rod the leaves turn on',
    symbol: 'd_p',
    min: 1.5,
    max: 20,
    derived: 'stock rod of about 1.25 of the thickness, more where the door asks for it',
  }),
  pinClearance: length({
    group: 'Knuckles',
    help: 'Finished bore less pin',
    min: 0.02,
    max: 1,
    derived: '0.1 mm and 1 % of the pin',
  }),
  knuckleWall: length({
    group: 'Knuckles',
    help: 'Metal round the bore',
    symbol: 'w',
    min: 1,
    max: 20,
    derived: 'the thickness, at least 0.4 of the pin, more where the door asks for it',
  }),
  knuckles: choice(['auto', '3', '5', '7', '9'], {
    group: 'Knuckles',
    help: 'Knuckles of both leaves together, odd; auto: 3 below 64 mm, 5 to 152, 7 to 254',
    default: 'auto',
  }),
  knuckleGap: length({
    group: 'Knuckles',
    help: 'Room at each joint between two knuckles, finished',
    symbol: 'e',
    min: 0.05,
    max: 2,
    default: 0.3,
  }),
  leafGap: length({
    group: 'Knuckles',
    help: "Room between a leaf's edge and the other's knuckles, finished",
    symbol: 'c',
    min: 0.1,
    max: 6,
    derived: "0.3 mm less than the radius of the notches' corners, at least 0.8 mm",
  }),
  pinEnds: choice(['riveted', 'flush', 'split-pin'], {
    group: 'Knuckles',
    help: 'How the pin is held: riveted into countersinks, flush (a drive fit in the outer leaf), by split pins',
    default: 'riveted',
  }),
  screws: count({
    group: 'Screws',
    help: 'Screws of one leaf; 0 leaves it without holes',
    min: 0,
    max: 8,
    derived: '2 to 51 mm, 3 to 102 mm, 4 beyond',
  }),
  screw: leafScrewField,
  holes: holeField,
  bore: boreField,
  fillet: length({
    group: 'Casting',
    help: 'Between barrel and leaf',
    symbol: 'r_f',
    min: 0.5,
    max: 12,
    derived: 'half the thickness',
  }),
  notchRadius: length({
    group: 'Casting',
    help: "Inner corners of the notches that the other's knuckles run in",
    symbol: 'r_n',
    min: 0.2,
    max: 6,
    derived: '1.5 mm, no more than fits the room before the leaf',
  }),
  ...doorFields,
});

export type ButtHingeParameters = z.output<typeof buttHingeParameters>;
