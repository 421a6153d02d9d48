import { type AirPlan, ventGating } from '../foundry/air/index.js';
import { type GatingSettings, gatingMetal, isBuildable } from '../foundry/gating/index.js';
import { findInvestment, type Investment } from '../foundry/investment.js';
import { massOf } from '../foundry/material.js';
import type { GatingPlan, GrowthPlan, StockPlan } from '../foundry/plans.js';
import { checkStock } from '../foundry/stock.js';
import type { Fitting, GatePlace, PartDefinition, SurfaceNote, VentPlace } from '../part/contract.js';
import { type Finding, hasStop } from '../part/finding.js';
import { type DrawnPart, drawPart } from '../report/drawing/index.js';
import { measureMesh } from '../solid/mass-properties.js';
import { measureBounds, measurePlanRadius } from '../solid/mesh-bounds.js';
import type { Box, Kernel, Mesh, Polygon, Vec3 } from '../solid/types.js';
import { pairDimensions } from './dimension-rows.js';
import type { Job, JobPart } from './job.js';
import { present } from './job-reader.js';
import type { LearntGrowth } from './logged-growth.js';
import { orRefusal } from './or-refusal.js';
import { buildStates, measureFacts, thinnestModulusOf } from './part-states.js';
import { mouldHeightLimit, planGates } from './plan-gates.js';
import { type ShellBase, shellBaseOf } from './shell-base.js';
import type { DimensionRow, MeshFacts } from './summary.js';
import { supportFindings } from './support.js';
import { spareFindings, treeMesh, treeOf } from './tree.js';

/** The states that are written as meshes. */
export const meshStates = ['part', 'casting', 'pattern', 'gated'] as const;
export type MeshState = (typeof meshStates)[number];

/** What is large of a made part: nothing that plans a job reads it. */
export interface PartBodies {
  readonly meshes: Readonly<Record<MeshState, Mesh>>;
  /** The patterns of one mould, without gating. */
  readonly standing: Mesh;
  /** The gating alone, sunk into the pattern: for pictures. */
  readonly gatingMesh: Mesh;
  /** Views of the finished part, without scale. */
  readonly drawing: DrawnPart;
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
  /** In plan about the middle of `gatedBox`, mm. */
  readonly gatedRadius: number;
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
  readonly findings: readonly Finding[];
}

/** One part of a job, made. Plain data. */
export interface MadePart extends PartRecord, PartBodies {}

export type PartOutcome =
  | { readonly ok: true; readonly made: MadePart }
  | { readonly ok: false; readonly name: string; readonly findings: readonly Finding[] };

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
  const outcome = orRefusal(() =>
    kernel.scope(() => gateStates(request, definition, job, kernel, learntGrowth)),
  );
  return 'refusal' in outcome ? { ok: false, name: request.name, findings: [outcome.refusal] } : outcome;
}

function gateStates(
  request: JobPart,
  definition: PartDefinition,
  job: Job,
  kernel: Kernel,
  learntGrowth?: LearntGrowth,
): PartOutcome {
  const refused = (findings: readonly Finding[]): PartOutcome => ({
    ok: false,
    name: request.name,
    findings: distinct(findings),
  });
  const built = buildStates(request, definition, job, kernel, learntGrowth);
  if (!built.ok) return refused(built.findings);
  const { alloy, tolerance, part, partMesh, partFacts, stock } = built.states;
  const { casting, castingMesh, castingFacts, growth, factors, patternMesh } = built.states;
  const { piece } = request;
  const patternFacts = measureFacts(patternMesh);
  const castingMass = massOf(castingFacts.volume, alloy);
  const patternArea = measureMesh(patternMesh).area;
  const thinnestModulus = thinnestModulusOf(casting, patternFacts.volume, patternArea, growth.value);
  const gates = casting.gates.map((place) => scaleGate(place, factors));
  const gatingSettings = gatingOf(request, job);
  const tree = treeOf(request, patternMesh, gates[0], gatingSettings.patternGap);
  const standing = treeMesh(patternMesh, tree);
  const { input: gatingInput, plan: firstGating } = planGates(
    {
      gates,
      vents: casting.vents.map((place) => scaleVent(place, factors)),
      casting: {
        ...patternBounds(standing),
        volume: patternFacts.volume,
        area: patternArea,
        mass: castingMass,
        thinnestModulus,
      },
      metal: gatingMetal(alloy, findInvestment(job.investment) as Investment),
      tree,
      heightLimit: mouldHeightLimit(job),
      settings: gatingSettings,
    },
    patternMesh,
  );
  const partFindings = [
    ...part.findings,
    ...casting.findings,
    ...checkStock(stock.stock, job.layerHeight),
    ...supportFindings(patternMesh),
    ...spareFindings(request),
  ];
  const refusals = [...partFindings, ...firstGating.findings];
  if (hasStop(refusals) || !isBuildable(firstGating)) return refused(refusals);

  const vented = ventGating(firstGating, gatingInput, standing, kernel, tolerance);
  const { gating, gatingSolid, gated } = vented;
  const findings = distinct([...partFindings, ...gating.findings, ...vented.findings]);
  const gatedMesh = gated.mesh();
  const gatedBox = measureBounds(gatedMesh) as Box;
  const gatedFacts = measureFacts(gatedMesh);
  // The gating is drawn at pattern size; its metal shrinks as the casting's does.
  const shrink = factors[0] * factors[1] * factors[2];
  const charge = massOf(gatedFacts.volume / shrink, alloy);
  return {
    ok: true,
    made: {
      request,
      part: definition.name,
      title: definition.pieces?.find((p) => p.name === piece)?.title ?? definition.summary,
      meshes: { part: partMesh, casting: castingMesh, pattern: patternMesh, gated: gatedMesh },
      standing,
      gatingMesh: gatingSolid.mesh(),
      facts: { part: partFacts, casting: castingFacts, pattern: patternFacts, gated: gatedFacts },
      patternBox: measureBounds(patternMesh) as Box,
      gatedBox,
      gatedRadius: measurePlanRadius(gatedMesh),
      silhouette: gated.projection(),
      footprint: gated.slice(gatedBox.min[2] + job.layerHeight / 2),
      ...present({ shellBase: shellBaseOf(patternMesh, gatedMesh, job) }),
      drawing: drawPart(part, kernel, tolerance),
      growth,
      stock,
      surfaces: casting.surfaces,
      fittings: part.fittings ?? [],
      dimensions: pairDimensions(part.dimensions, casting.dimensions, factors, growth.value),
      gating,
      air: vented.air,
      tolerance,
      thinnestModulus,
      mass: {
        part: massOf(partFacts.volume, alloy),
        casting: castingMass,
        gating: charge - tree.length * castingMass,
        charge,
      },
      findings,
    },
  };
}

/** What is set of a part's gating: its own before the job's. */
export const gatingOf = (request: JobPart, job: Job): Partial<GatingSettings> => ({
  ...job.gating,
  ...request.gating,
  ...present({ gates: request.gates }),
});

const scaled = ([x, y, z]: Vec3, [fx, fy, fz]: Vec3): Vec3 => [x * fx, y * fy, z * fz];

const scaleGate = (place: GatePlace, factors: Vec3): GatePlace => ({
  ...place,
  at: scaled(place.at, factors),
  innerDiameter: place.innerDiameter * factors[0],
  outerDiameter: place.outerDiameter * factors[0],
  ...scaleSeat(place, factors),
});

const scaleVent = (place: VentPlace, factors: Vec3): VentPlace => ({
  ...place,
  at: scaled(place.at, factors),
  footDiameter: place.footDiameter * factors[0],
  ...scaleSeat(place, factors),
});

const scaleSeat = ({ seat }: { readonly seat?: number }, factors: Vec3) =>
  seat === undefined ? {} : { seat: seat * factors[2] };

/** Top, bottom and the radius in plan about the middle of its box, mm. */
function patternBounds(mesh: Mesh): {
  readonly top: number;
  readonly bottom: number;
  readonly radius: number;
} {
  const { min, max } = measureBounds(mesh) as Box;
  return { top: max[2], bottom: min[2], radius: measurePlanRadius(mesh) };
}

/** The same finding from both states is told once. */
function distinct(findings: readonly Finding[]): readonly Finding[] {
  const seen = new Set<string>();
  return findings.filter((f) => {
    const key = `${f.severity} ${f.code} ${f.message}`;
    return !seen.has(key) && seen.add(key);
  });
}
