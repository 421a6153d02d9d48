/** A tree of several kinds of pattern round one sprue. */
import {
  allKinds,
  defaultGatingSettings,
  gatingMass,
  isBuildable,
  type TreeKind,
} from '../foundry/gating/index.js';
import { massOf } from '../foundry/material.js';
import { placeKinds } from '../foundry/pack/place-kinds.js';
import type { PartDefinition } from '../part/contract.js';
import { type Finding, hasStop } from '../part/finding.js';
import { joinMeshes, placeMesh } from '../plate/place.js';
import { drawPart } from '../report/drawing/index.js';
import { measureBounds, measurePlanRadius } from '../solid/mesh-bounds.js';
import type { Box, Kernel, Mesh, Vec2 } from '../solid/types.js';
import { pairDimensions } from './dimension-rows.js';
import { gateMould } from './gated-mould.js';
import { type Job, type JobPart, type TreeMember, treePart } from './job.js';
import type { LearntGrowth } from './logged-growth.js';
import {
  gatingOf,
  type MemberBodies,
  type MemberRecord,
  type MemberState,
  type PartOutcome,
} from './make-part.js';
import { makeInScope, notMade } from './part-outcome.js';
import { measureFacts } from './part-states.js';
import { distinct, makePattern, metalFor, type Pattern, planHull, titleOf } from './pattern.js';
import { mouldHeightLimit, planKindGates } from './plan-gates.js';
import { present } from './present.js';

/** One kind as made. */
interface Made {
  readonly member: TreeMember;
  readonly definition: PartDefinition;
  readonly pattern: Pattern;
}

/**
 * Builds a tree of several kinds: each kind through its states, all of them about one sprue, gated and vented together.
 * What cannot be made comes back as `stop` findings, those of a kind with its name.
 */
export function makeTree(
  request: JobPart,
  members: readonly TreeMember[],
  find: (name: string) => PartDefinition,
  job: Job,
  kernel: Kernel,
  learntGrowth?: LearntGrowth,
): PartOutcome {
  return makeInScope(request, kernel, () => gateTree(request, members, find, job, kernel, learntGrowth));
}

/** The kind as if it were a part of the job by itself. */
export const asPart = (member: TreeMember, { alloy, gating }: Pick<JobPart, 'alloy' | 'gating'>): JobPart => {
  const { count: quantity, ...own } = member;
  return { ...own, quantity, alloy, ...present({ gating }) };
};

function gateTree(
  request: JobPart,
  members: readonly TreeMember[],
  find: (name: string) => PartDefinition,
  job: Job,
  kernel: Kernel,
  learntGrowth?: LearntGrowth,
): PartOutcome {
  const kinds: Made[] = [];
  const refusals: Finding[] = [];
  for (const member of members) {
    const definition = find(member.part);
    const outcome = makePattern(asPart(member, request), definition, job, kernel, learntGrowth);
    if (outcome.ok) kinds.push({ member, definition, pattern: outcome.pattern });
    else refusals.push(...outcome.findings.map(of(member)));
  }
  const [first] = kinds;
  if (refusals.length > 0 || first === undefined) return notMade(request, refusals);
  const settings = gatingOf(request, job);
  const places = placeKinds(
    kinds.map(({ member, pattern }) => ({
      outline: planHull(pattern.states.patternMesh),
      gate: gateOf(pattern),
      count: member.count,
    })),
    settings.patternGap ?? defaultGatingSettings.patternGap,
  );
  /** A state of all patterns as they stand, `larger` times their own size apart. */
  const standing = (meshOf: (p: Pattern) => Mesh, scale: (p: Pattern) => number): Mesh =>
    joinMeshes(
      kinds.flatMap(({ pattern }, k) =>
        (places[k] ?? []).map(({ turn, x, y }) =>
          placeMesh(meshOf(pattern), { turn, x: x * scale(pattern), y: y * scale(pattern), z: 0 }),
        ),
      ),
    );
  const patterns = standing(
    (p) => p.states.patternMesh,
    () => 1,
  );
  const treeKinds = kinds.map(
    ({ member, pattern }, k): TreeKind => ({ name: member.name, ...pattern.kind, places: places[k] ?? [] }),
  );
  const { states } = first.pattern;
  const planned = planKindGates(
    {
      gates: [],
      vents: [],
      kinds: treeKinds,
      casting: allKinds(treeKinds, measurePlanRadius(patterns)),
      metal: metalFor(states, job),
      heightLimit: mouldHeightLimit(job),
      settings,
    },
    kinds.map(({ pattern }) => pattern.states.patternMesh),
  );
  const own = kinds.flatMap(({ member, pattern }) => pattern.findings.map(of(member)));
  const found = [...own, ...planned.plan.findings];
  if (hasStop(found) || !isBuildable(planned.plan)) return notMade(request, found);

  const tolerance = Math.max(...kinds.map(({ pattern }) => pattern.states.tolerance));
  const mould = gateMould(
    { ...planned, standing: patterns, pattern: patterns, states, tolerance },
    job,
    kernel,
  );
  const toMetal = ({ states: { factors } }: Pattern): number => 1 / factors[0];
  const parts = standing((p) => p.states.partMesh, toMetal);
  const castings = standing((p) => p.states.castingMesh, toMetal);
  const records = kinds.map(recordOf);
  const sum = (state: 'part' | 'casting'): number =>
    records.reduce((total, { mass, request: { count } }) => total + count * mass[state], 0);
  const patternFacts = measureFacts(patterns);
  const gating = gatingMass(
    mould.gatedFacts.volume - patternFacts.volume,
    kinds.map(({ pattern }) => pattern.kind.casting),
  );
  return {
    ok: true,
    made: {
      request,
      part: treePart,
      title: treeTitle(records),
      meshes: { part: parts, casting: castings, pattern: patterns, gated: mould.gatedMesh },
      facts: {
        part: measureFacts(parts),
        casting: measureFacts(castings),
        pattern: patternFacts,
        gated: mould.gatedFacts,
      },
      patternBox: measureBounds(patterns) as Box,
      ...mould.whole,
      drawing: drawPart({ solid: kernel.fromMesh(parts), drawing: asItStands }, kernel, tolerance),
      growth: states.growth,
      stock: states.stock,
      surfaces: [],
      fittings: [],
      dimensions: [],
      tolerance,
      thinnestModulus: planned.input.casting.thinnestModulus as number,
      mass: {
        part: sum('part'),
        casting: sum('casting'),
        gating,
        charge: sum('casting') + gating,
      },
      members: records,
      memberBodies: kinds.map(
        ({ pattern: { states: s } }): MemberBodies => ({
          meshes: { part: s.partMesh, casting: s.castingMesh, pattern: s.patternMesh },
          drawing: drawPart(s.part, kernel, s.tolerance),
        }),
      ),
      findings: distinct([...own, ...mould.findings]),
    },
  };
}

/** Where the metal enters a pattern; one without a place is refused when the tree is gated. */
const gateOf = ({ kind: { gates } }: Pattern): Vec2 => {
  const place = gates.find((g) => !g.further) ?? gates[0];
  return place ? [place.at[0], place.at[1]] : [0, 0];
};

/** A tree is seen from above, where its patterns show apart, and from the front. */
const asItStands = { views: [{ from: '+z' as const }, { from: '-y' as const }] };

const of =
  ({ name }: TreeMember) =>
  (finding: Finding): Finding => ({ ...finding, message: `${name}: ${finding.message}` });

const recordOf = ({ member, definition, pattern: { states: s, facts, kind } }: Made): MemberRecord => ({
  request: member,
  part: definition.name,
  title: titleOf(definition, member.piece),
  facts: { part: s.partFacts, casting: s.castingFacts, pattern: facts } satisfies Record<
    MemberState,
    unknown
  >,
  growth: s.growth,
  stock: s.stock,
  surfaces: s.casting.surfaces,
  fittings: s.part.fittings ?? [],
  dimensions: pairDimensions(s.part.dimensions, s.casting.dimensions, s.factors, s.growth.value),
  mass: { part: massOf(s.partFacts.volume, s.alloy), casting: kind.casting.mass },
  single: { ...kind, outline: planHull(s.patternMesh) },
});

/** `Tree of 2 knobs and 1 pull`, by the members' names. */
const treeTitle = (members: readonly MemberRecord[]): string => {
  const said = members.map(({ request: { name, count } }) => `${count} × ${name}`);
  return `Tree of ${said.length > 1 ? `${said.slice(0, -1).join(', ')} and ` : ''}${said.at(-1)}`;
};
