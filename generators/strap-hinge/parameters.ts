import { z } from 'zod';
import { angle, choice, count, length } from '../../core/part/fields.js';
import { holeField } from '../hardware/screw-holes.js';
import { doorFields } from '../hinge/door-load.js';
import { leafScrewField } from '../hinge/leaf-screws.js';
import { boreField } from '../hinge/pin-bore.js';

const degree = Math.PI / 180;

/** A strap hinge's parameters: mm and radians. */
export const strapHingeParameters = z.object({
  size: length({
    group: 'Size',
    help: 'Length of the strap, pin axis to tip: half the width of its door; every other size follows from it',
    symbol: 'l_s',
    min: 50,
    max: 500,
    default: 180,
  }),
  series: choice(['metric', 'inch'], {
    group: 'Size',
    help: 'Whether worked-out sizes land on half millimetres, metric rod and screws, or on 1/32 in and inch ones',
    default: 'metric',
  }),
  tip: choice(['disc', 'round'], {
    group: 'Strap',
    help: 'End of the strap: a disc about the last screw, or the taper rounded off',
    default: 'disc',
  }),
  openAngle: angle({
    group: 'Size',
    help: 'How far it is to open, from folded together; the sweep is checked over all of it',
    min: 60 * degree,
    max: 270 * degree,
    default: 180 * degree,
  }),
  rootWidth: length({
    group: 'Strap',
    help: 'Width of strap and plate at the knuckles, which is the length of their row',
    symbol: 'b_r',
    min: 14,
    max: 150,
    derived: 'a sixth of the length, at least 20 mm and six pins',
  }),
  tipWidth: length({
    group: 'Strap',
    help: 'Width of the strap at its tip, before the disc',
    symbol: 'b_t',
    min: 6,
    max: 120,
    derived: 'a tenth of the length, at least 12 mm',
  }),
  thickness: length({
    group: 'Strap',
    help: 'Thickness of strap and plate',
    symbol: 't',
    min: 2,
    max: 16,
    derived: 'a fiftieth of the length, at least 3 mm, more where the door asks for it',
  }),
  edge: length({
    group: 'Strap',
    help: 'Rounding of all outside edges',
    symbol: 'r_e',
    min: 0.5,
    max: 3,
    derived: 'a quarter of the thickness, at least 0.8 mm',
  }),
  plateWidth: length({
    group: 'Plate',
    help: "Pin axis to the plate's far edge",
    symbol: 'b_p',
    min: 12,
    max: 200,
    derived: '1.3 of the root width, or as two columns of screws need',
  }),
  pinDiameter: length({
    group: 'Knuckles',
    help: 'Rod the hinge turns on',
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
  knuckles: choice(['auto', '3', '5', '7'], {
    group: 'Knuckles',
    help: 'Knuckles of strap and plate together, odd: the plate has the outer ones; auto: 3 below 64 mm',
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
    help: 'How the pin is held: riveted into countersinks, flush (a drive fit in the plate), by split pins',
    default: 'riveted',
  }),
  strapScrews: count({
    group: 'Screws',
    help: 'Screws along the strap',
    min: 0,
    max: 10,
    derived: 'one for each 90 mm, at least 3',
  }),
  plateScrews: count({ group: 'Screws', help: 'Screws of the plate', min: 0, max: 8, default: 4 }),
  screw: leafScrewField,
  holes: holeField,
  bore: boreField,
  fillet: length({
    group: 'Casting',
    help: 'Between barrel, strap and plate',
    symbol: 'r_f',
    min: 0.8,
    max: 12,
    derived: 'half the thickness, at least 2 mm',
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
  doorWidth: length({
    group: 'Load',
    help: 'Width of the door, hinge edge to latch edge',
    min: 50,
    max: 3000,
    derived: 'twice the strap',
  }),
});

export type StrapHingeParameters = z.output<typeof strapHingeParameters>;
