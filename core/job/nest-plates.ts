import { massOf, type Plastic } from '../foundry/material.js';
import type { PourPlan } from '../foundry/plans.js';
import { stop } from '../part/finding.js';
import type { NestItem } from '../plate/contract.js';
import { findRefused, nest } from '../plate/nest.js';
import type { Job, Nesting } from './job.js';
import type { RefusedPart } from './left-out.js';
import type { PartRecord } from './make-part.js';
import { plateFiles } from './output-names.js';
import { present } from './present.js';
import type { PartMould, PlateSummary, Summary } from './summary.js';
import { mouldsFor } from './tree.js';

/** Called with a time in seconds that begins now; what it gives says whether that is up. */
export type StartTimer = (seconds: number) => () => boolean;

export interface NestContext {
  readonly plastic: Plastic;
  /** By the names of the parts. */
  readonly moulds: ReadonlyMap<string, PartMould>;
  /** One an alloy. */
  readonly pour: readonly PourPlan[];
  /** Left out: no time is spent on trying more layouts. */
  readonly startTimer?: StartTimer | undefined;
}

export interface NestedPlates {
  readonly plates: readonly PlateSummary[];
  readonly nesting: Summary['nesting'];
  /** Parts whose patterns fit on no bed, with by how much; where there are any, nothing is laid out. */
  readonly refused: readonly RefusedPart[];
}

const usual: Nesting = { sortBy: 'any', seconds: 0, seed: 1 };

/** The job's plates: every copy of every gated pattern on as many beds as needed. */
export function nestPlates(
  job: Job,
  made: readonly PartRecord[],
  { plastic, moulds, pour, startTimer }: NestContext,
): NestedPlates {
  const { sortBy, seconds, seed, rounds } = job.nesting ?? usual;
  const batchOf = (part: PartRecord): string | undefined => {
    if (sortBy === 'any') return undefined;
    return (
      (sortBy === 'flask' ? moulds.get(part.request.name)?.flask?.name : undefined) ?? part.request.alloy
    );
  };
  const refused = notOnBed(job, made);
  if (refused.length > 0) return { plates: [], nesting: { sortBy, seed, rounds: 0 }, refused };
  const inOrder = sortBy === 'any' ? made : inOrderPoured(made, pour);
  const items = inOrder.flatMap((part) => itemsOf(part, batchOf(part)));
  const isTimeUp = seconds > 0 ? startTimer?.(seconds) : undefined;
  const nested = nest(items, job.bed, present({ seed, rounds, isTimeUp }));
  const byName = new Map(made.map((m) => [m.request.name, m]));
  return {
    plates: nested.plates.map((placements, i) => {
      const on = placements.map((p) => (byName.get(p.name) as PartRecord).facts.gated);
      const name = `plate-${i + 1}`;
      return {
        name,
        placements,
        height: Math.max(...on.map((f) => f.size[2])),
        plastic: massOf(
          on.reduce((sum, f) => sum + f.volume, 0),
          plastic,
        ),
        filled: nested.densities[i] as number,
        ...present({ batch: nested.groups[i] }),
        files: plateFiles(name),
      };
    }),
    nesting: { sortBy, seed: nested.seed, rounds: nested.rounds },
    refused,
  };
}

/** Parts that no bed holds. Told first, since laying out the others is long. */
export function notOnBed(job: Job, made: readonly PartRecord[]): readonly RefusedPart[] {
  const items = made.flatMap((part) => itemsOf(part, undefined).slice(0, 1));
  return findRefused(items, job.bed).map(({ name, reason }) => ({
    name,
    findings: [stop('does-not-fit-bed', reason, 'Use a larger bed or a smaller part.', 'bed')],
  }));
}

/** Copies of one pattern share its outlines. */
const itemsOf = (part: PartRecord, group: string | undefined): readonly NestItem[] =>
  Array.from({ length: mouldsFor(part.request) }, (_, i) => ({
    name: part.request.name,
    copy: i + 1,
    outline: part.silhouette,
    foot: part.footprint,
    height: part.gatedBox.max[2] - part.gatedBox.min[2],
    ...present({ group }),
  }));

/** The hottest moulds are poured first, those of one alloy thinnest walls first, as its pour is planned. */
function inOrderPoured(made: readonly PartRecord[], pour: readonly PourPlan[]): readonly PartRecord[] {
  const byHeat = [...pour].sort((a, b) => b.flaskTemperature - a.flaskTemperature);
  const rank = new Map(byHeat.flatMap(({ order }) => order).map((name, i) => [name, i]));
  return [...made].sort((a, b) => (rank.get(a.request.name) ?? 0) - (rank.get(b.request.name) ?? 0));
}
