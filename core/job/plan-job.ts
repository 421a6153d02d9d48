import { type Alloy, findAlloy } from '../foundry/alloys/index.js';
import { checkOwnAlloy } from '../foundry/alloys/own-alloy.js';
import { planCautions } from '../foundry/cautions.js';
import { findInvestment, type Investment, mouldWord, planInvestment } from '../foundry/investment.js';
import { findPlastic, type Plastic } from '../foundry/material.js';
import type { PourPlan } from '../foundry/plans.js';
import { planCoating } from '../foundry/shell/index.js';
import { type Finding, hasStop, note } from '../part/finding.js';
import { fireFlasks } from './flask-fire.js';
import type { Asked, Job } from './job.js';
import { costOf } from './job-cost.js';
import { leftOut, type RefusedPart, toldNotMade } from './left-out.js';
import { type LearntGrowth, loggedGrowthFindings } from './logged-growth.js';
import type { PartRecord } from './make-part.js';
import { meltAll, meltJob } from './melt-job.js';
import { nestPlates, notOnBed, type StartTimer } from './nest-plates.js';
import { mixOf, mouldFor } from './part-mould.js';
import { summarisePart } from './part-summary.js';
import { present } from './present.js';
import { checkMould, distinctAlloys, pourFor } from './refused-alone.js';
import { fireShells, pourIntoShells } from './shell-job.js';
import {
  isInFlask,
  isInShell,
  type JobMoulds,
  type PartMould,
  type Summary,
  summaryUnits,
  summaryVersion,
} from './summary.js';
import { treeCost } from './tree-cost.js';

export interface RefusedJob {
  /** Findings with the name of the part they belong to; '' for the job. */
  readonly refused: readonly RefusedPart[];
}

export interface PlannedJob<P extends Asked = PartRecord> {
  readonly summary: Summary;
  /** The parts it tells of, by name. */
  readonly parts: ReadonlyMap<string, P>;
  /** Those that are left out. */
  readonly notMade: readonly RefusedPart[];
}

export interface PlanOptions {
  /** What the shop measured on earlier pours. */
  readonly learntGrowth?: LearntGrowth | undefined;
  /** Whether parts that cannot be made are left out, and the rest planned as if it were the whole job. */
  readonly keepGoing?: boolean | undefined;
  /** Parts of the job that could not be made so far. */
  readonly notMade?: readonly RefusedPart[];
  /** For plates that are improved as long as time is given; see `MakeContext`. */
  readonly startTimer?: StartTimer | undefined;
}

/**
 * Plates, moulds, fire, pours, melt, cost and findings of a job whose parts are made. A part may be refused by its
 * mould, the kiln or the bed; without `keepGoing` one such part, or one that could not be made, refuses the job, with
 * all that is wrong with any.
 */
export function planJob<P extends PartRecord>(
  job: Job,
  parts: ReadonlyMap<string, P>,
  { learntGrowth, keepGoing = false, notMade: before = [], startTimer }: PlanOptions = {},
): PlannedJob<P> | RefusedJob {
  const moulds = new Map([...parts].map(([name, m]) => [name, mouldFor(m, job)]));
  // In the order of the job, however they were come by.
  const inOrder = job.parts.flatMap(({ name }) => parts.get(name) ?? []);
  let refused = before;
  for (;;) {
    const notMade = keepGoing ? leftOut(job, refused) : refused;
    const gone = new Set(notMade.map((r) => r.name));
    const kept = new Map(
      inOrder.filter((m) => !gone.has(m.request.name)).map((m) => [m.request.name, m] as const),
    );
    if (kept.size === 0) return { refused: notMade };
    const summary = planParts(job, kept, moulds, {
      learntGrowth,
      keepGoing,
      startTimer,
      isRefused: !keepGoing && before.length > 0,
    });
    if (!('refused' in summary)) {
      const told = notMade.length === 0 ? {} : { notMade: toldNotMade(job, notMade) };
      return { summary: { ...summary, ...told }, parts: kept, notMade };
    }
    if (
      !keepGoing ||
      !summary.refused.some((r) => kept.has(r.name)) ||
      summary.refused.some((r) => r.name === '')
    )
      return { refused: inOrderOf(job, [...notMade, ...summary.refused]) };
    refused = [...refused, ...summary.refused];
  }
}

/** What is told of each part once, in the order of the job; what concerns the job as a whole at last. */
function inOrderOf(job: Job, refused: readonly RefusedPart[]): readonly RefusedPart[] {
  const told = new Map<string, Finding[]>();
  for (const { name, findings } of refused) told.set(name, [...(told.get(name) ?? []), ...findings]);
  return [...job.parts, { name: '' }].flatMap(({ name }) => {
    const findings = told.get(name);
    return findings ? [{ name, findings }] : [];
  });
}

/** The plan of all the parts, or what refuses some of them or the job; that alone where the job is refused already. */
function planParts(
  job: Job,
  parts: ReadonlyMap<string, PartRecord>,
  moulds: ReadonlyMap<string, PartMould>,
  { learntGrowth, keepGoing = false, startTimer, isRefused }: PlanOptions & { readonly isRefused: boolean },
): Summary | RefusedJob {
  const investment = findInvestment(job.investment) as Investment;
  const plastic = findPlastic(job.shop.plastic) as Plastic;
  const made = [...parts.values()];
  const alloys = distinctAlloys(made, job);
  const mouldOf = (m: PartRecord): PartMould => moulds.get(m.request.name) as PartMould;
  const pour = alloys.map((alloy) => {
    const plan = pourFor(alloy, made, investment);
    if (!investment.coats) return plan;
    const shells = made.flatMap((m) => (m.request.alloy === alloy.name ? (mouldOf(m).shell ?? []) : []));
    return pourIntoShells(plan, shells, investment, job);
  });
  const refused = [
    ...made.map((m) => ({ name: m.request.name, findings: checkMould(m, mouldOf(m), job) })),
    ...refusedMetal(pour, made, keepGoing),
  ].filter(({ findings }) => hasStop(findings));
  if (refused.length > 0 && keepGoing) return { refused };
  const gone = new Set(refused.map((r) => r.name));
  const standing = made.filter((m) => !gone.has(m.request.name));
  if (standing.length === 0) return { refused: [...refused, ...notOnBed(job, made)] };
  const partSummaries = standing.map((m) => summarisePart(m, mouldOf(m), job));
  const burnout = investment.coats
    ? fireShells(partSummaries.filter(isInShell), pour, investment, plastic, job)
    : fireFlasks(partSummaries.filter(isInFlask), pour, investment, plastic, job);
  const fire = hasStop(burnout.findings) ? [{ name: '', findings: burnout.findings }] : [];
  // What goes on no bed is left out first: a fire for what remains may be had.
  const offAnyBed = keepGoing && fire.length > 0 ? notOnBed(job, made) : [];
  if (offAnyBed.length > 0) return { refused: offAnyBed };
  // Nesting is long, and what is refused so far is not nested.
  if (isRefused || refused.length + fire.length > 0)
    return { refused: [...refused, ...fire, ...notOnBed(job, made)] };
  const nested = nestPlates(job, made, { plastic, moulds, pour, startTimer });
  const { plates, nesting, refused: offBed } = nested;
  if (offBed.length > 0) return { refused: offBed };

  const stuff: JobMoulds = investment.coats
    ? {
        coating: planCoating({
          investment,
          shells: partSummaries.filter(isInShell).map((p) => ({ ...p.shell, quantity: p.moulds })),
          ...present({ wasteFraction: job.shop.mixing.waste }),
        }),
      }
    : {
        investment: planInvestment({
          ...mixOf(job),
          vacuum: job.shop.mixing.vacuum,
          bag: job.shop.mixing.bag,
          investment,
          flasks: partSummaries.filter(isInFlask).map((p) => ({
            powder: p.flask.powder,
            water: p.flask.water,
            quantity: p.moulds,
          })),
        }),
      };
  const modulus = (name: string): number => (parts.get(name) as PartRecord).thinnestModulus;
  const melts = meltAll(alloys, job.metals ?? [], (alloy, metals) =>
    meltJob(alloy, pour[alloys.indexOf(alloy)] as PourPlan, partSummaries, modulus, {
      furnace: job.shop.furnace,
      plastic,
      crucibles: job.shop.crucibles,
      scaleStep: job.shop.scale,
      metals,
    }),
  );
  const charge = melts.map((m) => m.charge);
  return {
    schemaVersion: summaryVersion,
    units: summaryUnits,
    job: { name: job.name, title: job.title, notes: job.notes },
    bed: job.bed,
    nesting,
    shop: job.shop,
    tolerance: Math.max(...made.map((m) => m.tolerance)),
    parts: partSummaries,
    ...stuff,
    burnout,
    pour: melts.map((m) => m.pour),
    charge,
    plates,
    cost: costOf(job, {
      plates,
      parts: partSummaries,
      mould: stuff.coating ?? stuff.investment.weigh,
      charge,
      plastic,
      ...present({ kilnEnergy: burnout.energy?.total }),
    }),
    cautions: planCautions(alloys, investment, plastic),
    findings: [
      ...alloys.flatMap(ownAlloyFindings),
      ...(investment.coats || job.packFlasks
        ? []
        : standing.flatMap((m) => {
            const { flask } = mouldOf(m);
            return flask && (m.request.patternsPerTree ?? 1) > 1
              ? treeCost(m, flask, pour, investment, plastic, job)
              : [];
          })),
      ...mouldTemperatureFindings(pour, mouldWord(investment)),
      ...alloys.flatMap((alloy) => {
        const growths = made
          .filter((m) => m.request.alloy === alloy.name)
          .flatMap((m) => (m.members ?? [m]).map(({ growth }) => growth));
        return loggedGrowthFindings(
          learntGrowth?.(alloy.name, job.investment),
          alloy,
          job.investment,
          growths,
        );
      }),
    ],
  };
}

/** Doubts about the shop's own alloys. */
const ownAlloyFindings = (alloy: Alloy): readonly Finding[] =>
  alloy.basedOn === undefined ? [] : checkOwnAlloy(alloy, findAlloy(alloy.basedOn) as Alloy);

/** Alloys that the mould does not stand: the parts of each where there are others to go on with, else the job. */
function refusedMetal(
  pour: readonly PourPlan[],
  made: readonly PartRecord[],
  keepGoing: boolean,
): readonly RefusedPart[] {
  const stopped = pour.filter((p) => hasStop(p.findings));
  if (!keepGoing || stopped.length === pour.length)
    return [{ name: '', findings: pour.flatMap((p) => p.findings) }];
  return stopped.flatMap(({ alloy, findings }) =>
    made
      .filter((m) => m.request.alloy === alloy)
      .map((m) => ({ name: m.request.name, findings: findings.filter((f) => f.severity === 'stop') })),
  );
}

/** One kiln comes down in steps where the alloys want different mould temperatures. */
function mouldTemperatureFindings(pour: readonly PourPlan[], mould: 'flask' | 'shell'): readonly Finding[] {
  const leaves = (p: PourPlan): number => p.carry?.leaves ?? p.flaskTemperature;
  const byHeat = [...pour].sort((a, b) => leaves(b) - leaves(a));
  const [first, ...rest] = byHeat;
  const cooler = rest.filter((p) => first && leaves(p) < leaves(first));
  if (!first || cooler.length === 0) return [];
  return [
    note(
      'flask-temperatures-differ',
      `The burnout ends at ${Math.round(leaves(first))} °C for ${first.title}; ${cooler.map((p) => `${p.title} wants ${Math.round(leaves(p))} °C`).join(', ')}.`,
      `Pour the hottest ${mould}s first, then let the kiln come down and hold at least an hour before the next.`,
    ),
  ];
}
