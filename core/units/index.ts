/** Reading and printing quantities. Inside the program: mm, g, °C, s, radians. */

export { type AngleStyle, degrees, formatAngle, parseAngle, radians } from './angle.js';
export { type DurationUnit, formatDuration, parseDuration } from './duration.js';
export { formatNumber, type NumberFormat } from './format-number.js';
export {
  formatLength,
  type LengthFormat,
  type LengthUnit,
  millimetresPerInch,
  parseLength,
} from './length.js';
export { bestMassUnit, formatMass, gramsPer, type MassUnit, parseMass } from './mass.js';
export {
  formatForce,
  formatPower,
  formatStress,
  formatTorque,
  formatTurns,
  formatVelocity,
  newtonsPerPound,
  parsePower,
  parseTorque,
  parseTurns,
  wattsPerHorsepower,
} from './mechanics.js';
export { parseNumber } from './number.js';
export { type Parsed, parsed, type Unparsed, unparsed } from './parsed.js';
export {
  absoluteZero,
  formatTemperature,
  formatTemperatureStep,
  parseTemperature,
  type TemperatureUnit,
} from './temperature.js';
export { parseTemperatureRate } from './temperature-rate.js';
