import { z } from 'zod';
import { choice, length } from '../../core/part/fields.js';
import { flangeFields } from '../hardware/flange-fields.js';
import { lineFields, lineLoadFields, strengthField } from '../hardware/load-fields.js';

/** A deck eye's parameters, mm. */
export const deckEyeParameters = z.object({
  ...lineFields(10),
  eye: choice(['ring', 'lug'], {
    group: 'Size',
    help: 'Ring: a round bar for a line, hook or snap; lug: a plate with a hole for a shackle pin',
    default: 'ring',
  }),
  series: choice(['metric', 'inch'], {
    group: 'Size',
    help: 'Whether worked-out sizes land on half millimetres and metric screws, or on 1/32 in and inch screws',
    default: 'metric',
  }),
  opening: length({
    group: 'Ring',
    help: 'Clear width of the ring',
    symbol: 'w_o',
    min: 6,
    max: 80,
    derived: '2 line diameters: line, splice and thimble pass',
  }),
  bar: length({
    group: 'Ring',
    help: "Thickness of the ring's bar",
    symbol: 'd_b',
    min: 3,
    max: 40,
    derived: '0.8 of the line diameter, or as its pull needs',
  }),
  pin: length({
    group: 'Lug',
    help: "Diameter of the shackle's pin",
    symbol: 'd_p',
    min: 3,
    max: 30,
    derived: 'the thinnest stock rod from 0.8 of the line diameter',
  }),
  pinClearance: length({
    group: 'Lug',
    help: 'Hole diameter less pin diameter',
    min: 0,
    max: 3,
    default: 0.5,
  }),
  lugThickness: length({
    group: 'Lug',
    help: 'Thickness of the lug, between the arms of the shackle',
    symbol: 't_l',
    min: 3,
    max: 40,
    derived: '1.1 pin diameters',
  }),
  lugRadius: length({
    group: 'Lug',
    help: "Radius of the lug about its hole, which is also the hole's distance from the edge",
    symbol: 'r_l',
    min: 4,
    max: 60,
    derived: 'the hole diameter, or as the pull needs',
  }),
  ...flangeFields,
  fillet: length({
    group: 'Casting',
    help: 'Radius where ring or lug runs into the base',
    symbol: 'r_f',
    min: 1,
    max: 25,
    derived: 'half the mean of both sections',
  }),
  ...lineLoadFields,
  ...strengthField,
});

export type DeckEyeParameters = z.output<typeof deckEyeParameters>;
