import { z } from 'zod';
import { bolts } from '../../core/hardware/index.js';
import { angle, choice, length, number } from '../../core/part/fields.js';
import { strengthField } from '../hardware/load-fields.js';

const degree = Math.PI / 180;
const names = ['auto', ...bolts.metric, ...bolts.inch].map((b) => (typeof b === 'string' ? b : b.name));

/** A knob's parameters, mm and radians. */
export const knobParameters = z.object({
  size: length({
    group: 'Size',
    help: 'Diameter of the head; every other size follows from it',
    symbol: 'D',
    min: 12,
    max: 100,
    default: 32,
  }),
  fixing: choice(['bolt', 'insert', 'stud'], {
    group: 'Size',
    help: 'Thread tapped for a bolt from behind, pocket for a threaded insert, or tapped for a hanger bolt',
    default: 'bolt',
  }),
  series: choice(['metric', 'inch'], {
    group: 'Size',
    help: 'Whether worked-out sizes land on half millimetres and metric bolts, or on 1/32 in and inch bolts',
    default: 'metric',
  }),
  projection: length({
    group: 'Profile',
    help: 'From the foot to the crown',
    symbol: 'H',
    min: 10,
    max: 120,
    derived: '0.95 of the size',
  }),
  dome: length({
    group: 'Profile',
    help: 'Height of the domed crown over its edge; 0 for a flat face',
    symbol: 'h_d',
    min: 0,
    max: 25,
    derived: '0.09 of the size',
  }),
  rim: length({
    group: 'Profile',
    help: "Height of the head's edge before it is rounded",
    symbol: 'h_r',
    min: 2,
    max: 40,
    derived: '0.26 of the size',
  }),
  slope: angle({
    group: 'Profile',
    help: "Angle of the head's back to the door",
    symbol: 'φ',
    min: 0,
    max: 60 * degree,
    default: 28 * degree,
  }),
  spindle: length({
    group: 'Profile',
    help: 'Diameter of the spindle between head and foot',
    symbol: 'd_s',
    min: 4,
    max: 60,
    derived: '0.38 of the size, at least what its thread needs',
  }),
  foot: length({
    group: 'Profile',
    help: 'Diameter of the foot',
    symbol: 'd_f',
    min: 5,
    max: 100,
    derived: '0.62 of the size',
  }),
  footThickness: length({
    group: 'Profile',
    help: 'Thickness of the foot at its edge',
    symbol: 't_f',
    min: 1.5,
    max: 20,
    derived: '0.1 of the size, at least 3 mm',
  }),
  thread: choice(names as [string, ...string[]], {
    group: 'Fixing',
    help: 'Bolt, insert or hanger bolt; auto: about 0.16 of the size',
    default: 'auto',
  }),
  depth: length({
    group: 'Fixing',
    help: 'Full thread, or length of the insert',
    symbol: 'l_t',
    min: 3,
    max: 60,
    derived: '1.5 diameters of the bolt; the usual length of the insert',
  }),
  door: length({
    group: 'Fixing',
    help: 'Thickness of the door, for the cut list',
    min: 4,
    max: 80,
    default: 20,
  }),
  pull: number({
    group: 'Load',
    help: 'Pull on the knob, N',
    min: 10,
    max: 5000,
    default: 200,
  }),
  ...strengthField,
  hole: choice(['auto', 'cored', 'drilled'], {
    group: 'Casting',
    help: 'Hole in the casting: cored where the mould allows it, always, or never',
    default: 'auto',
  }),
  fillet: length({
    group: 'Casting',
    help: 'Inside radius where the spindle runs into head and foot',
    symbol: 'r_f',
    min: 1,
    max: 40,
    derived: 'as large as looks well: 0.2 of the size into the head, less into the foot',
  }),
});
