import type { PartSummary, Summary } from '../job/summary.js';
import type { Finding } from '../part/finding.js';
import { formatLength, formatTemperature } from '../units/index.js';
import type { View } from './format.js';

/** `3.5 mm` but not `3.5 mm²`, `mm/s` or one already given in inches; `1084 °C` but not `°C/h`. */
const lengths = /(\d+(?:\.\d+)?)[ \u00A0]mm(?![²³/\w]| \()/g;
const temperatures = /(-?\d+(?:\.\d+)?)[ \u00A0]°C(?!\/| \()/g;

/** A sentence with its millimetres and degrees Celsius given again in the reader's units, in brackets. */
export function readersUnits(text: string, view: View): string {
  const inches =
    view.lengthUnit === 'in'
      ? text.replace(
          lengths,
          (all, mm: string) => `${all} (${formatLength(Number(mm), 'in', { digits: 3 })})`,
        )
      : text;
  return view.degrees === 'F'
    ? inches.replace(temperatures, (all, c: string) => `${all} (${formatTemperature(Number(c), 'F')})`)
    : inches;
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
      };
      return p.flask
        ? { ...told(p), ...shared, flask: told(p.flask) }
        : { ...told(p), ...shared, shell: told(p.shell) };
    }),
    burnout: told(summary.burnout),
    pour: summary.pour.map(told),
  };
}
