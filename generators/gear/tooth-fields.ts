import { angle, choice, count, length, number } from '../../core/part/fields.js';

const group = 'Teeth';
const degrees = Math.PI / 180;

/** Parameters of the tooth that every gear shares. */
export const toothFields = {
  module: length({
    min: 0.5,
    max: 12,
    derived: '2 mm, or 25.4 mm / diametralPitch',
    help: 'Normal module',
    group,
    symbol: 'm_n',
  }),
  diametralPitch: number({
    min: 2,
    max: 50.8,
    derived: 'not used',
    help: 'Normal diametral pitch, teeth an inch; instead of the module',
    group,
    symbol: 'P_n',
  }),
  teeth: count({ min: 6, max: 200, default: 24, help: 'Tooth number', group, symbol: 'z' }),
  pressureAngle: angle({
    min: 14 * degrees,
    max: 30 * degrees,
    default: 20 * degrees,
    help: 'Normal pressure angle',
    group,
    symbol: 'alpha_n',
  }),
  profileShift: number({
    min: -0.8,
    max: 1,
    default: 0,
    help: 'Profile shift coefficient',
    group,
    symbol: 'x',
  }),
  rackProfile: choice(['A', 'B', 'C', 'D'], {
    default: 'A',
    help: 'Basic rack of ISO 53: A has the largest root fillet, D the deepest root',
    group,
  }),
  addendum: number({
    min: 0.5,
    max: 1.3,
    derived: 'from rackProfile',
    help: 'Addendum factor',
    group,
    symbol: 'h_aP*',
  }),
  dedendum: number({
    min: 0.7,
    max: 1.6,
    derived: 'from rackProfile',
    help: 'Dedendum factor',
    group,
    symbol: 'h_fP*',
  }),
  rootRadius: number({
    min: 0,
    max: 0.5,
    derived: 'from rackProfile, or the largest that fits',
    help: 'Root fillet radius factor of the rack',
    group,
    symbol: 'rho_fP*',
  }),
  thinning: length({
    min: 0,
    max: 2,
    default: 0,
    help: 'Reduction of the normal tooth thickness for backlash',
    group,
  }),
  tipShortening: length({
    min: 0,
    max: 3,
    default: 0,
    help: 'Taken off the tip radius, so that a pair with profile shift keeps its tip clearance',
    group,
  }),
  tipRounding: length({
    min: 0,
    max: 3,
    default: 0,
    help: 'Rounding of the tooth tip corners, which fills better',
    group,
  }),
};

/** Parameters of the helix, for gears that have one. */
export const helixAngleField = angle({
  min: 1 * degrees,
  max: 45 * degrees,
  default: 20 * degrees,
  help: 'Helix angle at the reference cylinder',
  group,
  symbol: 'beta',
});
