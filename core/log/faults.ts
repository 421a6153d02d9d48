/** Faults and the settings they came with. */
import { type Fault, faults, type PourRecord } from './record.js';
import { adjustForMany, fisherExact, type Interval, median, wilsonInterval } from './statistics.js';

/** The settings that faults are held against, and the width of their bands; °C and s. */
export const faultSettings = { metalTemperature: 25, flaskTemperature: 50, burnoutHold: 3600 } as const;
export type FaultSetting = keyof typeof faultSettings;

export interface Share {
  /** Pours with the fault, of `total`. */
  readonly count: number;
  readonly total: number;
  /** 95 %, by Wilson's score; null without pours. */
  readonly interval: Interval | null;
}

export interface FaultBand extends Share {
  /** from ≤ setting < to */
  readonly from: number;
  readonly to: number;
}

/** One fault against one setting. */
export interface FaultRelation {
  readonly fault: Fault;
  readonly setting: FaultSetting;
  readonly bands: readonly FaultBand[];
  /** Pours below `at` and from there up: halves of about the same number. */
  readonly split: { readonly at: number; readonly below: Share; readonly above: Share };
  /** Two-sided, Fisher's exact test, and the same for all the tests of the alloy together, by Holm. */
  readonly p: number;
  readonly adjusted: number;
  readonly verdict: 'related' | 'not shown' | 'too few';
}

export interface FaultReport {
  readonly alloy: string;
  readonly pours: number;
  readonly counts: Readonly<Record<Fault, Share>>;
  readonly relations: readonly FaultRelation[];
  readonly basis: { readonly rule: string; readonly source: string };
}

/** With less, even a true connection would seldom show; common practice, no source. */
export const fewestPours = 10;
export const fewestOfAKind = 3;
const significance = 0.05;

const basis = {
  rule: `pours split at the middle setting; related where p, Holm-adjusted for all tests of the alloy, is under ${significance}; too few under ${fewestPours} pours or ${fewestOfAKind} with or without the fault`,
  source:
    'Fisher’s exact test; Wilson’s score interval (Newcombe, Statistics in Medicine 17, 1998); Holm 1979; the least numbers are common practice, no source',
};

const share = (pours: readonly PourRecord[], fault: Fault): Share => {
  const count = pours.filter((p) => p.faults.includes(fault)).length;
  const total = pours.length;
  return { count, total, interval: total === 0 ? null : wilsonInterval(count, total) };
};

/** Counts each fault of an alloy's pours and holds it against the settings. What goes together need not be the cause. */
export function relateFaults(records: readonly PourRecord[], alloy: string): FaultReport {
  const pours = records.filter((r) => r.alloy === alloy);
  const counts = Object.fromEntries(faults.map((fault) => [fault, share(pours, fault)])) as Record<
    Fault,
    Share
  >;
  const relations = faults
    .filter((fault) => counts[fault].count > 0)
    .flatMap((fault) =>
      (Object.keys(faultSettings) as FaultSetting[]).flatMap(
        (setting) => relate(pours, fault, setting) ?? [],
      ),
    );
  const tested = relations.filter((r) => r.verdict !== 'too few');
  const adjusted = adjustForMany(tested.map((r) => r.p));
  return {
    alloy,
    pours: pours.length,
    counts,
    relations: relations.map((relation) => {
      const i = tested.indexOf(relation);
      if (i < 0) return relation;
      const p = adjusted[i]!;
      return { ...relation, adjusted: p, verdict: p < significance ? 'related' : 'not shown' };
    }),
    basis,
  };
}

/** Undefined where the setting was never written down, or never changed. */
function relate(all: readonly PourRecord[], fault: Fault, setting: FaultSetting): FaultRelation | undefined {
  const pours = all.filter((p) => p.settings[setting] !== undefined);
  const value = (p: PourRecord): number => p.settings[setting] as number;
  const at = splitAt(pours.map(value));
  if (at === undefined) return undefined;
  const below = share(
    pours.filter((p) => value(p) < at),
    fault,
  );
  const above = share(
    pours.filter((p) => value(p) >= at),
    fault,
  );
  const p = fisherExact([below.count, below.total - below.count], [above.count, above.total - above.count]);
  const found = below.count + above.count;
  const enough =
    pours.length >= fewestPours && found >= fewestOfAKind && pours.length - found >= fewestOfAKind;
  return {
    fault,
    setting,
    bands: bandsOf(pours, value, fault, faultSettings[setting]),
    split: { at, below, above },
    p,
    adjusted: p,
    verdict: enough ? 'not shown' : 'too few',
  };
}

/** The setting that parts the pours most nearly in half; undefined where all are the same. */
function splitAt(values: readonly number[]): number | undefined {
  const distinct = [...new Set(values)].sort((a, b) => a - b);
  if (distinct.length < 2) return undefined;
  const middle = median(values);
  const [least] = distinct;
  return distinct.find((v) => v >= middle && v > least!);
}

function bandsOf(
  pours: readonly PourRecord[],
  value: (p: PourRecord) => number,
  fault: Fault,
  width: number,
): readonly FaultBand[] {
  const groups = new Map<number, PourRecord[]>();
  for (const pour of pours) {
    const k = Math.floor(value(pour) / width);
    const group = groups.get(k);
    if (group) group.push(pour);
    else groups.set(k, [pour]);
  }
  return [...groups]
    .sort(([a], [b]) => a - b)
    .map(([k, group]) => ({ from: k * width, to: (k + 1) * width, ...share(group, fault) }));
}
