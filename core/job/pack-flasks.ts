/** Flask packing: a job's small patterns on trees, so that fewer flasks are poured. */
import { findInvestment, type Investment } from '../foundry/investment.js';
import { findPlastic } from '../foundry/material.js';
import type { FlaskBurnout } from '../foundry/plans.js';
import { type Finding, hasStop, note } from '../part/finding.js';
import { formatDuration } from '../units/index.js';
import { fireFlasks } from './flask-fire.js';
import { type Job, type JobPart, type TreeMember, treePart } from './job.js';
import { breaksMore } from './kept-rules.js';
import { leftOut } from './left-out.js';
import { type Load, loadTrees } from './load-trees.js';
import type { PartRecord } from './make-part.js';
import { packAdvice } from './pack-advice.js';
import { mouldFor } from './part-mould.js';
import { present } from './present.js';
import { distinctAlloys, pourFor, refusedAlone } from './refused-alone.js';
import { mouldsFor } from './tree.js';
import { type PackedKind, treeTrial } from './tree-trial.js';

/** A job whose small patterns stand on trees. */
export interface PackedJob {
  /** The same job object where nothing was packed. */
  readonly job: Job;
  /** About the job: what was packed, and what it spares. */
  readonly findings: readonly Finding[];
}

/**
 * The trees that a job's small patterns go on, to be made: alloy by alloy, so that few flasks are poured and none takes
 * more investment than its patterns do alone. Parts that are on a tree by hand, have runners of their own, fit beside
 * no other or cannot be cast stay as they are. Pure.
 * @param made its parts by name, each made by itself; those that are missing are left as they are
 */
export function packFlasks(job: Job, made: ReadonlyMap<string, PartRecord>): readonly JobPart[] {
  const investment = findInvestment(job.investment) as Investment;
  if (investment.coats) return [];
  // Nor what is left out for another's sake.
  const gone = new Set(leftOut(job, refusedAlone(job, [...made.values()])).map((r) => r.name));
  const groups = new Map<string, PackedKind[]>();
  for (const request of job.parts) {
    if (gone.has(request.name)) continue;
    const kind = packable(request, made.get(request.name), job);
    if (kind === undefined) continue;
    const key = JSON.stringify([request.alloy, request.gating]);
    groups.set(key, [...(groups.get(key) ?? []), kind]);
  }
  const taken = new Set(job.parts.map((p) => p.name));
  return [...groups.values()].flatMap((kinds) => {
    const loads = loadTrees(
      kinds.map((k) => k.request.quantity),
      kinds.map((k) => k.area),
      treeTrial(kinds, job),
    );
    // Numbered as the job lists what is on them.
    const first = ({ counts }: Load): number => counts.findIndex((c) => c > 0);
    return [...loads].sort((p, q) => first(p) - first(q)).map((load) => treeFor(load, kinds, taken));
  });
}

/** Of those trees what was made and can be cast, from bed to kiln; what the others were to hold stays by itself. */
export function settlePacking(
  job: Job,
  made: ReadonlyMap<string, PartRecord>,
  trees: readonly PartRecord[],
): PackedJob {
  const refused = new Set(refusedAlone(job, trees).map((r) => r.name));
  const kept = trees.filter((tree) => !refused.has(tree.request.name) && keepsRules(tree, made));
  if (kept.length === 0) return { job, findings: nothingPacked(job, made, trees) };
  const onTrees = new Map<string, number>();
  for (const { request } of kept)
    for (const { name, count } of request.tree ?? [])
      onTrees.set(name, (onTrees.get(name) ?? 0) + count * mouldsFor(request));
  const shown = new Set<PartRecord>();
  const parts = job.parts.flatMap((request): readonly JobPart[] => {
    const left = request.quantity - (onTrees.get(request.name) ?? 0);
    const here = kept.filter((t) => !shown.has(t) && t.request.tree?.some((m) => m.name === request.name));
    for (const tree of here) shown.add(tree);
    return [
      ...here.map((t) => t.request),
      ...(left === request.quantity ? [request] : left > 0 ? [{ ...request, quantity: left }] : []),
    ];
  });
  return { job: { ...job, parts }, findings: packingFindings(job, made, kept, parts) };
}

/** Undefined where it stays by itself. */
function packable(request: JobPart, made: PartRecord | undefined, job: Job): PackedKind | undefined {
  if (made?.single === undefined || request.tree !== undefined) return undefined;
  if ((request.patternsPerTree ?? 1) > 1 || (request.gates ?? 1) > 1) return undefined;
  const [gate, ...others] = made.gating.gates;
  if (gate === undefined || others.length > 0 || gate.runner) return undefined;
  const { flask } = mouldFor(made, job);
  if (flask === undefined) return undefined;
  // The place it has by itself: on a tree it feeds from there as far.
  const gates = made.single.gates.filter((g) => g.name === gate.name);
  return {
    request,
    ...made.single,
    gates,
    area: areaOf(made.single.outline),
    slurry: flask.slurryVolume,
    charge: made.mass.charge,
    broken: brokenBy(made),
  };
}

const brokenBy = ({ gating }: PartRecord): ReadonlySet<string> => new Set(gating.findings.map((f) => f.code));

/** As made a tree has air vents, and the gates that its patterns' places turned out to give. */
const keepsRules = (tree: PartRecord, made: ReadonlyMap<string, PartRecord>): boolean =>
  !breaksMore(
    tree.gating.findings,
    (tree.request.tree ?? []).map(({ name }) => ({ name, broken: brokenBy(made.get(name) as PartRecord) })),
  );

const areaOf = (outline: PackedKind['outline']): number =>
  outline.reduce((sum, [x, y], i) => {
    const [u, v] = outline[(i + 1) % outline.length]!;
    return sum + (x * v - u * y) / 2;
  }, 0);

/** The entry of a tree, under a name that no part has. */
function treeFor({ counts, times }: Load, kinds: readonly PackedKind[], taken: Set<string>): JobPart {
  const members = kinds.flatMap(({ request }, k): readonly TreeMember[] => {
    const count = counts[k] ?? 0;
    if (count === 0) return [];
    const { name, part, piece, growth, stock, parameters } = request;
    return [{ name, part, count, stock, parameters, ...present({ piece, growth }) }];
  });
  const [first] = kinds.filter((_, k) => (counts[k] ?? 0) > 0) as [PackedKind, ...PackedKind[]];
  const { alloy, growth, stock, gating } = first.request;
  const perTree = members.reduce((sum, m) => sum + m.count, 0);
  let number = 1;
  while (taken.has(`tree-${number}`)) number++;
  const name = `tree-${number}`;
  taken.add(name);
  return {
    name,
    part: treePart,
    tree: members,
    quantity: times * perTree,
    patternsPerTree: perTree,
    alloy,
    stock,
    parameters: {},
    ...present({ growth, gating }),
  };
}

/** @param trees those that were tried */
const nothingPacked = (
  job: Job,
  made: ReadonlyMap<string, PartRecord>,
  trees: readonly PartRecord[],
): readonly Finding[] => [
  trees.length === 0 && crucibleHinders(job, made)
    ? note(
        'nothing-packed',
        'No patterns are put on trees: the largest crucible of the shop does not hold the metal of a tree with less investment than its patterns alone.',
        'List a larger crucible among crucibles, or leave packFlasks out.',
        'packFlasks',
      )
    : note(
        'nothing-packed',
        findInvestment(job.investment)?.coats
          ? 'No patterns are put on trees by themselves: the moulds are shells, not flasks.'
          : 'No patterns are put on trees: none that are small enough for one flask feed, clear its walls, and go on the bed and into the kiln together with less investment than alone.',
        'Write a tree among the parts to have one all the same, or list larger flasks.',
        'packFlasks',
      ),
];

/** Whether there would be trees if any crucible held them, and there are none. */
function crucibleHinders(job: Job, made: ReadonlyMap<string, PartRecord>): boolean {
  const { crucibles, ...shop } = job.shop;
  if (crucibles === undefined || packFlasks(job, made).length > 0) return false;
  return packFlasks({ ...job, shop }, made).length > 0;
}

/** To two figures: what is told is a difference. */
const grams = (mass: number): string =>
  mass < 995 ? `${Number(mass.toPrecision(2))} g` : `${Number((mass / 1000).toPrecision(2))} kg`;

/** The burnout of these parts' flasks together; undefined where it is refused or there are none. */
function fireOf(
  job: Job,
  requests: readonly JobPart[],
  recordOf: (name: string) => PartRecord | undefined,
): FlaskBurnout | undefined {
  const investment = findInvestment(job.investment);
  const plastic = findPlastic(job.shop.plastic);
  const records = requests.flatMap(({ name }) => recordOf(name) ?? []);
  if (investment === undefined || investment.coats || plastic === undefined) return undefined;
  const flasks = requests.flatMap((request) => {
    const record = recordOf(request.name);
    const flask = record && mouldFor(record, job).flask;
    return flask === undefined || hasStop(flask.findings)
      ? []
      : [{ name: request.name, alloy: request.alloy, moulds: mouldsFor(request), flask }];
  });
  if (flasks.length === 0) return undefined;
  const pour = distinctAlloys(records, job).map((alloy) => pourFor(alloy, records, investment));
  const fire = fireFlasks(flasks, pour, investment, plastic, job);
  return hasStop(fire.findings) ? undefined : fire;
}

/** What larger flasks cost in the kiln, or fewer spare; to the minute. */
function fireTold(before: FlaskBurnout | undefined, after: FlaskBurnout | undefined): string {
  if (before === undefined || after === undefined) return '';
  if (Math.abs(after.total - before.total) < 60) return '; the burnout takes as long';
  return `; the burnout takes ${formatDuration(after.total)} in place of ${formatDuration(before.total)}`;
}

/** What the trees spare against a flask for each pattern, and how they are had by hand. */
function packingFindings(
  job: Job,
  made: ReadonlyMap<string, PartRecord>,
  trees: readonly PartRecord[],
  packed: readonly JobPart[],
): readonly Finding[] {
  const hung = new Map(trees.map((t) => [t.request.name, t]));
  const before = fireOf(job, job.parts, (name) => made.get(name));
  const after = fireOf(job, packed, (name) => hung.get(name) ?? made.get(name));
  const powder = (record: PartRecord): number => mouldFor(record, job).flask?.weigh.powder ?? 0;
  const inTrees = trees.reduce(
    (sum, t) => {
      const moulds = mouldsFor(t.request);
      return {
        flasks: sum.flasks + moulds,
        metal: sum.metal + moulds * t.mass.charge,
        powder: sum.powder + moulds * powder(t),
      };
    },
    { flasks: 0, metal: 0, powder: 0 },
  );
  const alone = trees
    .flatMap((t) =>
      (t.request.tree ?? []).map(({ name, count }) => ({ name, castings: count * mouldsFor(t.request) })),
    )
    .reduce(
      (sum, { name, castings }) => {
        const record = made.get(name) as PartRecord;
        return {
          flasks: sum.flasks + castings,
          metal: sum.metal + castings * record.mass.charge,
          powder: sum.powder + castings * powder(record),
        };
      },
      { flasks: 0, metal: 0, powder: 0 },
    );
  const spared = (one: number, other: number): string =>
    other >= one ? `${grams(other - one)} less` : `${grams(one - other)} more`;
  return [
    note(
      'flasks-packed',
      `${alone.flasks} castings hang in ${inTrees.flasks} ${inTrees.flasks === 1 ? 'flask' : 'flasks'} in place of one each: ${alone.flasks - inTrees.flasks} flasks fewer, ${spared(inTrees.metal, alone.metal)} metal, ${spared(inTrees.powder, alone.powder)} investment powder${fireTold(before, after)}.`,
      packAdvice(
        job,
        trees.map((t) => t.request),
      ),
      'packFlasks',
    ),
  ];
}
