import type { FreezePlan, LatePlace, ThinPlace } from '../../freeze/plans.js';

/** A place by its mark in pictures and tables. */
export interface Numbered<P> {
  readonly mark: string;
  readonly place: P;
}

/** More than this are counted, not shown. */
const most = 4;

/** mm³. Voids under this are finer than the cells can tell: common practice, no source. */
export const leastVoid = 1;

/** Late places that may leave a void, `1`, `2` …, the largest first. */
export const numberedLate = ({
  latePlaces,
}: Pick<FreezePlan, 'latePlaces'>): readonly Numbered<LatePlace>[] =>
  latePlaces
    .filter((p) => p.void >= leastVoid)
    .sort((a, b) => b.void - a.void || b.solidAt - a.solidAt)
    .slice(0, most)
    .map((place, i) => ({ mark: String(i + 1), place }));

/** Thin places `A`, `B` …, the worst first. */
export const letteredThin = ({ fill }: Pick<FreezePlan, 'fill'>): readonly Numbered<ThinPlace>[] =>
  fill.thinPlaces.slice(0, most).map((place, i) => ({ mark: String.fromCharCode(65 + i), place }));
