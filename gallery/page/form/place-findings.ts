/** Which findings stand beside which fields. */
import type { Field } from '../../../core/part/field-list.js';
import type { Finding } from '../../../core/part/finding.js';

export interface PlacedFindings {
  /** In full, under the first field that a finding names. */
  readonly told: ReadonlyMap<string, readonly Finding[]>;
  /** Under the other fields it names: where to look. */
  readonly alsoConcerned: ReadonlyMap<string, readonly Finding[]>;
  /** Those that name no field of these. */
  readonly others: readonly Finding[];
}

export function placeFindings(findings: readonly Finding[], fields: readonly Field[]): PlacedFindings {
  const names = new Set(fields.map(({ name }) => name));
  const told = new Map<string, Finding[]>();
  const alsoConcerned = new Map<string, Finding[]>();
  const others: Finding[] = [];
  const add = (map: Map<string, Finding[]>, name: string, finding: Finding): void => {
    const known = map.get(name) ?? [];
    // Part and casting are checked alike: the same sentence need not stand twice.
    const same = known.some(({ code, message }) => code === finding.code && message === finding.message);
    if (!same) map.set(name, [...known, finding]);
  };
  for (const finding of findings) {
    const [first, ...rest] = (finding.parameters ?? []).filter((name) => names.has(name));
    if (first === undefined) others.push(finding);
    else add(told, first, finding);
    for (const name of rest) add(alsoConcerned, name, finding);
  }
  return { told, alsoConcerned, others };
}

/** Where the finding is told: the first of these fields that it names. */
export const toldUnder = (finding: Finding, fields: readonly Field[]): string | undefined =>
  (finding.parameters ?? []).find((parameter) => fields.some(({ name }) => name === parameter));
