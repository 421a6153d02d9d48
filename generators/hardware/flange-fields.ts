import { choice, length } from '../../core/part/fields.js';
import { screwField } from './screw-field.js';
import { holeField } from './screw-holes.js';

/** The parameters of a base plate with screws. */
export const flangeFields = {
  baseLength: length({
    group: 'Base',
    help: 'Length of the base',
    symbol: 'l_b',
    min: 15,
    max: 300,
    derived: 'as foot, fillets and screws need',
  }),
  baseWidth: length({
    group: 'Base',
    help: 'Width of the base',
    symbol: 'b_b',
    min: 8,
    max: 150,
    derived: 'as foot, fillets and screws need',
  }),
  baseThickness: length({
    group: 'Base',
    help: 'Thickness of the base',
    symbol: 't',
    min: 2,
    max: 30,
    derived: '0.6 of the line diameter, or as the countersinks need',
  }),
  fasteners: choice(['auto', '2', '4'], {
    group: 'Fasteners',
    help: 'Screws in the base; auto: four from lines of 12 mm',
    default: 'auto',
  }),
  screw: screwField('the thinnest that is half as thick as the line and bears its pull'),
  holes: holeField,
};

/** Four screws from lines this thick, mm (common practice, no source). */
const fourFrom = 12;

export const screwCount = (asked: 'auto' | '2' | '4' | string, line: number): 2 | 4 =>
  asked === '2' || (asked === 'auto' && line < fourFrom) ? 2 : 4;
