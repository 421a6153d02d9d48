import { choice, count, length, number } from '../../core/part/fields.js';

const body = 'Body';
const bore = 'Bore and hub';

/** Parameters of the gear body below the teeth. */
export const bodyFields = {
  faceWidth: length({ min: 3, max: 150, default: 20, help: 'Face width', group: body, symbol: 'b' }),
  webThickness: length({
    min: 1,
    max: 150,
    derived: 'faceWidth (a solid disc); half of it with spokes',
    help: 'Web or spokes between hub and rim, half way up',
    group: body,
  }),
  rimThickness: length({
    min: 1,
    max: 100,
    derived: '1.2 tooth depths',
    help: 'Rim below the root circle, where there is a web',
    group: body,
  }),
  spokes: count({ min: 0, max: 12, default: 0, help: 'Number of spokes; 0 for a plain web', group: body }),
  spokeWidth: length({
    min: 1,
    max: 100,
    derived: 'so that spokes and rim are alike in modulus',
    help: 'Width of a spoke at the hub',
    group: body,
  }),
  spokeTaper: number({
    min: 0.5,
    max: 1,
    default: 0.8,
    help: 'Width of a spoke at the rim, as a share of that at the hub; 1 for straight',
    group: body,
  }),
  holes: count({ min: 0, max: 12, default: 0, help: 'Number of lightening holes', group: body }),
  holeDiameter: length({
    min: 2,
    max: 200,
    derived: 'half of the room between hub and rim',
    help: 'Diameter of the lightening holes',
    group: body,
  }),
  edgeChamfer: length({
    min: 0,
    max: 5,
    default: 0,
    help: '45° chamfer of the tooth tips at the side faces, which fills better',
    group: body,
  }),
  bore: length({
    min: 0,
    max: 200,
    default: 10,
    help: 'Finished bore, or size across the flats; 0 for none',
    group: bore,
    symbol: 'D',
  }),
  boreShape: choice(['round', 'keyed', 'flat', 'hexagon', 'square'], {
    default: 'round',
    help: 'Shape of the bore; keyed: round with a parallel keyway, flat: D-shaped',
    group: bore,
  }),
  keyStandard: choice(['metric', 'inch'], {
    default: 'metric',
    help: 'Keyway by ISO/R 773 or by ANSI B17.1',
    group: bore,
  }),
  boreFlat: length({
    min: 1,
    max: 200,
    derived: '0.9 bores',
    help: 'D-shaped bore: from the flat to the round opposite',
    group: bore,
  }),
  boreCasting: choice(['auto', 'cored', 'pilot', 'solid'], {
    default: 'auto',
    help: 'Cast the bore with its stock, as a smaller pilot, or solid with a dimple to drill from; auto: by the core limit',
    group: bore,
  }),
  hub: choice(['none', 'one', 'lower', 'both'], {
    default: 'none',
    help: 'Raised hub: none, on the upper side (one), on the lower side, or on both',
    group: bore,
  }),
  hubDiameter: length({
    min: 2,
    max: 300,
    derived: '1.8 bores, or 0.4 root diameters without a bore',
    help: 'Hub diameter',
    group: bore,
  }),
  hubLength: length({
    min: 1,
    max: 100,
    derived: 'a quarter of faceWidth',
    help: 'Rise of the hub above the side face',
    group: bore,
  }),
  setscrew: choice(['none', 'M3', 'M4', 'M5', 'M6', 'M8', 'M10', 'M12'], {
    default: 'none',
    help: 'Setscrew in the raised hub, in a boss where the hub is too thin for its thread',
    group: bore,
  }),
};
