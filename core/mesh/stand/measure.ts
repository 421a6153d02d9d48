import { maths } from '../../maths/maths.js';
import { leastUnsupportedSlope } from '../../plate/overhang.js';
import { cross, dot, unit } from '../../shape/vector.js';
import type { Vec2, Vec3 } from '../../solid/types.js';
import { estimateAir } from './air-estimate.js';
import type { StandFacts } from './facts.js';
import { fitRectangle, insideBy, leastRectangle, planHull } from './plan-hull.js';

/** Room on the print bed, mm, and what of its height the gating above the part takes. */
export interface Bed {
  readonly width: number;
  readonly depth: number;
  readonly height: number;
  /** 0 where left out. */
  readonly headroom?: number;
}

/** A part standing with a direction up. mm, mm², mm³. */
export interface StandMeasures {
  readonly height: number;
  /** Of the least rectangle about it in plan, or the one by which it lies on the bed. */
  readonly room: Vec2;
  /** Surface flatter than 45° that faces down and does not rest on the bed, seen from below. */
  readonly support: number;
  /** What rests on the bed within 0.3 mm, seen from below. */
  readonly foot: number;
  /** How far inside its foot's outline the part's middle lies; negative: it falls over. */
  readonly balance: number;
  /** Air that is shut in with the highest place alone open; `estimated` by lumps of the surface. */
  readonly air: { readonly places: number; readonly volume: number; readonly estimated: boolean };
  /** Height of the heavy metal's middle over the bed, to the part's height. */
  readonly feed: number;
  /** Surface in the upper third, flatter than 18° and facing up, that a gate could stand on. */
  readonly gate: number;
  readonly fits: boolean;
}

/** The first layers rest on the bed, mm; half a degree of slack for facets at just the limit: as `measureOverhang` has it. */
const bedBand = 0.05;

/** What stands on the bed may be as uneven as the first layers are high, mm: bases of scans are. */
const footBand = 0.3;
const overhangs = maths.cos(leastUnsupportedSlope - Math.PI / 360);

/** A gate's foot stands on this and flatter: 18°. */
const levelEnough = maths.cos(Math.PI / 10);

/** Share of the height in which a gate is near the top. */
const upper = 1 / 3;

/** Two directions square to one and to each other. */
export function planAxes(up: Vec3): readonly [Vec3, Vec3] {
  const u = unit(cross(Math.abs(up[0]) < 0.7 ? [1, 0, 0] : [0, 1, 0], up));
  return [u, cross(up, u)];
}

const scratch = new WeakMap<StandFacts, Float64Array>();

/** All of it in one pass over the vertices and one over the triangles, the air by an estimate. */
export function measureStand(
  facts: StandFacts,
  up: Vec3,
  { bed, avoid }: { readonly bed?: Bed | undefined; readonly avoid?: Uint8Array | undefined },
): StandMeasures {
  const { mesh, areas, sizes, hull, mass } = facts;
  const { positions: p, triangles: t } = mesh;
  const heights = scratch.get(facts) ?? new Float64Array(p.length / 3);
  scratch.set(facts, heights);
  const [dx, dy, dz] = up;
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let v = 0, i = 0; v < heights.length; v++, i += 3) {
    const h = dx * p[i]! + dy * p[i + 1]! + dz * p[i + 2]!;
    heights[v] = h;
    if (h < low) low = h;
    if (h > high) high = h;
  }
  const [rests, stands, above] = [low + bedBand, low + footBand, high - upper * (high - low)];
  let [support, foot, gate] = [0, 0, 0];
  for (let n = 0, f = 0; n < sizes.length; n++, f += 3) {
    const seen = dx * areas[f]! + dy * areas[f + 1]! + dz * areas[f + 2]!;
    const size = sizes[n]!;
    if (seen > levelEnough * size) {
      if (avoid?.[n] === 1) continue;
      if (heights[t[f]!]! > above && heights[t[f + 1]!]! > above && heights[t[f + 2]!]! > above) gate += seen;
    } else if (-seen > overhangs * size) {
      const highest = Math.max(heights[t[f]!]!, heights[t[f + 1]!]!, heights[t[f + 2]!]!);
      if (highest <= stands) foot -= seen;
      if (highest > rests) support -= seen;
    }
  }
  const [u, v] = planAxes(up);
  const inPlan = (point: Vec3): Vec2 => [dot(u, point), dot(v, point)];
  const plan = planHull(hull.corners.map(inPlan));
  const standing = planHull(hull.corners.filter((c) => dot(up, c) <= stands).map(inPlan));
  const height = high - low;
  const placed = bed ? fitRectangle(plan, bed.width, bed.depth) : leastRectangle(plan);
  const about = placed ?? leastRectangle(plan);
  return {
    height,
    room: [about.along, about.across],
    support,
    foot,
    balance: insideBy(standing, inPlan(mass.centroid)),
    air: { ...estimateAir(facts.lumps, up), estimated: true },
    feed: height > 0 ? Math.min(1, Math.max(0, (dot(up, facts.heavy) - low) / height)) : 0.5,
    gate,
    fits: placed !== null && (bed === undefined || height + (bed.headroom ?? 0) <= bed.height),
  };
}
