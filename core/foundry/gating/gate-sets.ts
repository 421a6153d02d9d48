import { maths } from '../../maths/maths.js';
import type { GatePlace, VentPlace } from '../../part/contract.js';
import { gateFits, gateRoom } from './gate-size.js';
import type { GatingInput, GatingSettings, TreeKind } from './input.js';
import { farthest } from './reach.js';
import { seatOf } from './sprue.js';
import { alone, onEach } from './tree.js';

/** More than this many runners nobody saws off with pleasure. Common practice, no source. */
export const mostGates = 4;

/** Gates to plan with, and the vents that are left then. */
export interface GateSet {
  readonly places: readonly GatePlace[];
  readonly vents: readonly VentPlace[];
  /** mm through the metal to the place farthest from all of them; absent where it was not measured. */
  readonly reach?: number;
  /** On a tree of several kinds, what each of the places feeds. */
  readonly served?: readonly Served[];
}

/** What a gate on a tree of several kinds feeds. */
export interface Served {
  readonly kind: TreeKind;
  /** mm through the metal to its farthest place; absent where it was not measured. */
  readonly reach?: number;
}

interface Site {
  readonly place: GatePlace;
  /** Index among the vents, where it is one of them. */
  readonly vent?: number;
  readonly distances?: Float64Array;
}

/** Places for one gate, best first. */
export const singleSets = (input: GatingInput, settings: GatingSettings): readonly GateSet[] =>
  sitesOf(input, settings)
    .filter((s) => s.vent === undefined && !s.place.further)
    .map((site) => setOf([site], input, settings));

/**
 * For each number of gates asked for, the places from which the farthest metal is nearest: of all places, and of those
 * that hold a runner of `wantedDiameter`. The flat places meant for vents serve as gates too: both are flat and face up.
 */
export const severalSets = (
  input: GatingInput,
  settings: GatingSettings,
  counts: readonly number[],
  wantedDiameter: number,
): readonly GateSet[] => {
  const sites = sitesOf(input, settings).filter((s) => s.distances !== undefined);
  const roomy = sites.filter((s) => gateRoom(s.place).outer >= wantedDiameter);
  return counts.flatMap((count) => {
    const found = [sites, roomy].flatMap((among) => bestOf(among, count, input, settings));
    return found.filter((set, i) => i === 0 || namesOf(set) !== namesOf(found[0] as GateSet));
  });
};

const namesOf = (set: GateSet): string => set.places.map((p) => p.name).join('\n');

const bestOf = (
  sites: readonly Site[],
  count: number,
  input: GatingInput,
  settings: GatingSettings,
): readonly GateSet[] => {
  const sets = choose(sites, count)
    .map((chosen) => setOf(chosen.map(within(chosen, settings.clearance)), input, settings))
    .filter((set) => set.places.every((p) => gateFits(p, settings.leastSprueDiameter)));
  if (sets.length === 0) return [];
  // The part's own order decides between what reaches as far.
  return [sets.reduce((a, b) => ((b.reach as number) < 0.99 * (a.reach as number) ? b : a))];
};

const sitesOf = (input: GatingInput, settings: GatingSettings): readonly Site[] => {
  const distances = (i: number) => {
    const found = input.distances?.[i];
    return found === undefined ? {} : { distances: found };
  };
  const gates = input.gates.map((place, i): Site => ({ place, ...distances(i) }));
  const vents = input.vents.map(
    ({ name, at, footDiameter, ...vent }, i): Site => ({
      place: { name, at, innerDiameter: 0, outerDiameter: footDiameter, ...seatOf(vent) },
      vent: i,
      ...distances(input.gates.length + i),
    }),
  );
  return [...gates, ...vents].filter((s) => gateFits(s.place, settings.leastSprueDiameter));
};

const setOf = (sites: readonly Site[], input: GatingInput, settings: GatingSettings): GateSet => {
  const used = new Set(sites.map((s) => s.vent));
  const fields = sites.map((s) => s.distances).filter((d) => d !== undefined);
  const tree = input.tree ?? alone;
  const vents = input.vents.filter(
    (v, i) => !used.has(i) && (sites.length === 1 || apart(v, sites, settings)),
  );
  return {
    places: sites.flatMap((s) => onEach(s.place, tree)),
    vents: [...vents.flatMap((v) => onEach(v, tree)), ...(input.furtherVents ?? [])],
    ...(fields.length === sites.length ? { reach: farthest(fields) } : {}),
  };
};

/** Whether even the least vent there stands clear of the least gate at each site; if not, the gate lets the air out. */
const apart = ({ at }: VentPlace, sites: readonly Site[], settings: GatingSettings): boolean =>
  sites.every(
    ({ place }) =>
      maths.hypot(at[0] - place.at[0], at[1] - place.at[1]) >=
      settings.clearance + (settings.leastSprueDiameter + settings.ventLeastDiameter) / 2,
  );

/** The site, narrowed so that mould is left between it and the others. */
const within =
  (all: readonly Site[], clearance: number) =>
  (site: Site): Site => {
    const { at, outerDiameter } = site.place;
    const room = all.flatMap(({ place }) => {
      const apart = maths.hypot(at[0] - place.at[0], at[1] - place.at[1]) - clearance;
      return apart < 0 && place === site.place
        ? []
        : [(2 * apart * outerDiameter) / (outerDiameter + place.outerDiameter)];
    });
    return { ...site, place: { ...site.place, outerDiameter: Math.min(outerDiameter, ...room) } };
  };

/** All ways to take `count` of the items, in their order. */
const choose = <T>(items: readonly T[], count: number): readonly (readonly T[])[] =>
  count === 0
    ? [[]]
    : items.flatMap((item, i) => choose(items.slice(i + 1), count - 1).map((rest) => [item, ...rest]));
