import { type AirPlan, ventGating } from '../foundry/air/index.js';
import { type Alloy, findAlloy } from '../foundry/alloys/index.js';
import { type GatingSettings, gatingMetal, isBuildable } from '../foundry/gating/index.js';
import { type GrowthSettings, planGrowth } from '../foundry/growth.js';
import { FoundryInputError } from '../foundry/input.js';
import { findInvestment, type Investment } from '../foundry/investment.js';
import { findPlastic, massOf, type Plastic } from '../foundry/material.js';
import type { GatingPlan, GrowthPlan, StockPlan } from '../foundry/plans.js';
import { planPour } from '../foundry/pour.js';
import { checkStock, planStock } from '../foundry/stock.js';
import {
  type Fitting,
  type GatePlace,
  type PartDefinition,
  type SurfaceNote,
  usualTolerance,
  type VentPlace,
} from '../part/contract.js';
import { type Finding, hasStop, stop } from '../part/finding.js';
import { noStock, type Stock } from '../part/stock.js';
import { type DrawnPart, drawPart } from '../report/drawing/index.js';
import { SolidError } from '../solid/errors.js';
import { measureMesh } from '../solid/mass-properties.js';
import { measureBounds, measurePlanRadius } from '../solid/mesh-bounds.js';
import { scaleMesh } from '../solid/scale-mesh.js';
import type { Box, Kernel, Mesh, Polygon, Vec3 } from '../solid/types.js';
import { pairDimensions } from './dimension-rows.js';
import type { Job, JobPart } from './job.js';
import { present } from './job-reader.js';
import { type LearntGrowth, noLoggedGrowth } from './logged-growth.js';
import { mouldHeightLimit, planGates } from './plan-gates.js';
import type { DimensionRow, MeshFacts } from './summary.js';
import { supportFindings } from './support.js';
import { spareFindings, treeMesh, treeOf } from './tree.js';

/** The states that are written as meshes. */
export const meshStates = ['part', 'casting', 'pattern', 'gated'] as const;
export type MeshState = (typeof meshStates)[number];

/** One part of a job, taken through its states up to the gated pattern. Plain data. */
export interface MadePart {
  readonly request: JobPart;
  readonly title: string;
  readonly meshes: Readonly<Record<MeshState, Mesh>>;
  /** The patterns of one mould, without gating. */
  readonly standing: Mesh;
  /** The gating alone, sunk into the pattern: for pictures. */
  readonly gatingMesh: Mesh;
  readonly facts: Readonly<Record<MeshState, MeshFacts>>;
  /** Silhouette of the gated pattern from above. */
  readonly silhouette: readonly Polygon[];
  /** Views of the finished part, without scale. */
  readonly drawing: DrawnPart;
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
  try {
    return kernel.scope(() => buildStates(request, definition, job, kernel, learntGrowth));
  } catch (error) {
    if (error instanceof SolidError) return { ok: false, name: request.name, findings: [unsound(error)] };
    if (!(error instanceof FoundryInputError)) throw error;
    const { message } = error;
    return {
      ok: false,
      name: request.name,
      findings: [stop('out-of-range', message, 'Change the size or the setting it names.')],
    };
  }
}

/** The kernel found a shape that no file can carry: told as a refusal, never written. */
const unsound = (error: SolidError): Finding =>
  stop(
    'shape-not-sound',
    `The shape does not hold together: ${error.message}.`,
    'Change a size a little, and please report the job that led here.',
  );

function buildStates(
  request: JobPart,
  definition: PartDefinition,
  job: Job,
  kernel: Kernel,
  learntGrowth?: LearntGrowth,
): PartOutcome {
  const alloy = findAlloy(request.alloy, job.shop.alloys);
  const refused = (findings: readonly Finding[]): PartOutcome => ({
    ok: false,
    name: request.name,
    findings: distinct(findings),
  });
  if (!alloy)
    return refused([
      stop(
        'unknown-alloy',
        `There is no alloy called ${request.alloy}.`,
        'See `patternwright list alloys`.',
        'alloy',
      ),
    ]);

  const logged = learntGrowth?.(alloy.name, job.investment);
  if (request.growth === 'log' && logged === undefined)
    return refused([noLoggedGrowth(alloy, job.investment)]);

  const { piece } = request;
  const tolerance = job.tolerance ?? definition.tolerance ?? usualTolerance;
  const kit = { kernel, tolerance, ...(piece === undefined ? {} : { piece }) };
  const build = (stock: Stock) => definition.build(request.parameters, stock, kit);
  const part = build(noStock);
  if (part.solid === null) return refused(part.findings);
  const partMesh = part.solid.mesh();
  const partFacts = measureFacts(partMesh);
  const { layerHeight } = job;
  const stock = planStock({
    largestDimension: Math.max(...partFacts.size),
    layerHeight,
    overrides: request.stock,
  });
  const casting = build(stock.stock);
  if (casting.solid === null) return refused([...part.findings, ...casting.findings]);
  const castingMesh = casting.solid.mesh();
  const castingFacts = measureFacts(castingMesh);

  /** Of the casting drawn larger by a factor: of the whole, or of its thinnest wall. */
  const thinnest = (volume: number, area: number, factor: number): number =>
    Math.min(volume / area, ((casting.thinnestWall ?? Number.POSITIVE_INFINITY) / 2) * factor);
  const castingModulus = thinnest(castingFacts.volume, measureMesh(castingMesh).area, 1);
  const settings = growthSettings(job, alloy, castingModulus);
  const growth = planGrowth(alloy, logged ? { ...settings, logged } : settings, request.growth);
  const factors = patternFactors(growth.value, job);
  const patternMesh = scaleMesh(castingMesh, factors);
  const patternFacts = measureFacts(patternMesh);
  const castingMass = massOf(castingFacts.volume, alloy);
  const patternArea = measureMesh(patternMesh).area;
  const thinnestModulus = thinnest(patternFacts.volume, patternArea, growth.value);
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
    ...checkStock(stock.stock, layerHeight),
    ...supportFindings(patternMesh),
    ...spareFindings(request),
  ];
  const refusals = [...partFindings, ...firstGating.findings];
  if (hasStop(refusals) || !isBuildable(firstGating)) return refused(refusals);

  const vented = ventGating(firstGating, gatingInput, standing, kernel, tolerance);
  const { gating, gatingSolid, gated } = vented;
  const findings = distinct([...partFindings, ...gating.findings, ...vented.findings]);
  const gatedMesh = gated.mesh();
  const gatedFacts = measureFacts(gatedMesh);
  // The gating is drawn at pattern size; its metal shrinks as the casting's does.
  const shrink = factors[0] * factors[1] * factors[2];
  const charge = massOf(gatedFacts.volume / shrink, alloy);
  return {
    ok: true,
    made: {
      request,
      title: definition.pieces?.find((p) => p.name === piece)?.title ?? definition.summary,
      meshes: { part: partMesh, casting: castingMesh, pattern: patternMesh, gated: gatedMesh },
      standing,
      gatingMesh: gatingSolid.mesh(),
      facts: { part: partFacts, casting: castingFacts, pattern: patternFacts, gated: gatedFacts },
      silhouette: gated.projection(),
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

/** The mould is as hot as this part alone would have it; its own growth changes that by nothing worth counting. */
function growthSettings(job: Job, alloy: Alloy, thinnestModulus: number): GrowthSettings {
  const investment = findInvestment(job.investment) as Investment;
  const { flaskTemperature } = planPour({ alloy, investment, parts: [{ name: '', thinnestModulus }] });
  const { printShrinkage } = job.shop;
  const corrected = job.printerCorrection.xy !== 1 || job.printerCorrection.z !== 1;
  return {
    investment,
    plastic: findPlastic(job.shop.plastic) as Plastic,
    flaskTemperature,
    ...(corrected ? { printShrinkage: 0 } : printShrinkage === undefined ? {} : { printShrinkage }),
  };
}

/** What is set of a part's gating: its own before the job's. */
export const gatingOf = (request: JobPart, job: Job): Partial<GatingSettings> => ({
  ...job.gating,
  ...request.gating,
  ...present({ gates: request.gates }),
});

/** Growth, then the printer's own correction, along x, y and z. */
export const patternFactors = (growth: number, job: Job): Vec3 => {
  const xy = growth * job.printerCorrection.xy;
  return [xy, xy, growth * job.printerCorrection.z];
};

const scaled = ([x, y, z]: Vec3, [fx, fy, fz]: Vec3): Vec3 => [x * fx, y * fy, z * fz];

const scaleGate = (place: GatePlace, factors: Vec3): GatePlace => ({
  ...place,
  at: scaled(place.at, factors),
  innerDiameter: place.innerDiameter * factors[0],
  outerDiameter: place.outerDiameter * factors[0],
});

const scaleVent = (place: VentPlace, factors: Vec3): VentPlace => ({
  ...place,
  at: scaled(place.at, factors),
  footDiameter: place.footDiameter * factors[0],
});

function measureFacts(mesh: Mesh): MeshFacts {
  const { min, max } = measureBounds(mesh) as Box;
  return {
    triangles: mesh.triangles.length / 3,
    volume: measureMesh(mesh).volume,
    size: [max[0] - min[0], max[1] - min[1], max[2] - min[2]],
  };
}

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
