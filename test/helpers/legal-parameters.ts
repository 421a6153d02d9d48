import fc from 'fast-check';
import type { PartDefinition } from '../../core/part/contract.js';
import { listSchemaFields } from '../../core/part/field-list.js';

/**
 * Random parameters from the whole legal space of a part, in internal units: each field is left out, at one of its
 * ends, or anywhere between. Leaving fields out often keeps a fair share of the sets buildable.
 */
export function legalParameters(part: PartDefinition): fc.Arbitrary<Record<string, unknown>> {
  const fields: Record<string, fc.Arbitrary<unknown>> = {};
  for (const { name, info } of listSchemaFields(part.parameters)) {
    const absent = { weight: 18, arbitrary: fc.constant(undefined) };
    if (info.kind === 'choice') {
      fields[name] = fc.oneof(absent.arbitrary, fc.constantFrom(...(info.choices as string[])));
    } else if (info.kind === 'flag') fields[name] = fc.boolean();
    else if (info.kind === 'text' || info.kind === 'file') fields[name] = absent.arbitrary;
    else {
      const [min, max] = [info.min as number, info.max as number];
      const inside = info.kind === 'count' ? fc.integer({ min, max }) : fc.double({ min, max, noNaN: true });
      // Small values are where shapes get tight: half of the draws fall in the lowest fifth.
      const low =
        info.kind === 'count'
          ? fc.integer({ min, max: Math.floor(min + (max - min) / 5) })
          : fc.double({ min, max: min + (max - min) / 5, noNaN: true });
      fields[name] = fc.oneof(
        absent,
        { weight: 3, arbitrary: low },
        { weight: 2, arbitrary: inside },
        { weight: 1, arbitrary: fc.constantFrom(min, max) },
      );
    }
  }
  return fc
    .record(fields)
    .map((raw) =>
      part.parameters.parse(Object.fromEntries(Object.entries(raw).filter(([, v]) => v !== undefined))),
    );
}

/** Random sets a property is tried with: 200, or what the environment asks for. */
export const propertyRuns = Number(process.env.PATTERNWRIGHT_RUNS ?? 200);
