import { type Alloy, findAlloy } from '../foundry/alloys/index.js';
import { checkOwnAlloy } from '../foundry/alloys/own-alloy.js';
import { castingTolerancePlan } from '../foundry/casting-tolerance.js';
import { planCautions } from '../foundry/cautions.js';
import { findInvestment, type Investment, mouldWord, planInvestment } from '../foundry/investment.js';
import { findPlastic, type Plastic } from '../foundry/material.js';
import type { PourPlan } from '../foundry/plans.js';
import { planPour } from '../foundry/pour.js';
import { planCoating } from '../foundry/shell/index.js';
import { type Finding, hasStop, note } from '../part/finding.js';
import { fireFlasks } from './flask-fire.js';
import type { Job } from './job.js';
import { costOf } from './job-cost.js';
import { present } from './job-reader.js';
import { type LearntGrowth, loggedGrowthFindings } from './logged-growth.js';
import type { MadePart } from './make-part.js';
import { meltAll, meltJob } from './melt-job.js';
import { nestPlates } from './nest-plates.js';
import { partFiles } from './output-names.js';
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

export interface RefusedJob {
  /** Findings with the name of the part they belong to; '' for the job. */
  readonly refused: readonly { readonly name: string; readonly findings: readonly Finding[] }[];
}

/** Plates, moulds, fire, pours, melt, cost and findings of a job whose parts are made. */
export function planJob(
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
  part: made.part,
  ...(made.request.part === made.part ? {} : { partFile: made.request.part }),
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
