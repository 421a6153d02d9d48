import type { PartSummary, Summary } from '../job/summary.js';
import type { Finding } from '../part/finding.js';
import { formatLength, formatTemperature, formatTemperatureStep, gramsPer } from '../units/index.js';
import { createFormat, ounces, type View } from './format.js';

/**
 * `3.5 mm`, `ø120 × 80 mm`, `3 × 4 × 5 mm`, `3 to 4 mm`, a place `-3, 4.5, 0 mm`, but not `3.5 mm²`, `mm/s` or one already given in inches; of
 * `M6 × 70 mm` the 70 alone. `1084 °C` but not `°C/h`.
 */
const lengths =
  /(?<![\w.])((?:ø|[-−](?=\d))?\d+(?:\.\d+)?(?:(?: (?:×|to)|,) (?:ø|[-−](?=\d))?\d+(?:\.\d+)?)*)[ \u00A0]mm(?![²³/\w]| \()/g;
/** `3.5 g`, `17.5 kg`, but not `g/cm³`. */
const masses = /(\d+(?:\.\d+)?)[ \u00A0](k?)g(?![²³/\w]| \()/g;
/** Of two temperatures: it has no offset. */
const temperatureSteps = /(\d+(?:\.\d+)?)[ \u00A0]°C(?= (?:or more )?(?:apart|cooler|hotter))/g;
const temperatures = /(-?\d+(?:\.\d+)?)[ \u00A0]°C(?!\/| \()/g;

/** `0.53 m/s`, `500 mm/s`, `2.2 cm³`, `12 mm²`, `1.20 kg/s`. */
const others = /(?<![\w.])(\d+(?:\.\d+)?)[ \u00A0](mm\/s|m\/s|kg\/s|mm²|cm³|mm³)(?![²³/\w]| \()/g;

/** As the tables beside have them. */
function other(value: number, unit: string, view: View): string {
  const f = createFormat(view);
  switch (unit) {
    case 'm/s':
      return f.speed(1000 * value);
    case 'mm/s':
      return f.speed(value);
    case 'kg/s':
      return `${Number(((1000 * value) / gramsPer.lb).toPrecision(3))} lb/s`;
    case 'mm²':
      return f.area(value);
    case 'cm³':
      return f.volume(1000 * value);
    default:
      return f.smallVolume(value);
  }
}

/** Every number of a run in inches. */
const inches = (run: string): string =>
  `${run.replace(/\d+(?:\.\d+)?/g, (mm) => formatLength(Number(mm), 'in', { digits: 3, showUnit: false }))} in`;

/** A sentence with its metric units and degrees Celsius given again in the reader's units, in brackets. */
export function readersUnits(text: string, view: View): string {
  const lengthsTold =
    view.lengthUnit === 'in'
      ? text
          .replace(lengths, (all, run: string) => `${all} (${inches(run)})`)
          .replace(
            masses,
            (all, mass: string, kilo: string) => `${all} (${ounces(Number(mass) * (kilo ? 1000 : 1))})`,
          )
          .replace(
            others,
            (all, value: string, unit: string) => `${all} (${other(Number(value), unit, view)})`,
          )
      : text;
  return view.degrees === 'F'
    ? lengthsTold
        .replace(temperatureSteps, (all, k: string) => `${all} (${formatTemperatureStep(Number(k), 'F')})`)
        .replace(temperatures, (all, c: string) => `${all} (${formatTemperature(Number(c), 'F')})`)
    : lengthsTold;
}

/** The summary with findings and fittings phrased for the reader; its numbers stay as they are. */
export function forReader(summary: Summary, view: View): Summary {
  if (view.lengthUnit === 'mm' && view.degrees === 'C') return summary;
  const told = <T extends { readonly findings: readonly Finding[] }>(holder: T): T => ({
    ...holder,
    findings: holder.findings.map((f) => ({
      ...f,
      message: readersUnits(f.message, view),
      remedy: readersUnits(f.remedy, view),
    })),
  });
  const fitted = <T extends Pick<PartSummary, 'fittings'>>(holder: T): T => ({
    ...holder,
    fittings: holder.fittings.map((x) => ({ ...x, text: readersUnits(x.text, view) })),
  });
  return {
    ...told(summary),
    parts: summary.parts.map((p): PartSummary => {
      const shared = {
        fittings: fitted(p).fittings,
        gating: told(p.gating),
        ...(p.members && { members: p.members.map(fitted) }),
        ...(p.freeze && { freeze: told(p.freeze) }),
      };
      return p.flask
        ? { ...told(p), ...shared, flask: told(p.flask) }
        : { ...told(p), ...shared, shell: told(p.shell) };
    }),
    ...(summary.notMade && { notMade: summary.notMade.map(told) }),
    burnout: told(summary.burnout),
    pour: summary.pour.map(told),
  };
}
