import type { MeshKind } from '../gear/mesh-backlash.js';
import { readersUnits } from '../report/reader-units.js';
import { formatTorque, type LengthUnit } from '../units/index.js';
import { memberNames } from './parts.js';

/** Sentences of the core in the reader's units and the pair's own words, with plain spaces. */
export function told(text: string, unit: LengthUnit, mesh: MeshKind): string {
  const [first, second] = memberNames[mesh];
  const named =
    mesh === 'external'
      ? text
      : text.replace(/\bgear 1\b/gi, `the ${first}`).replace(/\bgear 2\b/gi, `the ${second}`);
  const lengths = readersUnits(named, { lengthUnit: unit, degrees: 'C' }).replaceAll('\u00A0', ' ');
  return unit === 'mm'
    ? lengths
    : lengths.replace(
        /(\d+(?:\.\d+)?) N·m/g,
        (all, torque: string) => `${all} (${formatTorque(Number(torque) * 1000, 'in')})`,
      );
}
