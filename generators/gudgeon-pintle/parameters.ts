import { z } from 'zod';
import { type RodMaterial, rodMaterials } from '../../core/hardware/index.js';
import { choice, count, length, number } from '../../core/part/fields.js';
import { strengthField } from '../hardware/load-fields.js';
import { screwField } from '../hardware/screw-field.js';
import { holeField } from '../hardware/screw-holes.js';

/** A pintle's and its gudgeon's parameters: mm. */
export const gudgeonPintleParameters = z.object({
  size: length({
    group: 'Size',
    help: 'Depth of the rudder blade under water; the load, the pintle and every other size follow from it',
    symbol: 'h',
    min: 150,
    max: 1500,
    default: 600,
  }),
  series: choice(['metric', 'inch'], {
    group: 'Size',
    help: 'Whether worked-out sizes land on half millimetres, metric rod and screws, or on 1/32 in and inch ones',
    default: 'metric',
  }),
  position: choice(['lower', 'upper'], {
    group: 'Size',
    help: 'The upper pintle is a pin diameter shorter, so that the two enter one after the other',
    default: 'lower',
  }),
  mount: choice(['plate', 'strap'], {
    group: 'Gudgeon',
    help: 'Gudgeon on a plate for a flat transom, or on a strap that embraces a sternpost',
    default: 'plate',
  }),
  bladeThickness: length({
    group: 'Pintle',
    help: 'Thickness of the rudder that the pintle’s strap embraces',
    symbol: 'b',
    min: 10,
    max: 80,
    derived: 'a twenty-fifth of the blade depth, at least 16 mm',
  }),
  postThickness: length({
    group: 'Gudgeon',
    help: 'Thickness of the sternpost that a strap gudgeon embraces',
    symbol: 'b_s',
    min: 10,
    max: 120,
    derived: 'the blade’s thickness',
  }),
  pintleDiameter: length({
    group: 'Pintle',
    help: 'Pin of the pintle',
    symbol: 'd',
    min: 4,
    max: 30,
    derived: 'the thinnest stock rod that bears the rudder’s force',
  }),
  pintleLength: length({
    group: 'Pintle',
    help: 'Pin from its shoulder to its tip',
    symbol: 'l_p',
    min: 6,
    max: 150,
    derived: 'the gudgeon and a fifth of the pin; one pin diameter more on the lower one',
  }),
  pin: choice(['cast', 'rod'], {
    group: 'Pintle',
    help: 'Pin cast in one with its strap, or cut from rod and riveted into it',
    default: 'cast',
  }),
  clearance: length({
    group: 'Gudgeon',
    help: 'Hole of the gudgeon less pin, finished',
    min: 0.05,
    max: 3,
    derived: '0.3 mm and a fiftieth of the pin',
  }),
  strapWidth: length({
    group: 'Straps',
    help: 'Width of straps and plate along the pin: the bearing of the gudgeon too',
    symbol: 'w',
    min: 8,
    max: 80,
    derived: 'two pin diameters, at least 15 mm',
  }),
  thickness: length({
    group: 'Straps',
    help: 'Thickness of straps and plate',
    symbol: 't',
    min: 2.5,
    max: 15,
    derived: '0.4 of the pin, at least 4 mm',
  }),
  wall: length({
    group: 'Straps',
    help: 'Metal round the gudgeon’s hole',
    symbol: 'a',
    min: 2,
    max: 25,
    derived: 'half the pin, at least the thickness',
  }),
  strapLength: length({
    group: 'Straps',
    help: 'Length of a strap on the wood it embraces; the plate is half as far to each side',
    symbol: 'l_s',
    min: 20,
    max: 300,
    derived: 'as its screws need, at least 60 mm',
  }),
  edge: length({
    group: 'Straps',
    help: 'Rounding of all outside edges',
    symbol: 'r_e',
    min: 0.3,
    max: 3,
    derived: 'a fifth of the thickness, at least 0.7 mm',
  }),
  fillet: length({
    group: 'Casting',
    help: 'Inner corners, and the root of a cast pin',
    symbol: 'r_f',
    min: 0.8,
    max: 8,
    derived: 'half the thickness',
  }),
  screws: count({
    group: 'Fasteners',
    help: 'Bolts through a strap, or screws on each side of the plate',
    min: 1,
    max: 4,
    default: 2,
  }),
  screw: screwField('the thickest that straps and plate hold'),
  holes: holeField,
  bore: choice(['drilled', 'cored'], {
    group: 'Casting',
    help: 'Hole for the pin: left to the drill, the sprue standing on the boss; or cored, the sprue beside it',
    default: 'drilled',
  }),
  bladeWidth: length({
    group: 'Load',
    help: 'Width of the rudder blade, fore and aft',
    min: 50,
    max: 1000,
    derived: '0.4 of its depth',
  }),
  speed: number({
    group: 'Load',
    help: 'Speed of the boat with the rudder hard over, knots',
    min: 1,
    max: 15,
    default: 5,
  }),
  lowerHeight: length({
    group: 'Load',
    help: 'Lower gudgeon above the foot of the blade',
    min: 0,
    max: 2000,
    derived: 'half the blade’s depth',
  }),
  spacing: length({
    group: 'Load',
    help: 'Lower to upper gudgeon',
    min: 60,
    max: 2000,
    derived: '0.6 of the blade’s depth',
  }),
  pinMaterial: choice(rodMaterials as [RodMaterial, ...RodMaterial[]], {
    group: 'Load',
    help: 'Rod that a pin of rod is cut from',
    default: 'silicon bronze',
  }),
  ...strengthField,
});

export type GudgeonPintleParameters = z.output<typeof gudgeonPintleParameters>;
