import { z } from 'zod';
import { choice, length } from '../../core/part/fields.js';
import { lineFields, lineLoadFields, strengthField } from '../hardware/load-fields.js';
import { screwField } from '../hardware/screw-field.js';
import { holeField } from '../hardware/screw-holes.js';

/** A horn cleat's parameters, mm. */
export const hornCleatParameters = z.object({
  ...lineFields(10),
  base: choice(['open', 'closed'], {
    group: 'Size',
    help: 'Open: two legs with room for an eye splice between them; closed: one neck',
    default: 'open',
  }),
  fasteners: choice(['auto', '2', '4'], {
    group: 'Size',
    help: 'Two go down through the legs or the neck, four through the corners of the base; auto: four from 178 mm',
    default: 'auto',
  }),
  series: choice(['metric', 'inch'], {
    group: 'Size',
    help: 'Whether worked-out sizes land on half millimetres and metric screws, or on 1/32 in and inch screws',
    default: 'metric',
  }),
  length: length({
    group: 'Horns',
    help: 'Overall length, horn tip to horn tip',
    symbol: 'L',
    min: 60,
    max: 400,
    derived: '16 line diameters',
  }),
  hornHeight: length({
    group: 'Horns',
    help: 'Height of the horns in the middle, where they are thickest',
    symbol: 'h_r',
    min: 5,
    max: 45,
    derived: '0.095 of the length, at least 1.1 line diameters',
  }),
  tipHeight: length({
    group: 'Horns',
    help: 'Height of a horn where its rounded tip begins',
    symbol: 'h_t',
    min: 3,
    max: 40,
    derived: '0.58 of the horn height',
  }),
  sweep: length({
    group: 'Horns',
    help: 'How far the horns sweep up, tip over middle, along their centre line',
    symbol: 's',
    min: 0,
    max: 60,
    derived: '0.055 of the length',
  }),
  clearance: length({
    group: 'Horns',
    help: 'Free height between base and horns, in the middle',
    symbol: 'h_1',
    min: 5,
    max: 80,
    derived: '1.5 line diameters, at least a tenth of the length',
  }),
  legLength: length({
    group: 'Base',
    help: 'Thickness of a leg, or length of the neck, along the cleat',
    symbol: 'l_l',
    min: 4,
    max: 120,
    derived: '1.2 of the horn height, 1.3 round screws; a neck 0.24 of the length, 0.27 round screws',
  }),
  legWidth: length({
    group: 'Base',
    help: 'Thickness of legs or neck across the cleat',
    symbol: 'b_l',
    min: 4,
    max: 45,
    derived: '0.84 of the horn height',
  }),
  opening: length({
    group: 'Base',
    help: 'Clear width between the legs of an open base',
    symbol: 'w_o',
    min: 4,
    max: 150,
    derived: '1.75 line diameters; what the screws leave where they go through the legs',
  }),
  baseLength: length({
    group: 'Base',
    help: 'Length of the base',
    symbol: 'l_b',
    min: 20,
    max: 250,
    derived: '0.42 of the length, or as legs and screws need',
  }),
  baseWidth: length({
    group: 'Base',
    help: 'Width of the base',
    symbol: 'b_b',
    min: 8,
    max: 150,
    derived: '0.16 of the length, or as legs and screws need',
  }),
  baseThickness: length({
    group: 'Base',
    help: 'Thickness of the base',
    symbol: 't',
    min: 2,
    max: 30,
    derived: 'half the horn height, or as the countersinks need',
  }),
  screw: screwField('the thinnest that is half as thick as the line and bears its pull'),
  holes: holeField,
  fillet: length({
    group: 'Casting',
    help: 'Radius where legs or neck run into horns and base',
    symbol: 'r_f',
    min: 1,
    max: 30,
    derived: '0.38 of the horn height',
  }),
  ...lineLoadFields,
  ...strengthField,
});

export type HornCleatParameters = z.output<typeof hornCleatParameters>;
