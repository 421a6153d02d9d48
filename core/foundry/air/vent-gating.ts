import type { VentPlace } from '../../part/contract.js';
import type { Finding } from '../../part/finding.js';
import type { Kernel, Mesh, Solid } from '../../solid/types.js';
import { columnPressure } from '../gating/choke.js';
import { defaultGatingSettings, type GatingInput } from '../gating/input.js';
import { isBuildable, planGating } from '../gating/plan.js';
import { buildGating } from '../gating/solid.js';
import { ventBackPressure } from '../gating/vents.js';
import type { GatingPlan } from '../plans.js';
import { type Cavity, readCavity } from './cavity.js';
import { airFindings } from './findings.js';
import {
  type Leaning,
  leastVented,
  offLevelAngle,
  searchLeanings,
  ventedVolume,
  worstLeaning,
} from './leaning.js';
import { airBases, offLevelAir } from './off-level.js';
import { placeOffLevelVents } from './off-level-vents.js';
import { pierceAtFeet } from './pierce.js';
import { placeVent } from './place-vent.js';
import type { AirPlan } from './plan.js';
import { leastPocket, plainPocket, searchPockets, totalVolume } from './pockets.js';
import { findTilt } from './tilt.js';

/** A gated pattern with its vents. */
export interface VentedGating {
  readonly gating: GatingPlan;
  readonly gatingSolid: Solid;
  readonly gated: Solid;
  readonly air: AirPlan;
  /** What the air does; the plan's own findings are in the plan. */
  readonly findings: readonly Finding[];
}

const mostRounds = 5;
const mostOffLevelRounds = 2;

/**
 * Gates the pattern by the plan, finds the air it traps, poured level and a little off, and adds vents until none is
 * left or none can be put.
 */
export function ventGating(
  first: GatingPlan,
  input: GatingInput,
  pattern: Mesh,
  kernel: Kernel,
  tolerance: number,
): VentedGating {
  const body = kernel.fromMesh(pattern);
  const build = (gating: GatingPlan) => {
    const gatingSolid = buildGating(gating, kernel, tolerance);
    const gated = body.add(gatingSolid);
    const cavity = readCavity(gated.mesh());
    return {
      gating,
      gatingSolid,
      gated,
      cavity,
      ...searchPockets(cavity, { isOpen: openFrom(cavity, gating) }),
    };
  };
  const settings = { ...defaultGatingSettings, ...input.settings };
  const range = { least: settings.ventLeastDiameter, largest: settings.ventLargestDiameter };
  const offered = foreseeVents(first, input, pattern, range);
  const begun = offered && build(offered.plan.gating);
  // What was foreseen holds, or the plan is gone through step by step.
  const holds = begun && begun.pockets.length === 0;
  const before = holds ? begun : build(first);
  let now = before;
  let added: readonly VentPlace[] = [];
  for (let round = 0; round < mostRounds && now.pockets.length > 0; round++) {
    const places = now.pockets.flatMap((p, i) => {
      const place = placeVent(`air vent ${nextNumber(added) + i}`, p, now.cavity, pattern, range);
      return place ? [place] : [];
    });
    const next = planWith(input, [...added, ...places]);
    if (next.places.length <= added.length || !isBuildable(next.gating)) break;
    const built = build(next.gating);
    if (totalVolume(built.pockets) >= totalVolume(now.pockets)) break;
    now = built;
    added = next.places;
  }
  const forLevel = added.length;
  if (holds) added = offered.plan.places;
  const leaningsOf = ({ cavity, gating }: typeof now) => searchLeanings(cavity, openFrom(cavity, gating));
  let leanings = leaningsOf(now);
  const leaningsBefore = holds ? offered.leanings : leanings;
  for (let round = 0; round < mostOffLevelRounds && ventedVolume(leanings) > 0; round++) {
    const places = placeOffLevelVents(leanings, now.cavity, pattern, range, nextNumber(added));
    const next = planWith(input, [...added, ...places]);
    if (next.places.length <= added.length || !isBuildable(next.gating)) break;
    const built = build(next.gating);
    const leaningsNext = leaningsOf(built);
    if (totalVolume(built.pockets) > totalVolume(now.pockets)) break;
    if (ventedVolume(leaningsNext) >= ventedVolume(leanings)) break;
    now = built;
    added = next.places;
    leanings = leaningsNext;
  }
  const { gating, cavity } = now;
  const kept = totalVolume(now.pockets);
  const tilt = kept > 0 ? findTilt(cavity, pattern, gating.topHeight - 1e-3, kept) : undefined;
  const { flow, ventArea } = gating.fill;
  const metalPressurePa = 1e6 * columnPressure(gating.sprue.head, input.metal.liquidDensity);
  const air: AirPlan = {
    threshold: leastPocket,
    pockets: before.pockets.map(plainPocket),
    ventsAdded: added.map(({ name, at }) => ({
      name,
      at,
      diameter: gating.vents.find((v) => v.name === name)?.diameter ?? 0,
    })),
    left: now.pockets.map(plainPocket),
    ignored: now.ignored,
    ...(tilt ? { tilt } : {}),
    offLevel: {
      angle: offLevelAngle,
      directions: leanings.length,
      before: offLevelAir(leaningsBefore, leastVented),
      ventsAdded: added.length - forLevel,
      left: offLevelAir(leanings, leastPocket),
      ...levelWithin(leanings, (angle) => searchLeanings(cavity, openFrom(cavity, gating), angle)),
    },
    ...(ventArea > 0
      ? {
          outflow: {
            velocityMmPerSecond: flow / ventArea,
            pressurePa: ventBackPressure(gating.vents, flow),
            metalPressurePa,
          },
        }
      : {}),
    bases: airBases,
  };
  return { gating, gatingSolid: now.gatingSolid, gated: now.gated, air, findings: airFindings(air) };
}

/** Numbers go on from the last: some before it may have got no vent, and vents are told apart by name. */
const nextNumber = (added: readonly VentPlace[]): number =>
  1 + Math.max(0, ...added.map(({ name }) => Number(name.split(' ').at(-1))));

/** The plan with the places that got a vent; those that did not are asked for no longer. */
function planWith(input: GatingInput, places: readonly VentPlace[]) {
  let kept = places;
  for (;;) {
    const gating = planGating({ ...input, furtherVents: kept });
    const got = kept.filter((p) => gating.vents.some((v) => v.name === p.name));
    if (got.length === kept.length || !isBuildable(gating)) return { gating, places: kept };
    kept = got;
  }
}

/** Cup and vents end at one level. */
const openFrom =
  ({ mesh }: Cavity, gating: GatingPlan) =>
  (v: number): boolean =>
    mesh.positions[3 * v + 2]! >= gating.topHeight - 1e-3;

/**
 * Vents for a pour off level, had from the pattern before it is gated: one build less where, as mostly, a level pour
 * needs none. Null where it does, or none can be put.
 */
function foreseeVents(
  first: GatingPlan,
  input: GatingInput,
  pattern: Mesh,
  range: { readonly least: number; readonly largest: number },
) {
  const pierced = pierceAtFeet(pattern, first);
  const cavity = readCavity(pierced.mesh);
  const isOpen = (v: number): boolean => v >= pierced.openFrom;
  const leanings = searchLeanings(cavity, isOpen);
  if (ventedVolume(leanings) === 0 || searchPockets(cavity, { isOpen }).pockets.length > 0) return null;
  const plan = planWith(input, placeOffLevelVents(leanings, cavity, pattern, range, 1));
  return plan.places.length > 0 && isBuildable(plan.gating) ? { plan, leanings } : null;
}

/** The largest of the leans tried within which no pocket reaches the threshold. */
function levelWithin(
  leanings: readonly Leaning[],
  search: (angle: number) => readonly Leaning[],
): { readonly levelWithin?: number } {
  if (worstLeaning(leanings).volume === 0) return {};
  const angle = [offLevelAngle / 2, offLevelAngle / 4].find((a) => worstLeaning(search(a)).volume === 0);
  return angle === undefined ? {} : { levelWithin: angle };
}
