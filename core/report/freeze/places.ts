import type { FreezePlan, LatePlace, ThinPlace } from '../../freeze/plans.js';

/** A place by its mark in pictures and tables. */
export interface Numbered<P> {
  readonly mark: string;
  readonly place: P;
}

/** More than this are counted, not shown. */
const most = 6;

/** Late places `1`, `2` …, the largest void first; those that are fed to the end last. */
export const numberedLate = ({
  latePlaces,
}: Pick<FreezePlan, 'latePlaces'>): readonly Numbered<LatePlace>[] =>
  [...latePlaces]
    .sort((a, b) => b.void - a.void || b.cutOff - a.cutOff || b.solidAt - a.solidAt)
    .slice(0, most)
    .map((place, i) => ({ mark: String(i + 1), place }));

/** Thin places `A`, `B` …, the worst first. */
export const letteredThin = ({ fill }: Pick<FreezePlan, 'fill'>): readonly Numbered<ThinPlace>[] =>
  fill.thinPlaces.slice(0, most).map((place, i) => ({ mark: String.fromCharCode(65 + i), place }));
