/** A part as a pattern: its states, and what gating and trees need to know of it. */
import { type GatingCasting, gatingMetal } from '../foundry/gating/index.js';
import { findInvestment, type Investment } from '../foundry/investment.js';
import { massOf } from '../foundry/material.js';
import { checkStock } from '../foundry/stock.js';
import type { GatePlace, PartDefinition, VentPlace } from '../part/contract.js';
import type { Finding } from '../part/finding.js';
import { measureMesh } from '../solid/mass-properties.js';
import { measureBounds, measurePlanRadius } from '../solid/mesh-bounds.js';
import { planeHull } from '../solid/plane-hull.js';
import type { Box, Kernel, Mesh, Vec2, Vec3 } from '../solid/types.js';
import type { Job, JobPart } from './job.js';
import type { LearntGrowth } from './logged-growth.js';
import { buildStates, measureFacts, type PartStates, thinnestModulusOf } from './part-states.js';
import type { MeshFacts } from './summary.js';
import { supportFindings } from './support.js';

/** What of one pattern is gated, at pattern size. Plain data. */
export interface GatedKind {
  readonly gates: readonly GatePlace[];
  readonly vents: readonly VentPlace[];
  readonly casting: GatingCasting;
}

export interface Pattern {
  readonly states: PartStates;
  readonly facts: MeshFacts;
  readonly kind: GatedKind;
  /** Of the part itself, before it is gated. */
  readonly findings: readonly Finding[];
}

export type PatternOutcome =
  | { readonly ok: true; readonly pattern: Pattern }
  | { readonly ok: false; readonly findings: readonly Finding[] };

/** Takes a part to its pattern. Call it inside a kernel scope. */
export function makePattern(
  request: JobPart,
  definition: PartDefinition,
  job: Job,
  kernel: Kernel,
  learntGrowth?: LearntGrowth,
): PatternOutcome {
  const built = buildStates(request, definition, job, kernel, learntGrowth);
  if (!built.ok) return built;
  const { alloy, part, stock, casting, castingFacts, growth, factors, patternMesh } = built.states;
  const facts = measureFacts(patternMesh);
  const area = measureMesh(patternMesh).area;
  return {
    ok: true,
    pattern: {
      states: built.states,
      facts,
      kind: {
        gates: casting.gates.map((place) => scaleGate(place, factors)),
        vents: casting.vents.map((place) => scaleVent(place, factors)),
        casting: {
          ...patternBounds(patternMesh),
          volume: facts.volume,
          area,
          mass: massOf(castingFacts.volume, alloy),
          thinnestModulus: thinnestModulusOf(casting, facts.volume, area, growth.value),
        },
      },
      findings: [
        ...part.findings,
        ...casting.findings,
        ...checkStock(stock.stock, job.layerHeight),
        ...supportFindings(patternMesh),
      ],
    },
  };
}

/** What the papers call a part, or one of its pieces. */
export const titleOf = ({ pieces, summary }: PartDefinition, piece: string | undefined): string =>
  pieces?.find((p) => p.name === piece)?.title ?? summary;

/** The job's metal in its mould, as gating takes it. */
export const metalFor = ({ alloy }: PartStates, job: Job) =>
  gatingMetal(alloy, findInvestment(job.investment) as Investment);

/** Corners of the hull in plan, mm. */
export function planHull({ positions }: Mesh): readonly Vec2[] {
  const points: Vec2[] = [];
  for (let i = 0; i < positions.length; i += 3)
    points.push([positions[i] as number, positions[i + 1] as number]);
  return planeHull(points);
}

/** Top, bottom and the radius in plan about the middle of its box, mm. */
export function patternBounds(mesh: Mesh): Pick<GatingCasting, 'top' | 'bottom' | 'radius'> {
  const { min, max } = measureBounds(mesh) as Box;
  return { top: max[2], bottom: min[2], radius: measurePlanRadius(mesh) };
}

/** The same finding from several states or patterns is told once. */
export function distinct(findings: readonly Finding[]): readonly Finding[] {
  const seen = new Set<string>();
  return findings.filter((f) => {
    const key = `${f.severity} ${f.code} ${f.message}`;
    return !seen.has(key) && seen.add(key);
  });
}

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
