import type { AirPlan } from '../foundry/air/index.js';
import { type GatingSettings, isBuildable } from '../foundry/gating/index.js';
import { massOf } from '../foundry/material.js';
import type { GatingPlan, GrowthPlan, StockPlan } from '../foundry/plans.js';
import type { Fitting, PartDefinition, SurfaceNote } from '../part/contract.js';
import { type Finding, hasStop } from '../part/finding.js';
import { type DrawnPart, drawPart } from '../report/drawing/index.js';
import { measureBounds } from '../solid/mesh-bounds.js';
import type { Box, Kernel, Mesh, Polygon, Vec2 } from '../solid/types.js';
import { pairDimensions } from './dimension-rows.js';
import { gateMould } from './gated-mould.js';
import type { Job, JobPart, TreeMember } from './job.js';
import type { LearntGrowth } from './logged-growth.js';
import { type Made, makeInScope, notMade } from './part-outcome.js';
import {
  distinct,
  type GatedKind,
  makePattern,
  metalFor,
  patternBounds,
  planHull,
  titleOf,
} from './pattern.js';
import { mouldHeightLimit, planGates } from './plan-gates.js';
import { present } from './present.js';
import type { ShellBase } from './shell-base.js';
import type { DimensionRow, MeshFacts } from './summary.js';
import { spareFindings, treeMesh, treeOf } from './tree.js';

/** The states that are written as meshes. */
export const meshStates = ['part', 'casting', 'pattern', 'gated'] as const;
export type MeshState = (typeof meshStates)[number];

/** The states of each kind on a tree of several. */
export const memberStates = ['part', 'casting', 'pattern'] as const;
export type MemberState = (typeof memberStates)[number];

/** What is large of a made part: nothing that plans a job reads it. */
export interface PartBodies {
  readonly meshes: Readonly<Record<MeshState, Mesh>>;
  /** The patterns of one mould, without gating. */
  readonly standing: Mesh;
  /** The gating alone, sunk into the pattern: for pictures. */
  readonly gatingMesh: Mesh;
  /** Views of the finished part, without scale. */
  readonly drawing: DrawnPart;
  /** Of a tree of several kinds, in the order of `members`; its own `meshes` are then all patterns as they stand. */
  readonly memberBodies?: readonly MemberBodies[];
}

/** What a job is planned from: one part's numbers, taken through its states up to the gated pattern. Plain data. */
export interface PartRecord {
  readonly request: JobPart;
  /** The definition's name. */
  readonly part: string;
  readonly title: string;
  readonly facts: Readonly<Record<MeshState, MeshFacts>>;
  readonly patternBox: Box;
  readonly gatedBox: Box;
  /** In plan about the flask's axis, mm. */
  readonly gatedRadius: number;
  /** Where that is not the middle of `gatedBox`: on the sprue, where a tree comes nearest to being round about it. */
  readonly flaskAxis?: Vec2;
  /** Silhouette of the gated pattern from above. */
  readonly silhouette: readonly Polygon[];
  /** What stands on the bed: the gated pattern cut through the middle of its first layer. */
  readonly footprint: readonly Polygon[];
  /** What a shell is planned from, where the job's moulds are shells. */
  readonly shellBase?: ShellBase;
  readonly growth: GrowthPlan;
  readonly stock: StockPlan;
  readonly surfaces: readonly SurfaceNote[];
  readonly fittings: readonly Fitting[];
  readonly dimensions: readonly DimensionRow[];
  readonly gating: GatingPlan;
  readonly air: AirPlan;
  /** Greatest chord deviation of the meshes, mm. */
  readonly tolerance: number;
  /** V/A of the thinnest wall at pattern size, mm. */
  readonly thinnestModulus: number;
  /** g: one part, one casting; the gating of one mould, and all its metal. */
  readonly mass: {
    readonly part: number;
    readonly casting: number;
    readonly gating: number;
    readonly charge: number;
  };
  /** What a tree of its pattern, or a mould of one, is planned from; its outline is the hull in plan. Not of several kinds. */
  readonly single?: GatedKind & { readonly outline: readonly Vec2[] };
  /** The kinds on a tree of several, in the order of `request.tree`. */
  readonly members?: readonly MemberRecord[];
  readonly findings: readonly Finding[];
}

/** One kind of pattern on a tree of several. */
export interface MemberRecord {
  readonly request: TreeMember;
  /** As of a part by itself. */
  readonly part: string;
  readonly title: string;
  readonly facts: Readonly<Record<MemberState, MeshFacts>>;
  readonly growth: GrowthPlan;
  readonly stock: StockPlan;
  readonly surfaces: readonly SurfaceNote[];
  readonly fittings: readonly Fitting[];
  readonly dimensions: readonly DimensionRow[];
  /** g: one part, one casting. */
  readonly mass: { readonly part: number; readonly casting: number };
  /** What it would be planned from by itself. */
  readonly single: NonNullable<PartRecord['single']>;
}

/** What is large of a kind on a tree of several. */
export interface MemberBodies {
  readonly meshes: Readonly<Record<MemberState, Mesh>>;
  readonly drawing: DrawnPart;
}

/** One part of a job, made. Plain data. */
export interface MadePart extends PartRecord, PartBodies {}

export type PartOutcome = Made<MadePart>;

/**
 * Builds one part of the job: part, casting, pattern, gated pattern, with every number that follows from its shape
 * alone. What cannot be made comes back as `stop` findings; nothing is thrown for legal input.
 * @param learntGrowth what the shop measured on earlier pours
 */
export function makePart(
  request: JobPart,
  definition: PartDefinition,
  job: Job,
  kernel: Kernel,
  learntGrowth?: LearntGrowth,
): PartOutcome {
  return makeInScope(request, kernel, () => gateStates(request, definition, job, kernel, learntGrowth));
}

function gateStates(
  request: JobPart,
  definition: PartDefinition,
  job: Job,
  kernel: Kernel,
  learntGrowth?: LearntGrowth,
): PartOutcome {
  const outcome = makePattern(request, definition, job, kernel, learntGrowth);
  if (!outcome.ok) return notMade(request, outcome.findings);
  const { states, facts: patternFacts, kind, findings: ownFindings } = outcome.pattern;
  const { tolerance, part, partMesh, partFacts, stock, casting, castingMesh, castingFacts } = states;
  const { growth, factors, patternMesh } = states;
  const gatingSettings = gatingOf(request, job);
  const tree = treeOf(request, patternMesh, kind.gates[0], gatingSettings.patternGap);
  const standing = treeMesh(patternMesh, tree);
  const planned = planGates(
    {
      ...kind,
      casting: { ...kind.casting, ...patternBounds(standing) },
      metal: metalFor(states, job),
      tree,
      heightLimit: mouldHeightLimit(job),
      settings: gatingSettings,
    },
    patternMesh,
  );
  const partFindings = [...ownFindings, ...spareFindings(request)];
  const refusals = [...partFindings, ...planned.plan.findings];
  if (hasStop(refusals) || !isBuildable(planned.plan)) return notMade(request, refusals);

  const mould = gateMould({ ...planned, standing, pattern: patternMesh, states, tolerance }, job, kernel);
  const { gatedMesh, gatedFacts, charge } = mould;
  const castingMass = kind.casting.mass;
  return {
    ok: true,
    made: {
      request,
      part: definition.name,
      title: titleOf(definition, request.piece),
      meshes: { part: partMesh, casting: castingMesh, pattern: patternMesh, gated: gatedMesh },
      facts: { part: partFacts, casting: castingFacts, pattern: patternFacts, gated: gatedFacts },
      patternBox: measureBounds(patternMesh) as Box,
      ...mould.whole,
      single: { ...kind, outline: planHull(patternMesh) },
      drawing: drawPart(part, kernel, tolerance),
      growth,
      stock,
      surfaces: casting.surfaces,
      fittings: part.fittings ?? [],
      dimensions: pairDimensions(part.dimensions, casting.dimensions, factors, growth.value),
      tolerance,
      thinnestModulus: kind.casting.thinnestModulus as number,
      mass: {
        part: massOf(partFacts.volume, states.alloy),
        casting: castingMass,
        gating: charge - tree.length * castingMass,
        charge,
      },
      findings: distinct([...partFindings, ...mould.findings]),
    },
  };
}

/** What is set of a part's gating: its own before the job's. */
export const gatingOf = (request: JobPart, job: Job): Partial<GatingSettings> => ({
  ...job.gating,
  ...request.gating,
  ...present({ gates: request.gates }),
});
