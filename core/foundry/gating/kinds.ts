/** A tree of several kinds of pattern: what of each goes into one plan. */
import { type GateSet, type Served, singleSets } from './gate-sets.js';
import type { GatingCasting, GatingInput, GatingSettings, TreeKind } from './input.js';

/** One kind with its metal entering each of its patterns at one place. */
export interface KindSite extends GateSet, Served {}

/** The kind with its places called after it. */
export const named = (kind: TreeKind): TreeKind => {
  const called = <P extends { readonly name: string }>(place: P): P => ({
    ...place,
    name: `${kind.name}: ${place.name}`,
  });
  return { ...kind, gates: kind.gates.map(called), vents: kind.vents.map(called) };
};

/** For each kind its places for one gate, best first. */
export const kindSites = (
  input: GatingInput,
  settings: GatingSettings,
): readonly { readonly kind: TreeKind; readonly sites: readonly KindSite[] }[] =>
  (input.kinds ?? []).map((kind) => {
    const { places: tree, ...rest } = named(kind);
    const own: GatingInput = { ...rest, tree, metal: input.metal };
    return { kind, sites: singleSets(own, settings).map((set) => ({ ...set, kind })) };
  });

/** The sites of all kinds together, with the vents where the whole needs them. */
export const kindSet = (sites: readonly KindSite[], input: GatingInput): GateSet => ({
  places: sites.flatMap((s) => s.places),
  vents: [...sites.flatMap((s) => s.vents), ...(input.furtherVents ?? [])],
  served: sites.flatMap(({ kind, reach, places }) =>
    places.map(() => ({ kind, ...(reach === undefined ? {} : { reach }) })),
  ),
});

/** All patterns of the kinds as one casting. @param radius of the circle round all of them in plan, mm */
export const allKinds = (kinds: readonly TreeKind[], radius: number): GatingCasting => {
  const sum = (of: (casting: GatingCasting) => number): number =>
    kinds.reduce((total, { casting, places }) => total + places.length * of(casting), 0);
  return {
    volume: sum((c) => c.volume),
    area: sum((c) => c.area),
    mass: sum((c) => c.mass),
    top: Math.max(...kinds.map((k) => k.casting.top)),
    bottom: Math.min(...kinds.map((k) => k.casting.bottom)),
    radius,
    thinnestModulus: Math.min(...kinds.map(({ casting: c }) => c.thinnestModulus ?? c.volume / c.area)),
  };
};
