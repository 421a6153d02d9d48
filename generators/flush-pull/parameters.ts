import { z } from 'zod';
import { angle, choice, count, length, number } from '../../core/part/fields.js';
import { strengthField } from '../hardware/load-fields.js';
import { woodOrMachineScrewField } from '../hardware/screw-field.js';
import { holeField } from '../hardware/screw-holes.js';

const degree = Math.PI / 180;

/** A flush pull's parameters: mm and radians. */
export const flushPullParameters = z.object({
  fingers: count({
    group: 'Size',
    help: 'Fingers that go into the recess; every other size follows from it',
    min: 1,
    max: 4,
    default: 2,
  }),
  hand: choice(['bare', 'gloved'], {
    group: 'Size',
    help: 'Room for bare or gloved fingers',
    default: 'bare',
  }),
  shape: choice(['oval', 'square'], {
    group: 'Size',
    help: 'Plate and recess with half-round ends, or square-ended with round corners',
    default: 'oval',
  }),
  series: choice(['metric', 'inch'], {
    group: 'Size',
    help: 'Whether worked-out sizes land on half millimetres and metric screws, or on 1/32 in and screws by gauge',
    default: 'metric',
  }),
  recessLength: length({
    group: 'Recess',
    help: 'Length of the opening in the face, without the rounding of its rim; the fingers lie along it',
    symbol: 'l_r',
    min: 14,
    max: 200,
    derived: 'the room that the fingers want',
  }),
  recessWidth: length({
    group: 'Recess',
    help: 'Width of the opening, along the pull',
    symbol: 'b_r',
    min: 12,
    max: 80,
    derived: 'the room that bent fingers want',
  }),
  recessDepth: length({
    group: 'Recess',
    help: 'Depth under the face',
    symbol: 'h_r',
    min: 6,
    max: 50,
    derived: 'the room that finger tips want',
  }),
  draft: angle({
    group: 'Recess',
    help: "Lean of the recess's walls; more is a stouter core in the mould and less to hold on to",
    min: 0,
    max: 25 * degree,
    default: 8 * degree,
  }),
  floorFillet: length({
    group: 'Recess',
    help: 'Radius between wall and floor: what makes a dish of it',
    symbol: 'r_f',
    min: 1,
    max: 40,
    derived: '0.65 of the depth, as far as recess and cup have room for it',
  }),
  rimRadius: length({
    group: 'Recess',
    help: 'Rounding of its rim, which the fingers hold by',
    symbol: 'r_r',
    min: 0.5,
    max: 8,
    derived: '0.12 of the depth, at least 1.5 mm',
  }),
  recessCorner: length({
    group: 'Recess',
    help: 'Corners of a square-ended opening, in plan',
    symbol: 'r_c',
    min: 2,
    max: 40,
    derived: '0.36 of the width',
  }),
  wall: length({
    group: 'Recess',
    help: 'Thickness of the cup round the recess',
    symbol: 't_w',
    min: 1,
    max: 10,
    derived: 'the plate, at most 3 mm',
  }),
  plateLength: length({
    group: 'Plate',
    help: 'Length of the plate',
    symbol: 'L',
    min: 24,
    max: 320,
    derived: 'the opening and the room that the screws want at its ends',
  }),
  plateWidth: length({
    group: 'Plate',
    help: 'Width of the plate',
    symbol: 'B',
    min: 16,
    max: 160,
    derived: 'the opening and a rim of 0.22 of its width on either side',
  }),
  plateThickness: length({
    group: 'Plate',
    help: 'Thickness of the plate, which is let into the wood',
    symbol: 't_p',
    min: 1.5,
    max: 12,
    derived: 'what the countersinks need, at least 2.5 mm',
  }),
  fasteners: choice(['auto', '2', '4'], {
    group: 'Fasteners',
    help: 'How many screws; auto: two, or four in the corners of a square-ended plate',
    default: 'auto',
  }),
  screw: woodOrMachineScrewField('a wood screw of about 3 mm and 0.35 mm for each finger'),
  holes: holeField,
  pull: number({
    group: 'Load',
    help: 'Pull along the door, N',
    min: 10,
    max: 5000,
    derived: '100 for each finger',
  }),
  ...strengthField,
  fillet: length({
    group: 'Casting',
    help: 'Between cup and plate, on the hidden side',
    symbol: 'r_u',
    min: 0.8,
    max: 8,
    derived: 'half of their thickness, at least 1.5 mm',
  }),
});
