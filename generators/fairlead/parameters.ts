import { z } from 'zod';
import { angle, choice, length } from '../../core/part/fields.js';
import { flangeFields } from '../hardware/flange-fields.js';
import { lineFields, lineLoadFields, strengthField } from '../hardware/load-fields.js';

const degree = Math.PI / 180;

/** A fairlead's parameters: mm and radians. */
export const fairleadParameters = z.object({
  ...lineFields(10),
  style: choice(['closed', 'open'], {
    group: 'Size',
    help: 'Closed: a ring the line is led through; open: a bow chock with a gap on top that it is dropped in by',
    default: 'closed',
  }),
  series: choice(['metric', 'inch'], {
    group: 'Size',
    help: 'Whether worked-out sizes land on half millimetres and metric screws, or on 1/32 in and inch screws',
    default: 'metric',
  }),
  openingWidth: length({
    group: 'Opening',
    help: 'Clear width of the opening, along the base',
    symbol: 'w_o',
    min: 6,
    max: 120,
    derived: '3 line diameters',
  }),
  openingHeight: length({
    group: 'Opening',
    help: 'Clear height of the opening',
    symbol: 'h_o',
    min: 6,
    max: 100,
    derived: '2 line diameters: line, splice and chafing gear pass',
  }),
  gap: length({
    group: 'Opening',
    help: 'Gap on top of an open chock',
    symbol: 'g',
    min: 3,
    max: 60,
    derived: '1.2 line diameters',
  }),
  thickness: length({
    group: 'Lip',
    help: 'Thickness of the lip round the opening, seen along the line',
    symbol: 'b_l',
    min: 3,
    max: 50,
    derived: '0.9 of the line diameter, or as its pull needs',
  }),
  depth: length({
    group: 'Lip',
    help: 'Depth of the lip along the line; its rounding to the thickness is what the line bends over',
    symbol: 'c_l',
    min: 4,
    max: 100,
    derived: 'so that the line bends over a radius of 2 line diameters',
  }),
  turn: angle({
    group: 'Load',
    help: 'Angle that the line turns through in the fairlead',
    symbol: 'θ',
    min: 5 * degree,
    max: 120 * degree,
    default: 60 * degree,
  }),
  ...flangeFields,
  fillet: length({
    group: 'Casting',
    help: 'Radius where the lip runs into the base',
    symbol: 'r_f',
    min: 1,
    max: 25,
    derived: 'half the mean of both sections, as far as the opening lets it',
  }),
  ...lineLoadFields,
  ...strengthField,
});

export type FairleadParameters = z.output<typeof fairleadParameters>;
