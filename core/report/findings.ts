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
  const key = (f: Finding): string => `${same(f)}\n${f.remedy}`;
  const holders = new Map<string, (string | null)[]>();
  for (const g of groups)
    for (const f of g.findings) holders.set(key(f), [...(holders.get(key(f)) ?? []), g.part]);
  const shared = new Map<string, { parts: readonly (string | null)[]; findings: Map<string, Finding> }>();
  for (const f of groups.flatMap((g) => g.findings)) {
    const parts = holders.get(key(f)) ?? [];
    const id = JSON.stringify(parts);
    const held = shared.get(id) ?? { parts, findings: new Map<string, Finding>() };
    held.findings.set(key(f), f);
    shared.set(id, held);
  }
  return [...shared.values()].map((s) => ({ parts: s.parts, findings: [...s.findings.values()] }));
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
