/** Other sprues, gates and vents, tried where a casting would be left unsound. */
import { remediesFor } from '../freeze/readings/index.js';
import { type Finding, hasStop, note } from '../part/finding.js';
import { type FrozenPart, type PartInMould, settingsOf } from './freeze-part.js';
import type { Job, JobPart } from './job.js';
import type { MadePart, PartOutcome } from './make-part.js';
import { mouldFor } from './part-mould.js';
import { present } from './present.js';
import { formatGating } from './read-gating.js';
import { mouldFindings, type PartMould } from './summary.js';

export interface ImproveInput {
  readonly made: PartInMould;
  readonly frozen: FrozenPart;
  readonly job: Job;
  readonly remake: (request: JobPart) => PartOutcome;
  readonly freeze: (made: PartInMould, mould: PartMould) => FrozenPart | undefined;
}

interface Gated {
  readonly made: PartInMould;
  readonly frozen: FrozenPart;
}

interface Improved {
  /** The best part, where it is another. */
  readonly regated?: MadePart;
  /** How the best freezes. */
  readonly frozen: FrozenPart;
  /** What was tried on the way to it, in words. */
  readonly finding: Finding;
}

/** Each round starts from the best of the one before. */
const rounds = 3;

/**
 * Tries the mechanical remedies of what the calculation found, each by making and freezing the part anew, and keeps what
 * measures better; undefined where nothing is to be mended so.
 */
export function improvePart({ made, frozen, job, remake, freeze }: ImproveInput): Improved | undefined {
  const tried: string[] = [];
  const kept: string[] = [];
  let best: Gated = { made, frozen };
  let regated: MadePart | undefined;
  for (let round = 0; round < rounds; round++) {
    const { request, gating } = best.made;
    const warnings = best.frozen.plan.findings.filter((f) => f.severity !== 'note');
    let changed: string | undefined;
    for (const trial of remediesFor({ findings: warnings }, gating, settingsOf(request, job))) {
      // On a tree of several kinds each pattern has one gate, whatever is set.
      if (request.tree !== undefined && trial.settings.gates !== undefined) continue;
      const asked = withGating(request, trial.settings);
      const outcome = remake(asked);
      tried.push(trial.name);
      if (!outcome.ok) continue;
      const mould = mouldFor(outcome.made, job);
      if (hasStop(mouldFindings(mould))) continue;
      const again = freeze(outcome.made, mould);
      if (!again || !isBetter({ made: outcome.made, frozen: again }, best)) continue;
      best = { made: outcome.made, frozen: again };
      regated = outcome.made;
      changed = trial.name;
    }
    if (changed === undefined) break;
    kept.push(changed);
  }
  if (tried.length === 0) return undefined;
  const finding = toldOf({ made, frozen }, best, tried, kept);
  return { frozen: best.frozen, finding, ...present({ regated }) };
}

/** A part's own settings with others put over them; the number of gates is a key of its own. */
const withGating = (request: JobPart, { gates, ...rest }: NonNullable<JobPart['gating']>): JobPart => ({
  ...request,
  gating: { ...request.gating, ...rest },
  ...(gates === undefined || gates === null ? {} : { gates }),
});

/** mm³ of cavity that cells' crumbs make of nothing. */
const crumbs = 20;

/** What is compared, the weightier first; less is better. */
const faults = ({ made, frozen: { plan } }: Gated): readonly number[] => [
  Math.max(0, plan.fill.unreached - crumbs),
  Math.max(0, plan.fill.marginLimit - plan.fill.margin),
  voids(plan),
  [...plan.findings, ...made.gating.findings, ...made.findings].filter((f) => f.severity !== 'note').length,
  made.mass.charge,
];

/** Differences under a twentieth are the grid's. */
const noticeable = 0.95;

function isBetter(one: Gated, other: Gated): boolean {
  const [a, b] = [faults(one), faults(other)];
  for (const [i, x] of a.entries()) {
    const y = b[i] as number;
    if (x < noticeable * y) return true;
    if (y < noticeable * x) return false;
  }
  return false;
}

/** mm³ */
const voids = ({ latePlaces }: FrozenPart['plan']): number => latePlaces.reduce((sum, p) => sum + p.void, 0);

const millilitres = (mm3: number): string => `${(mm3 / 1000).toPrecision(2)} ml`;

function toldOf(first: Gated, best: Gated, tried: readonly string[], kept: readonly string[]): Finding {
  const all = [...new Set(tried)].join('; ');
  if (kept.length === 0)
    return note(
      'not-improved',
      `Tried, and none measures better: ${all}.`,
      'Change the part or the pour as the other findings say.',
    );
  const [was, is] = [first, best].map(({ frozen }) => voids(frozen.plan)) as [number, number];
  const { request } = best.made;
  const settings = { ...request.gating, ...present({ gates: request.gates }) };
  return note(
    'improved',
    `Gated anew: ${kept.join(', then ')}. Voids of ${millilitres(is)} in place of ${millilitres(was)}, least misrun margin ${best.frozen.plan.fill.margin.toPrecision(2)} in place of ${first.frozen.plan.fill.margin.toPrecision(2)}, ${Math.round(best.made.mass.charge)} g of metal in place of ${Math.round(first.made.mass.charge)} g. Tried: ${all}.`,
    `To keep it without trying again, write ${formatGating(settings)} under the part.`,
  );
}
