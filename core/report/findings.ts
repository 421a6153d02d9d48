import { mouldFindings, type Summary } from '../job/summary.js';
import type { Finding, Severity } from '../part/finding.js';

/** Findings of one part, or (`part` null) of the job as a whole. */
export interface FindingGroup {
  readonly part: string | null;
  readonly findings: readonly Finding[];
}

const rank: Readonly<Record<Severity, number>> = { stop: 0, warn: 1, note: 2 };

const same = (f: Finding): string => `${f.severity}\n${f.code}\n${f.message}`;

/** The gravest first, otherwise in the order given. */
export const gravestFirst = (findings: readonly Finding[]): readonly Finding[] =>
  [...findings].sort((a, b) => rank[a.severity] - rank[b.severity]);

/** Each finding once, the gravest first, otherwise in the order given. */
export function distinctFindings(findings: readonly Finding[]): readonly Finding[] {
  const seen = new Map<string, Finding>();
  for (const f of findings) if (!seen.has(same(f))) seen.set(same(f), f);
  return gravestFirst([...seen.values()]);
}

/**
 * Every finding of a summary once, wherever in it it stands: the job's own, then part by part, the groups with the
 * gravest findings before the others. One that a part and the job both list is shown with the part.
 */
export function collectFindings(summary: Summary): readonly FindingGroup[] {
  const parts = summary.parts.map((p) => ({
    part: p.name,
    findings: distinctFindings([
      ...p.findings,
      ...p.gating.findings,
      ...(p.freeze?.findings ?? []),
      ...mouldFindings(p),
    ]),
  }));
  const ofParts = new Set(parts.flatMap((g) => g.findings.map(same)));
  const ofJob = distinctFindings([
    ...summary.findings,
    ...summary.burnout.findings,
    ...summary.pour.flatMap((p) => p.findings),
  ]).filter((f) => !ofParts.has(same(f)));
  return [{ part: null, findings: ofJob }, ...parts]
    .filter((g) => g.findings.length > 0)
    .sort((a, b) => rank[a.findings[0]!.severity] - rank[b.findings[0]!.severity]);
}

/** Findings that some parts (`null`: the job) have in common. */
export interface SharedFindings {
  readonly parts: readonly (string | null)[];
  readonly findings: readonly Finding[];
}

/** The same findings with what several parts have alike, word for word, once under all of them. In the order given. */
export function sharedFindings(groups: readonly FindingGroup[]): readonly SharedFindings[] {
  const shared = new Map<string, { parts: readonly (string | null)[]; findings: Finding[] }>();
  for (const { parts, finding } of alike(groups)) {
    const id = JSON.stringify(parts);
    const held = shared.get(id) ?? { parts, findings: [] };
    held.findings.push(finding);
    shared.set(id, held);
  }
  return [...shared.values()];
}

/** Each finding once, word for word, with all that have it. In the order given. */
function alike(
  groups: readonly FindingGroup[],
): Iterable<{ readonly parts: (string | null)[]; readonly finding: Finding }> {
  const found = new Map<string, { parts: (string | null)[]; finding: Finding }>();
  for (const { part, findings } of groups)
    for (const finding of findings) {
      const key = `${same(finding)}\n${finding.remedy}`;
      const held = found.get(key);
      if (!held) found.set(key, { parts: [part], finding });
      else if (held.parts.at(-1) !== part) held.parts.push(part);
    }
  return found.values();
}

/** A line of a list of findings; without `finding` it stands for those of its kind that are not told one by one. */
export interface FindingLine {
  readonly severity: Severity;
  readonly code: string;
  /** `null`: the job. */
  readonly parts: readonly (string | null)[];
  readonly finding?: Finding;
}

/** Findings of one kind that are told in full; the others differ from them in numbers. */
const mostOfAKind = 4;

/** What stands for findings of a kind that are counted: they may differ in numbers and words. */
export const ofTheKind = (where: string): string => `of the same kind; ${where} tells each.`;

/**
 * A list that stays short however many parts there are: what several have word for word is one line, and of a kind
 * (severity and code) a few lines are told and the rest counted. In the order given.
 */
export function findingLines(groups: readonly FindingGroup[]): readonly FindingLine[] {
  const kinds = new Map<string, number>();
  const kindOf = ({ severity, code }: Finding): string => `${severity} ${code}`;
  const all = [...alike(groups)];
  for (const { finding } of all) kinds.set(kindOf(finding), (kinds.get(kindOf(finding)) ?? 0) + 1);
  const seen = new Map<string, number>();
  const rests = new Map<string, Set<string | null>>();
  return all.flatMap(({ parts, finding }): FindingLine[] => {
    const { severity, code } = finding;
    const kind = kindOf(finding);
    const nth = (seen.get(kind) ?? 0) + 1;
    seen.set(kind, nth);
    // No line is saved by counting the last one.
    if (nth < mostOfAKind || kinds.get(kind) === mostOfAKind) return [{ severity, code, parts, finding }];
    const rest = rests.get(kind) ?? new Set();
    rests.set(kind, rest);
    for (const part of parts) rest.add(part);
    return nth === kinds.get(kind) ? [{ severity, code, parts: [...rest] }] : [];
  });
}

const mostNames = 3;

/** `crank-wheel`; `a, b and c`; `a, b, c and 297 more`; '' for the job. */
export function namesOf(parts: readonly (string | null)[], most = mostNames): string {
  const names = parts.filter((p) => p !== null && p !== '');
  const rest = names.length - most;
  if (rest > 0) return `${names.slice(0, most).join(', ')} and ${rest} more`;
  return names.length < 2
    ? (names[0] ?? '')
    : `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`;
}

/** A finding's message or remedy, closed with a full stop however it was written, no break before a unit. */
export function sentence(text: string): string {
  const closed = /[.!?…]$/.test(text.trim()) ? text.trim() : `${text.trim()}.`;
  return closed.replace(/(\d) (?=°|%|(?:[mc]?m|k?g|s|min|h)(?![A-Za-z]))/g, '$1\u00A0');
}

/** How many findings of each severity. */
export function countFindings(
  groups: readonly Pick<FindingGroup, 'findings'>[],
): Readonly<Record<Severity, number>> {
  const count = { stop: 0, warn: 0, note: 0 };
  for (const g of groups) for (const f of g.findings) count[f.severity] += 1;
  return count;
}

const counted: Readonly<Record<Severity, string>> = { stop: 'stop', warn: 'warning', note: 'note' };

/** `1 stop, 2 warnings, 3 notes`, leaving out what there is none of; `none`. */
export const tally = (count: Readonly<Record<Severity, number>>): string =>
  (['stop', 'warn', 'note'] as const)
    .filter((s) => count[s] > 0)
    .map((s) => `${count[s]} ${counted[s]}${count[s] === 1 ? '' : 's'}`)
    .join(', ') || 'none';
