import { z } from 'zod';
import { angle, choice, length } from '../../core/part/fields.js';
import { lineFields, lineLoadFields, strengthField } from '../hardware/load-fields.js';
import { screwField } from '../hardware/screw-field.js';
import { holeField } from '../hardware/screw-holes.js';

const degree = Math.PI / 180;

/** A jam cleat's parameters: mm and radians. */
export const jamCleatParameters = z.object({
  ...lineFields(8),
  series: choice(['metric', 'inch'], {
    group: 'Size',
    help: 'Whether worked-out sizes land on half millimetres and metric screws, or on 1/32 in and inch screws',
    default: 'metric',
  }),
  mouth: length({
    group: 'Throat',
    help: 'Height of the throat at its mouth',
    symbol: 'w_m',
    min: 4,
    max: 60,
    derived: '1.3 line diameters',
  }),
  end: length({
    group: 'Throat',
    help: 'Height of the throat at its inner end, where the line can go no further',
    symbol: 'w_e',
    min: 1.5,
    max: 30,
    derived: '0.6 of the line diameter',
  }),
  taper: angle({
    group: 'Throat',
    help: 'Angle between the walls of the throat',
    symbol: 'α',
    min: 4 * degree,
    max: 25 * degree,
    default: 8 * degree,
  }),
  width: length({
    group: 'Body',
    help: 'Width of base, post and horns across the cleat',
    symbol: 'b',
    min: 6,
    max: 60,
    derived: '1.75 line diameters, or as the screw through the post needs',
  }),
  hornHeight: length({
    group: 'Body',
    help: 'Height of the jamming horn at the post',
    symbol: 'h_r',
    min: 4,
    max: 60,
    derived: '1.75 line diameters',
  }),
  post: length({
    group: 'Body',
    help: 'Length of the post along the cleat',
    symbol: 'l_p',
    min: 4,
    max: 80,
    derived: '2.4 line diameters, or as its screw needs',
  }),
  backHorn: length({
    group: 'Body',
    help: 'How far the other horn reaches from the post, for a round turn; under 2 mm for none',
    symbol: 'l_h',
    min: 0,
    max: 120,
    derived: '2.25 line diameters',
  }),
  baseThickness: length({
    group: 'Body',
    help: 'Thickness of the base',
    symbol: 't',
    min: 2,
    max: 30,
    derived: '0.8 of the line diameter, or as the countersink needs',
  }),
  screw: screwField('the thinnest that is half as thick as the line and bears its pull'),
  holes: holeField,
  edge: length({
    group: 'Casting',
    help: 'Rounding of all edges along both sides, over which the line runs',
    symbol: 'r_e',
    min: 0.5,
    max: 10,
    derived: 'a fifth of the line diameter, a fifth of the width at most',
  }),
  fillet: length({
    group: 'Casting',
    help: 'Radius of the inside corners of post and base',
    symbol: 'r_f',
    min: 0.5,
    max: 20,
    derived: 'half the line diameter',
  }),
  ...lineLoadFields,
  ...strengthField,
});

export type JamCleatParameters = z.output<typeof jamCleatParameters>;
