import { z } from 'zod';
import { angle, choice, count, length, number } from '../../core/part/fields.js';
import { strengthField } from '../hardware/load-fields.js';
import { screwField } from '../hardware/screw-field.js';
import { holeField } from '../hardware/screw-holes.js';

const degree = Math.PI / 180;

/** A hatch pull's parameters: mm and radians. */
export const hatchPullParameters = z.object({
  size: length({
    group: 'Size',
    help: 'Clear opening for a finger, along the pull; every other size follows from it',
    min: 12,
    max: 100,
    default: 32,
  }),
  fingers: count({
    group: 'Size',
    help: 'Fingers the eye is for: 1 makes it round, 2 an oval across the pull',
    min: 1,
    max: 2,
    default: 1,
  }),
  series: choice(['metric', 'inch'], {
    group: 'Size',
    help: 'Whether worked-out sizes land on half millimetres and metric rod, or on 1/32 in and inch rod',
    default: 'metric',
  }),
  section: choice(['bevelled', 'oval'], {
    group: 'Size',
    help: 'Section of the rim: flat with bevelled edges, or oval with a flat on the underside',
    default: 'bevelled',
  }),
  tab: choice(['square', 'round', 'leaf', 'plate'], {
    group: 'Size',
    help: 'Square or round tab on a hinge pin; leaf with two screws in line or plate with two abreast',
    default: 'square',
  }),
  eyeWidth: length({
    group: 'Eye',
    help: 'Clear opening across the pull',
    symbol: 'w_e',
    min: 10,
    max: 150,
    derived: 'the size; 65/32 of it for two fingers',
  }),
  eyeLength: length({
    group: 'Eye',
    help: 'Clear opening along the pull',
    symbol: 'l_e',
    min: 10,
    max: 150,
    derived: 'the size',
  }),
  rimWidth: length({
    group: 'Eye',
    help: 'Width of the rim round the eye, seen from above',
    symbol: 'b_r',
    min: 3,
    max: 40,
    derived: 'the thickness; 1.2 of it where oval',
  }),
  thickness: length({
    group: 'Eye',
    help: 'Thickness of the rim, and of a bevelled tab',
    symbol: 't',
    min: 3,
    max: 40,
    derived: '3 mm + size / 5',
  }),
  bevel: length({
    group: 'Eye',
    help: 'Leg of the 45° bevel on all edges of a bevelled rim, eye and tab; 0 for sharp edges',
    symbol: 'c',
    min: 0,
    max: 15,
    derived: '0.22 of the thinner of rim width and thickness',
  }),
  lipLength: length({
    group: 'Eye',
    help: 'How far the underside is relieved from the free end towards the eye; under 0.5 mm for no lip',
    symbol: 'l_l',
    min: 0,
    max: 40,
    derived:
      'rim width less bevel less 0.5 mm, as far as 0.6 of the thickness is left; only on the bevelled rim with a square tab',
  }),
  lipAngle: angle({
    group: 'Eye',
    help: 'Angle of the relieved underside to the show face, so that a finger tip gets under it',
    symbol: 'θ_l',
    min: 5 * degree,
    max: 40 * degree,
    default: 25 * degree,
  }),
  tabWidth: length({
    group: 'Tab',
    help: 'Width of the tab; the sides of a hinged one run in the bracket',
    symbol: 'b_t',
    min: 4,
    max: 120,
    derived: '0.7 of the size; 0.8 for two fingers; a screwed one as the screws need',
  }),
  tabThickness: length({
    group: 'Tab',
    help: 'Thickness of the tab of an oval ring, from the underside; a bevelled tab is as thick as its rim',
    symbol: 't_t',
    min: 2,
    max: 38,
    derived: '0.85 of the thickness, or what the countersinks need',
  }),
  tabLength: length({
    group: 'Tab',
    help: "Length of a screwed tab, from the rim's back to the tab's end",
    symbol: 'l_t',
    min: 5,
    max: 150,
    derived: 'as fillets, screws and gate need',
  }),
  pinDiameter: length({
    group: 'Tab',
    help: 'Rod the pull hinges on',
    symbol: 'd_p',
    min: 1.5,
    max: 16,
    derived: 'the thickest rod of the series that leaves a third of the hole above and below',
  }),
  pinClearance: length({
    group: 'Tab',
    help: 'Hole diameter less pin diameter',
    min: 0,
    max: 1,
    default: 0.2,
  }),
  pinDistance: length({
    group: 'Tab',
    help: "Pin axis to the eye's near edge",
    symbol: 'a_p',
    min: 5,
    max: 150,
    derived: 'just behind the rim and its fillets',
  }),
  pinToEnd: length({
    group: 'Tab',
    help: "Pin axis to the tab's end",
    symbol: 'e_p',
    min: 2,
    max: 60,
    derived: 'half the thickness, more if the hole or a round end needs it',
  }),
  screw: screwField('about 0.45 of the thickness'),
  holes: holeField,
  pull: number({
    group: 'Load',
    help: 'Pull of the fingers, N',
    min: 10,
    max: 5000,
    derived: '100 for one finger, 200 for two',
  }),
  ...strengthField,
  hole: choice(['auto', 'cored', 'drilled'], {
    group: 'Casting',
    help: 'Pin hole in the casting: cored where the mould allows it, always, or never (marked for the drill)',
    default: 'auto',
  }),
  filletRadius: length({
    group: 'Casting',
    help: 'Fillets where the tab meets the rim',
    symbol: 'r_f',
    min: 0.5,
    max: 30,
    derived: 'half the thickness',
  }),
});

export type HatchPullParameters = z.output<typeof hatchPullParameters>;
