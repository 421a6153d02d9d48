import type { MeshKind } from '../gear/mesh-backlash.js';
import { readersUnits } from '../report/reader-units.js';
import { formatTorque, type LengthUnit } from '../units/index.js';
import { memberNames } from './parts.js';

/** Sentences of the core in the reader's units and the pair's own words, with plain spaces. `names`: of both members. */
export function told(
  text: string,
  unit: LengthUnit,
  mesh: MeshKind,
  names?: readonly [string, string],
): string {
  const own = mesh === 'external' ? undefined : memberNames[mesh].map((name) => `the ${name}`);
  const [first, second] = names ?? own ?? [];
  const named =
    first === undefined || second === undefined
      ? text
      : text.replace(/\bgear 1\b/gi, () => first).replace(/\bgear 2\b/gi, () => second);
  const lengths = readersUnits(named, { lengthUnit: unit, degrees: 'C' }).replaceAll('\u00A0', ' ');
  return unit === 'mm'
    ? lengths
    : lengths.replace(
        /(\d+(?:\.\d+)?) N·m/g,
        (all, torque: string) => `${all} (${formatTorque(Number(torque) * 1000, 'in')})`,
      );
}
