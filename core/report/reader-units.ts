import type { PartSummary, Summary } from '../job/summary.js';
import type { Finding } from '../part/finding.js';
import { formatLength, formatTemperature } from '../units/index.js';
import { ounces, type View } from './format.js';

/** `3.5 mm`, `ø120 × 80 mm`, but not `3.5 mm²`, `mm/s` or one already given in inches; `1084 °C` but not `°C/h`. */
const lengths = /(?:ø(\d+(?:\.\d+)?) × )?(\d+(?:\.\d+)?)[ \u00A0]mm(?![²³/\w]| \()/g;
/** `3.5 g`, `17.5 kg`, but not `g/cm³` or `kg/s`. */
const masses = /(\d+(?:\.\d+)?)[ \u00A0](k?)g(?![²³/\w]| \()/g;
const temperatures = /(-?\d+(?:\.\d+)?)[ \u00A0]°C(?!\/| \()/g;

const inches = (mm: string): string => formatLength(Number(mm), 'in', { digits: 3 });

/** A sentence with its millimetres, grams and degrees Celsius given again in the reader's units, in brackets. */
export function readersUnits(text: string, view: View): string {
  const lengthsTold =
    view.lengthUnit === 'in'
      ? text
          .replace(
            lengths,
            (all, wide: string | undefined, mm: string) =>
              `${all} (${wide === undefined ? '' : `ø${inches(wide).replace(' in', '')} × `}${inches(mm)})`,
          )
          .replace(
            masses,
            (all, mass: string, kilo: string) => `${all} (${ounces(Number(mass) * (kilo ? 1000 : 1))})`,
          )
      : text;
  return view.degrees === 'F'
    ? lengthsTold.replace(temperatures, (all, c: string) => `${all} (${formatTemperature(Number(c), 'F')})`)
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
  return {
    ...told(summary),
    parts: summary.parts.map((p): PartSummary => {
      const shared = {
        fittings: p.fittings.map((x) => ({ ...x, text: readersUnits(x.text, view) })),
        gating: told(p.gating),
        ...(p.freeze && { freeze: told(p.freeze) }),
      };
      return p.flask
        ? { ...told(p), ...shared, flask: told(p.flask) }
        : { ...told(p), ...shared, shell: told(p.shell) };
    }),
    burnout: told(summary.burnout),
    pour: summary.pour.map(told),
  };
}
