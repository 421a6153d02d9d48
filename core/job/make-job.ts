import { type Alloy, findAlloy } from '../foundry/alloys/index.js';
import { checkOwnAlloy } from '../foundry/alloys/own-alloy.js';
import { castingTolerancePlan } from '../foundry/casting-tolerance.js';
import { planCautions } from '../foundry/cautions.js';
import { findInvestment, type Investment, mouldWord, planInvestment } from '../foundry/investment.js';
import { findPlastic, type Plastic } from '../foundry/material.js';
import type { PourPlan } from '../foundry/plans.js';
import { planPour } from '../foundry/pour.js';
import { planCoating } from '../foundry/shell/index.js';
import type { Crew } from '../freeze/kernel/crew.js';
import type { PartDefinition } from '../part/contract.js';
import { type Finding, hasStop, note, stop } from '../part/finding.js';
import type { Kernel } from '../solid/types.js';
import { fireFlasks } from './flask-fire.js';
import { type FrozenPaper, freezeJob } from './freeze-job.js';
import type { Job } from './job.js';
import { costOf } from './job-cost.js';
import { present } from './job-reader.js';
import { type LearntGrowth, loggedGrowthFindings } from './logged-growth.js';
import { type MadePart, makePart } from './make-part.js';
import { meltAll, meltJob } from './melt-job.js';
import { nestPlates } from './nest-plates.js';
import { freezeFieldFile, freezeFiles, partFiles } from './output-names.js';
import { mixOf, mouldFor } from './part-mould.js';
import { fireShells, pourIntoShells } from './shell-job.js';
import {
  isInFlask,
  isInShell,
  type JobMoulds,
  mouldFindings,
  type PartMould,
  type PartSummary,
  type Summary,
  summaryUnits,
  summaryVersion,
} from './summary.js';
import { mouldsFor } from './tree.js';

/** A stage of the work, for a progress line. */
export interface Progress {
  readonly stage: string;
  readonly done: number;
  readonly of: number;
}

export interface JobResult {
  readonly summary: Summary;
  /** By name. */
  readonly parts: ReadonlyMap<string, MadePart>;
  /** How they fill and freeze, by name; none where the job wants none. */
  readonly frozen: ReadonlyMap<string, FrozenPaper>;
}

export interface RefusedJob {
  /** Findings with the name of the part they belong to; '' for the job. */
  readonly refused: readonly { readonly name: string; readonly findings: readonly Finding[] }[];
}

export interface MakeContext {
  readonly kernel: Kernel;
  readonly findPart: (name: string) => PartDefinition | undefined;
  readonly onProgress?: (progress: Progress) => void;
  /** What the shop measured on earlier pours. */
  readonly learntGrowth?: LearntGrowth;
  /** Further threads for what takes long; left out: none. */
  readonly crew?: Crew;
}

/**
 * Takes a whole job through the states and works out what the bench needs. Every part is tried, so that all that
 * is wrong is told at once; one `stop` refuses the job.
 */
export function makeJob(job: Job, context: MakeContext): JobResult | RefusedJob {
  const refused: { name: string; findings: readonly Finding[] }[] = [];
  const parts = new Map<string, MadePart>();
  for (const [i, request] of job.parts.entries()) {
    context.onProgress?.({ stage: request.name, done: i, of: job.parts.length });
    const definition = context.findPart(request.part);
    const outcome = definition
      ? makePart(request, definition, job, context.kernel, context.learntGrowth)
      : {
          ok: false as const,
          name: request.name,
          findings: [
            stop(
              'unknown-part',
              `There is no part called ${request.part}.`,
              'See `patternwright list parts`.',
              'part',
            ),
          ],
        };
    if (outcome.ok) parts.set(request.name, outcome.made);
    else refused.push({ name: outcome.name, findings: outcome.findings });
  }
  if (refused.length > 0) return { refused };
  context.onProgress?.({ stage: 'plates and papers', done: job.parts.length, of: job.parts.length });
  const planned = planJob(job, parts, context.learntGrowth);
  return 'refused' in planned ? planned : freezeAll(job, planned, parts, context);
}

/** The planned job with how its moulds fill and freeze; planned anew where other gatings served better. */
function freezeAll(
  job: Job,
  planned: Summary,
  parts: ReadonlyMap<string, MadePart>,
  { kernel, findPart, learntGrowth, crew, onProgress }: MakeContext,
): JobResult | RefusedJob {
  const { papers, improved } = freezeJob({
    job,
    parts,
    told: planned.parts,
    pour: planned.pour,
    remake: (request) =>
      makePart(request, findPart(request.part) as PartDefinition, job, kernel, learntGrowth),
    ...present({ crew }),
    onProgress: (name, done, share) =>
      onProgress?.({
        stage: `${name}: freezing, ${Math.round(100 * share)} %`,
        done,
        of: job.parts.length,
      }),
  });
  const made = new Map([...parts].map(([name, part]) => [name, improved.get(name) ?? part]));
  const summary = improved.size === 0 ? planned : planJob(job, made, learntGrowth);
  if ('refused' in summary) return summary;
  const told = summary.parts.map((p) => {
    const paper = papers.get(p.name);
    if (!paper) return p;
    const files = {
      ...p.files,
      ...freezeFiles(p.name),
      ...(paper.fields ? { freezeFields: freezeFieldFile(p.name) } : {}),
    };
    return { ...p, freeze: paper.plan, files };
  });
  return { summary: { ...summary, parts: told }, parts: made, frozen: papers };
}

function planJob(
  job: Job,
  parts: ReadonlyMap<string, MadePart>,
  learntGrowth: LearntGrowth | undefined,
): Summary | RefusedJob {
  const investment = findInvestment(job.investment) as Investment;
  const plastic = findPlastic(job.shop.plastic) as Plastic;
  const made = [...parts.values()];
  const alloys = distinctAlloys(job);
  const moulds = new Map(made.map((m): readonly [string, PartMould] => [m.request.name, mouldFor(m, job)]));
  const mouldOf = (m: MadePart): PartMould => moulds.get(m.request.name) as PartMould;
  const { plates, findings: nestFindings } = nestPlates(job, made, plastic);
  const pour = alloys.map((alloy) => {
    const plan = pourFor(alloy, made, investment);
    if (!investment.coats) return plan;
    const shells = made.flatMap((m) => (m.request.alloy === alloy.name ? (mouldOf(m).shell ?? []) : []));
    return pourIntoShells(plan, shells, investment, job);
  });
  const refused = [
    ...made.map((m) => ({ name: m.request.name, findings: mouldFindings(mouldOf(m)) })),
    { name: '', findings: [...nestFindings, ...pour.flatMap((p) => p.findings)] },
  ].filter(({ findings }) => hasStop(findings));
  if (refused.length > 0) return { refused };

  const partSummaries = made.map((m) => summarisePart(m, mouldOf(m), job));
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
  const burnout = investment.coats
    ? fireShells(partSummaries.filter(isInShell), pour, investment, plastic, job)
    : fireFlasks(partSummaries.filter(isInFlask), pour, investment, plastic, job);
  if (hasStop(burnout.findings)) return { refused: [{ name: '', findings: burnout.findings }] };
  const modulus = (name: string): number => (parts.get(name) as MadePart).thinnestModulus;
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
      ...nestFindings,
      ...alloys.flatMap(ownAlloyFindings),
      ...mouldTemperatureFindings(pour, mouldWord(investment)),
      ...alloys.flatMap((alloy) => {
        const growths = made.filter((m) => m.request.alloy === alloy.name).map((m) => m.growth);
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

const distinctAlloys = (job: Job): readonly Alloy[] =>
  [...new Set(job.parts.map((p) => p.alloy))].flatMap((name) => findAlloy(name, job.shop.alloys) ?? []);

function pourFor(alloy: Alloy, made: readonly MadePart[], investment: Investment): PourPlan {
  return planPour({
    alloy,
    investment,
    parts: made
      .filter((m) => m.request.alloy === alloy.name)
      .map((m) => ({ name: m.request.name, thinnestModulus: m.thinnestModulus })),
  });
}

const summarisePart = (made: MadePart, mould: PartMould, job: Job): PartSummary => ({
  name: made.request.name,
  part: made.request.part,
  ...(made.request.piece === undefined ? {} : { piece: made.request.piece }),
  title: made.title,
  quantity: made.request.quantity,
  patternsPerTree: made.request.patternsPerTree ?? 1,
  moulds: mouldsFor(made.request),
  parameters: made.request.parameters,
  alloy: made.request.alloy,
  growth: made.growth,
  printerCorrection: job.printerCorrection,
  stock: made.stock,
  surfaces: made.surfaces,
  fittings: made.fittings,
  mass: made.mass,
  volume: {
    part: made.facts.part.volume,
    casting: made.facts.casting.volume,
    pattern: made.facts.pattern.volume,
    gated: made.facts.gated.volume,
  },
  meshes: made.facts,
  tolerance: made.tolerance,
  dimensions: made.dimensions,
  castingTolerance: castingTolerancePlan,
  gating: made.gating,
  air: made.air,
  ...mould,
  findings: [...made.findings, ...mouldFindings(mould)],
  files: partFiles(made.request.name),
});

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
