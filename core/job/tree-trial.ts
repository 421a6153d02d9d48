/** Whether patterns hang on one tree: placed, gated and put in a flask by numbers alone, without making a mesh of it. */
import { type Alloy, findAlloy } from '../foundry/alloys/index.js';
import { checkInKiln } from '../foundry/burnout.js';
import { workingCapacity } from '../foundry/charge/crucibles.js';
import { planFlask } from '../foundry/flask.js';
import {
  allKinds,
  defaultGatingSettings,
  gatingMass,
  gatingMetal,
  gatingVolume,
  isBuildable,
  mostOnTree,
  planGating,
  type TreeKind,
} from '../foundry/gating/index.js';
import { type BlockInvestment, findInvestment } from '../foundry/investment.js';
import { findPlastic, type Plastic } from '../foundry/material.js';
import { placeOutline } from '../foundry/pack/outline.js';
import { placeKinds } from '../foundry/pack/place-kinds.js';
import type { FlaskPlan } from '../foundry/plans.js';
import { maths } from '../maths/maths.js';
import { hasStop } from '../part/finding.js';
import type { Vec2 } from '../solid/types.js';
import { flasksOf } from './flasks-of.js';
import type { Job, JobPart } from './job.js';
import { breaksMore } from './kept-rules.js';
import type { Trial } from './load-trees.js';
import { gatingOf } from './make-part.js';
import { mixOf } from './part-mould.js';
import type { GatedKind } from './pattern.js';
import { mouldHeightLimit } from './plan-gates.js';

/** A part that may go on a tree, as it is by itself. */
export interface PackedKind extends GatedKind {
  readonly request: JobPart;
  /** Corners of its hull in plan, and what they enclose, mm². */
  readonly outline: readonly Vec2[];
  readonly area: number;
  /** mm³ of slurry and g of metal in a flask of its own. */
  readonly slurry: number;
  readonly charge: number;
  /** Codes of what its gating falls short in by itself. */
  readonly broken: Pick<ReadonlySet<string>, 'has'>;
}

/** Air vents are added when a tree is made: room kept for what they change. */
const sparedHeight = 3;
const sparedVolume = 1.03;

/** Of what the largest crucible holds, the rest is melting loss and reserve. Common practice, no source. */
const shareOfCrucible = 0.9;

/** With the flask that it is put in. */
export type FlaskTrial = (
  counts: readonly number[],
) => (NonNullable<ReturnType<Trial>> & { readonly flask: FlaskPlan }) | undefined;

/** Of one group: one alloy, one set of gating. */
export function treeTrial(kinds: readonly PackedKind[], job: Job): FlaskTrial {
  const [{ request }] = kinds as readonly [PackedKind, ...PackedKind[]];
  const alloy = findAlloy(request.alloy, job.shop.alloys) as Alloy;
  const investment = findInvestment(job.investment) as BlockInvestment;
  const plastic = findPlastic(job.shop.plastic) as Plastic;
  const settings = { ...defaultGatingSettings, ...gatingOf(request, job) };
  const flasks = flasksOf(job.flasks);
  const metal = gatingMetal(alloy, investment);
  const widest = Math.max(...flasks.map((f) => f.insideDiameter)) / 2;
  const { bed } = job;
  const onBed = Math.min(bed.width, bed.depth) / 2 - bed.margin - bed.brim;
  const room = Math.PI * (Math.min(widest, onBed) + settings.patternGap / 2) ** 2;
  const most = Math.max(
    ...(job.shop.crucibles?.map((c) => workingCapacity(c, alloy)) ?? [Number.POSITIVE_INFINITY]),
  );
  const swept = kinds.map(({ area, outline }) => sweptArea(area, outline, settings.patternGap));
  const sum = (counts: readonly number[], of: (k: PackedKind, i: number) => number): number =>
    kinds.reduce((total, k, i) => total + (counts[i] ?? 0) * of(k, i), 0);
  return (counts) => {
    const number = counts.reduce((a, b) => a + b, 0);
    if (number > mostOnTree || sum(counts, (_, i) => swept[i] as number) > room) return undefined;
    const on = kinds.flatMap((kind, i) =>
      (counts[i] ?? 0) > 0 ? [{ kind, count: counts[i] as number }] : [],
    );
    const places = placeKinds(
      on.map(({ kind, count }) => {
        const [x, y] = kind.gates[0]?.at ?? [0, 0];
        return { outline: kind.outline, gate: [x, y], count };
      }),
      settings.patternGap,
    );
    const corners = on.flatMap(({ kind }, k) =>
      (places[k] ?? []).flatMap((at) => placeOutline(kind.outline, at)),
    );
    const treeKinds = on.map(
      ({ kind: { request: r, gates, vents, casting } }, k): TreeKind => ({
        name: r.name,
        gates,
        vents,
        casting,
        places: places[k] ?? [],
      }),
    );
    const casting = allKinds(treeKinds, planRadius(corners));
    const plan = planGating({
      gates: [],
      vents: [],
      kinds: treeKinds,
      casting,
      metal,
      heightLimit: mouldHeightLimit(job),
      settings,
    });
    if (!isBuildable(plan)) return undefined;
    const alone = on.map(({ kind: { request: r, broken } }) => ({ name: r.name, broken }));
    if (breaksMore(plan.findings, alone)) return undefined;
    const height = plan.topHeight - casting.bottom + sparedHeight;
    const [sx, sy] = plan.sprue.at;
    const cup = plan.cup.topDiameter / 2;
    const ends = plan.vents.map((v): Vec2 => [v.path.at(-1)![0], v.path.at(-1)![1]]);
    const all = [
      ...corners,
      ...ends,
      ...[-cup, cup].flatMap((r): readonly Vec2[] => [
        [sx + r, sy],
        [sx, sy + r],
      ]),
    ];
    const radius = Math.min(planRadius(all), reachFrom(all, [sx, sy]));
    if (radius > onBed || height > bed.height) return undefined;
    const gating = gatingVolume(plan);
    const charge =
      casting.mass +
      gatingMass(
        gating,
        on.map(({ kind }) => kind.casting),
      );
    if (charge > shareOfCrucible * most) return undefined;
    const flask = planFlask({
      gatedSize: [2 * radius, 2 * radius, height],
      gatedVolume: sparedVolume * (casting.volume + gating),
      patterns: number,
      patternHeight: casting.top - casting.bottom,
      gatedRadius: radius,
      alloy,
      investment,
      plasticDensity: plastic.density,
      flasks,
      ...mixOf(job),
    });
    const { insideDiameter: diameter, insideHeight: high } = flask;
    const inKiln = checkInKiln(job.shop.kiln, { name: flask.name, diameter, height: high }, 'flask');
    if (hasStop([...flask.findings, ...inKiln])) return undefined;
    return { flask, slurry: flask.slurryVolume, spares: sum(counts, (k) => k.slurry) - flask.slurryVolume };
  };
}

/** Radius about the middle of the points' box. */
function planRadius(points: readonly Vec2[]): number {
  let [x0, x1, y0, y1] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const [x, y] of points) {
    [x0, x1] = [Math.min(x0, x), Math.max(x1, x)];
    [y0, y1] = [Math.min(y0, y), Math.max(y1, y)];
  }
  return reachFrom(points, [(x0 + x1) / 2, (y0 + y1) / 2]);
}

const reachFrom = (points: readonly Vec2[], [cx, cy]: Vec2): number =>
  points.reduce((most, [x, y]) => Math.max(most, maths.hypot(x - cx, y - cy)), 0);

/** An outline with half of the gap round it: what it takes of the plan at least (Steiner's formula). */
const sweptArea = (area: number, outline: readonly Vec2[], gap: number): number => {
  const round = outline.reduce((sum, [x, y], i) => {
    const [u, v] = outline[(i + 1) % outline.length]!;
    return sum + maths.hypot(u - x, v - y);
  }, 0);
  return area + (round * gap) / 2 + (Math.PI * gap * gap) / 4;
};
