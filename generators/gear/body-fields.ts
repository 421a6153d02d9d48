import { choice, length } from '../../core/part/fields.js';

const group = 'Body';

/** Parameters of the gear body below the teeth. */
export const bodyFields = {
  faceWidth: length({ min: 3, max: 150, default: 20, help: 'Face width', group, symbol: 'b' }),
  bore: length({ min: 0, max: 200, default: 10, help: 'Finished bore; 0 for none', group, symbol: 'D' }),
  hub: choice(['none', 'one', 'both'], {
    default: 'none',
    help: 'Raised hub: none, on the upper side (one) or on both sides',
    group,
  }),
  hubDiameter: length({
    min: 2,
    max: 300,
    derived: '1.8 bores, or 0.4 root diameters without a bore',
    help: 'Hub diameter',
    group,
  }),
  hubLength: length({
    min: 1,
    max: 100,
    derived: 'a quarter of faceWidth',
    help: 'Rise of the hub above the side face',
    group,
  }),
  webThickness: length({
    min: 1,
    max: 150,
    derived: 'faceWidth (no web: a solid disc)',
    help: 'Web between hub and rim, half way up',
    group,
  }),
  rimThickness: length({
    min: 1,
    max: 100,
    derived: '1.2 tooth depths',
    help: 'Rim below the root circle, where there is a web',
    group,
  }),
};
