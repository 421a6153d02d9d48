/** From parameters to the pattern: the states that a part has before it is gated. */
import { type Alloy, findAlloy } from '../foundry/alloys/index.js';
import { type GrowthSettings, planGrowth } from '../foundry/growth.js';
import { findInvestment, type Investment } from '../foundry/investment.js';
import { findPlastic, type Plastic } from '../foundry/material.js';
import type { GrowthPlan, StockPlan } from '../foundry/plans.js';
import { planPour } from '../foundry/pour.js';
import { planStock } from '../foundry/stock.js';
import { type BuiltPart, type PartDefinition, usualTolerance } from '../part/contract.js';
import { type Finding, stop } from '../part/finding.js';
import { noStock, type Stock } from '../part/stock.js';
import { measureMesh } from '../solid/mass-properties.js';
import { measureBounds } from '../solid/mesh-bounds.js';
import { scaleMesh } from '../solid/scale-mesh.js';
import type { Box, Kernel, Mesh, Vec3 } from '../solid/types.js';
import type { Job, JobPart } from './job.js';
import { type LearntGrowth, noLoggedGrowth } from './logged-growth.js';
import { present } from './present.js';
import type { MeshFacts } from './summary.js';

/** A part as finished, as cast and as printed. Its solids live in the kernel's scope it was made in. */
export interface PartStates {
  readonly alloy: Alloy;
  /** Greatest chord deviation, mm. */
  readonly tolerance: number;
  readonly part: BuiltPart;
  readonly partMesh: Mesh;
  readonly partFacts: MeshFacts;
  readonly stock: StockPlan;
  readonly casting: BuiltPart;
  readonly castingMesh: Mesh;
  readonly castingFacts: MeshFacts;
  readonly growth: GrowthPlan;
  /** Pattern over casting along x, y, z. */
  readonly factors: Vec3;
  readonly patternMesh: Mesh;
}

/** The states, or why there are none. */
export type StatesOutcome =
  | { readonly ok: true; readonly states: PartStates }
  | { readonly ok: false; readonly findings: readonly Finding[] };

/** Builds a part twice, without stock and with it, and grows the casting. Call it inside a kernel scope. */
export function buildStates(
  request: JobPart,
  definition: PartDefinition,
  job: Job,
  kernel: Kernel,
  learntGrowth?: LearntGrowth,
): StatesOutcome {
  const alloy = findAlloy(request.alloy, job.shop.alloys);
  const refused = (findings: readonly Finding[]): StatesOutcome => ({ ok: false, findings });
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

  const tolerance = toleranceOf(definition, job);
  const build = (stock: Stock) => buildState(request, definition, stock, kernel, job, tolerance);
  const part = build(noStock);
  if (part.solid === null) return refused(part.findings);
  const partMesh = part.solid.mesh();
  const partFacts = measureFacts(partMesh);
  const stock = planStock({
    largestDimension: Math.max(...partFacts.size),
    layerHeight: job.layerHeight,
    overrides: request.stock,
  });
  const casting = build(stock.stock);
  if (casting.solid === null) return refused([...part.findings, ...casting.findings]);
  const castingMesh = casting.solid.mesh();
  const castingFacts = measureFacts(castingMesh);
  const castingModulus = thinnestModulusOf(casting, castingFacts.volume, measureMesh(castingMesh).area, 1);
  const settings = growthSettings(job, alloy, castingModulus);
  const growth = planGrowth(alloy, logged ? { ...settings, logged } : settings, request.growth);
  const factors = patternFactors(growth.value, job);
  const patternMesh = scaleMesh(castingMesh, factors);
  return {
    ok: true,
    states: {
      alloy,
      tolerance,
      part,
      partMesh,
      partFacts,
      stock,
      casting,
      castingMesh,
      castingFacts,
      growth,
      factors,
      patternMesh,
    },
  };
}

export const toleranceOf = (definition: PartDefinition, job: Job): number =>
  job.tolerance ?? definition.tolerance ?? usualTolerance;

/** One state of a requested part. */
export const buildState = (
  { parameters, piece }: JobPart,
  definition: PartDefinition,
  stock: Stock,
  kernel: Kernel,
  { meshFiles, bed, textUnit }: Pick<Job, 'meshFiles' | 'bed' | 'textUnit'>,
  tolerance: number,
) =>
  definition.build(parameters, stock, {
    kernel,
    tolerance,
    bed: roomOn(bed),
    ...present({ piece, meshFiles, lengthUnit: textUnit }),
  });

const roomOn = ({ width, depth, height, margin }: Job['bed']) => ({
  width: width - 2 * margin,
  depth: depth - 2 * margin,
  height,
});

/** V/A of a casting drawn larger by a factor, mm: of the whole, or of its thinnest wall. */
export const thinnestModulusOf = (
  { thinnestWall = Number.POSITIVE_INFINITY }: Pick<BuiltPart, 'thinnestWall'>,
  volume: number,
  area: number,
  factor: number,
): number => Math.min(volume / area, (thinnestWall / 2) * factor);

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

/** Growth, then the printer's own correction, along x, y and z. */
const patternFactors = (growth: number, job: Job): Vec3 => {
  const xy = growth * job.printerCorrection.xy;
  return [xy, xy, growth * job.printerCorrection.z];
};

export function measureFacts(mesh: Mesh): MeshFacts {
  const { min, max } = measureBounds(mesh) as Box;
  return {
    triangles: mesh.triangles.length / 3,
    volume: measureMesh(mesh).volume,
    size: [max[0] - min[0], max[1] - min[1], max[2] - min[2]],
  };
}
