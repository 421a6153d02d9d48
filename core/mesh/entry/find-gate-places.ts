import { modulusDiameterOf } from '../../foundry/gating/gate-size.js';
import { defaultGatingSettings } from '../../foundry/gating/input.js';
import { edgeMargin } from '../../foundry/gating/sprue.js';
import { maths } from '../../maths/maths.js';
import type { GatePlace } from '../../part/contract.js';
import { measureMesh } from '../../solid/mass-properties.js';
import type { Mesh, Vec2 } from '../../solid/types.js';
import { diametersOf, type Foot, type FootFault, footAt } from './feet.js';
import type { GatePlaces, GateSearch } from './gate-search.js';
import { noneAtAll, refusedAt, say, sayFault } from './refusals.js';
import { deepest, measureSections, type SectionField } from './section-field.js';
import { rankSites, type Site } from './sites.js';
import { mapTops, type TopMap } from './top-map.js';

/** Sites that are measured on the mesh before it is said that there is none. */
const mostMeasured = 120;

/** A section of this share of the heaviest may be fed alone from its place. */
const asHeavy = 0.85;

/** The least foot that the gating allows, mm. */
const leastFoot = defaultGatingSettings.leastSprueDiameter + 2 * edgeMargin + 0.01;

/** What of a standing mesh is the same wherever a gate is wanted: to be read once where it is searched several times. */
export interface GateGround {
  readonly map: TopMap;
  readonly field: SectionField;
  readonly heaviest: ReturnType<typeof deepest>;
  /** Of the bar that feeds it by the modulus rule, mm. */
  readonly modulusDiameter: number;
}

export function readGateGround(mesh: Mesh): GateGround {
  const field = measureSections(mesh);
  return {
    map: mapTops(mesh),
    field,
    heaviest: deepest(field),
    modulusDiameter: modulusDiameterOf({ casting: measureMesh(mesh) }, defaultGatingSettings),
  };
}

/**
 * Where metal may enter a part as it stands, +z up: over its heaviest section, on surface that is open upward and flat
 * enough for a foot, off the marked faces. Then places spread over the part, for several gates. A closed sound mesh, mm.
 */
export function findGatePlaces(
  mesh: Mesh,
  search: GateSearch = {},
  { map, field, heaviest, modulusDiameter }: GateGround = readGateGround(mesh),
): GatePlaces {
  const face = search.wanted && 'face' in search.wanted ? search.wanted.face : undefined;
  const least = Math.max(search.least ?? 0, leastFoot);
  const wanted = Math.max(least, search.diameter ?? 2 * edgeMargin + 1.1 * modulusDiameter);
  const sites = rankSites(map, field, markedOn(map, search.avoid), { least, wanted });
  const serving = sites.filter((s) => s.diameter > 0);
  const measured = (site: Pick<Site, 'x' | 'y' | 'diameter'>): Foot | FootFault => {
    let last: Foot | FootFault = { why: 'edge' };
    for (const { diameter, most } of diametersOf(least, wanted)) {
      if (diameter > site.diameter + 1e-9) continue;
      last = footAt(mesh, search.avoid, [site.x, site.y], diameter, most);
      if ('diameter' in last) return last;
    }
    return last;
  };
  const found = { heaviest: { diameter: 2 * heaviest.depth, at: heaviest.at } };
  /** Moved to where a round top is highest, finer than the map: no farther than an upright off. */
  const settled = (site: Site & { readonly foot: Foot }): Site & { readonly foot: Foot } => {
    let now = site;
    for (let step = map.step / 2; step > map.step / 20; step /= 2)
      for (const [dx, dy] of [
        [step, 0],
        [-step, 0],
        [0, step],
        [0, -step],
      ] as const) {
        const { diameter, seat } = now.foot;
        if (seat.fall < 1e-3) return now;
        const [x, y] = [now.x + dx, now.y + dy];
        const foot = footAt(mesh, search.avoid, [x, y], diameter, seat.fall - 1e-3);
        if ('diameter' in foot && (face === undefined || face[triangleAt(map, { x, y })] === 1))
          now = { ...now, x, y, foot };
      }
    return now;
  };
  const first = (among: readonly Site[]): (Site & { readonly foot: Foot }) | undefined => {
    for (const site of spreadOut(among, map.step)) {
      const foot = measured(site);
      if ('diameter' in foot) return settled({ ...site, foot });
    }
    return undefined;
  };
  const name = (depth: number): string =>
    depth >= 0.95 * heaviest.depth ? 'the heaviest section' : `a section of ${(2 * depth).toFixed(1)} mm`;

  if (search.wanted && 'at' in search.wanted) {
    const [x, y, z] = search.wanted.at;
    const fault = faultAt(mesh, map, search, [x, y], z, least);
    const foot = measured({ x, y, diameter: Number.POSITIVE_INFINITY });
    if (fault === null && 'diameter' in foot)
      return { ok: true, places: [placeOf('the point asked for', [x, y], foot)], ...found };
    const nearest = first(
      [...serving].sort((a, b) => maths.hypot(a.x - x, a.y - y) - maths.hypot(b.x - x, b.y - y)),
    );
    const why = fault ?? ('diameter' in foot ? '' : sayFault(foot, least));
    return refusedAt(
      `No gate stands at (${say(x)}, ${say(y)}): ${why}`,
      nearest && placeOf(name(nearest.depth), [nearest.x, nearest.y], nearest.foot),
    );
  }

  const onFace = (s: Site): boolean => face === undefined || face[triangleAt(map, s)] === 1;
  const best = first(serving.filter(onFace));
  if (!best) {
    if (face !== undefined) {
      const other = first(serving);
      const why = sites.some(onFace)
        ? `it holds no foot of ${least.toFixed(1)} mm: too narrow, too steep, too thin or marked.`
        : 'nothing of it looks up with nothing of the part over it.';
      return refusedAt(
        `No gate stands on the face asked for: ${why}`,
        other && placeOf(name(other.depth), [other.x, other.y], other.foot),
      );
    }
    return noneAtAll(sites, measured, least, heaviest);
  }
  const chosen = [best];
  const count = search.count ?? 5;
  let left = serving.filter(onFace);
  while (chosen.length < count) {
    left = left.filter((s) => chosen.every((c) => apart(s, c) >= 1.5 * Math.max(least, c.foot.diameter)));
    const next = farthestOf(left, chosen);
    if (!next) break;
    const foot = measured(next);
    if ('diameter' in foot) chosen.push(settled({ ...next, foot }));
    else left = left.filter((s) => apart(s, next) > 2 * map.step);
  }
  const numbered = (text: string, i: number): string => (i === 0 ? text : `${text}, place ${i + 1}`);
  return {
    ok: true,
    places: chosen.map((c, i) => ({
      ...placeOf(numbered(name(c.depth), i), [c.x, c.y], c.foot),
      ...(i === 0 || c.depth >= asHeavy * heaviest.depth ? {} : { further: true as const }),
    })),
    ...found,
  };
}

const placeOf = (name: string, [x, y]: Vec2, { diameter, seat }: Foot): GatePlace => ({
  name,
  // As a mesh has it, so that a flat's height is just that.
  at: [x, y, Math.fround(seat.top)],
  innerDiameter: 0,
  outerDiameter: diameter,
  // Less is noise of a flat in single precision.
  ...(seat.fall > 1e-3 ? { seat: seat.fall } : {}),
});

const apart = (a: { x: number; y: number }, b: { x: number; y: number }): number =>
  maths.hypot(a.x - b.x, a.y - b.y);

/** The best, then others that are not its neighbours, so that few measurements see much of the part. */
function* spreadOut(sites: readonly Site[], step: number): Generator<Site> {
  const seen: Site[] = [];
  for (const site of sites) {
    if (seen.length >= mostMeasured) return;
    if (seen.some((s) => apart(s, site) < 1.5 * step)) continue;
    seen.push(site);
    yield site;
  }
}

/** The site that is worth most by its distance from those chosen. */
function farthestOf(sites: readonly Site[], chosen: readonly Site[]): Site | undefined {
  let best: Site | undefined;
  let most = 0;
  for (const site of sites) {
    const away = Math.min(...chosen.map((c) => apart(site, c)));
    const worth = away * Math.max(0.05, site.score);
    if (worth > most) [best, most] = [site, worth];
  }
  return best;
}

const triangleAt = (map: TopMap, { x, y }: { readonly x: number; readonly y: number }): number => {
  const index = (ruler: Float64Array, value: number): number =>
    Math.max(0, Math.min(ruler.length - 1, Math.round((value - ruler[0]!) / map.step)));
  return map.triangle[index(map.xs, x) + map.xs.length * index(map.ys, y)]!;
};

/** Uprights whose uppermost triangle is marked. */
function markedOn(map: TopMap, avoid: Uint8Array | undefined): Uint8Array {
  const marked = new Uint8Array(map.top.length);
  if (avoid) for (let c = 0; c < marked.length; c++) marked[c] = avoid[map.triangle[c]!] === 1 ? 1 : 0;
  return marked;
}

/** What is wrong with a point before a foot is tried; null for nothing. */
function faultAt(
  mesh: Mesh,
  map: TopMap,
  { avoid }: GateSearch,
  at: Vec2,
  z: number | undefined,
  least: number,
): string | null {
  const foot = footAt(mesh, undefined, at, least, Number.POSITIVE_INFINITY);
  const [x0, x1] = [map.xs[0]! - map.step, map.xs.at(-1)! + map.step];
  const [y0, y1] = [map.ys[0]! - map.step, map.ys.at(-1)! + map.step];
  if (at[0] < x0 || at[0] > x1 || at[1] < y0 || at[1] > y1) return 'nothing of the part lies there.';
  if (avoid && avoid[triangleAt(map, { x: at[0], y: at[1] })] === 1) return 'a marked face lies there.';
  if (z === undefined || !('diameter' in foot)) return null;
  const { top, fall } = foot.seat;
  if (z < top - fall - 1)
    return `the part reaches up to z = ${top.toFixed(1)} mm over it, and a sprue comes straight from above.`;
  return z > top + 1 ? `the part ends at z = ${top.toFixed(1)} mm there.` : null;
}
