import { type CastFields, cellRole } from '../cast-fields.js';
import { standApart } from '../cell-walk.js';

/** The cells that metal may fill. */
export type Cavity = Pick<CastFields, 'grid' | 'present' | 'share' | 'role'>;

/**
 * Least share of metal in a cell through which metal passes on: a wall a fifth of a cell thick that lies across two
 * cells keeps its way, a corner's crumb makes none. Common practice, no source.
 */
export const passShare = 0.005;

/** Crumbs that count as mould are none: one beside the cup's rim would be a casting by itself, as high as its level. */
export const isMetal = ({ present, share, role }: Cavity, c: number): boolean =>
  role[c] !== cellRole.mould && share[c]! > 0 && present[c]! !== 0;

/**
 * Whether metal passes from one cell to the next: the first must have enough of it to pass it on, and sprue and vents
 * are never joined.
 */
export const passes = (cavity: Cavity, from: number, to: number): boolean => {
  if (!isMetal(cavity, to) || cavity.share[from]! < passShare) return false;
  return !standApart(cavity.role[from]!, cavity.role[to]!);
};
