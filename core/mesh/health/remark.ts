import type { Vec3 } from '../../solid/types.js';
import { formatNumber } from '../../units/index.js';

/** One thing found on, or done to, a mesh. */
export interface MeshRemark {
  /** Stable kebab-case code, for example `open-hole`. */
  readonly code: string;
  /** A plain sentence, lengths in mm, with a place where there is one. */
  readonly message: string;
  /** Where, mm: the first or the worst of them. */
  readonly at?: Vec3;
  /** How many of its kind. */
  readonly count: number;
}

/** A number as remarks print it: as many digits as tell two sizes apart. */
export const figure = (value: number): string =>
  Math.abs(value) >= 100
    ? formatNumber(value, { digits: 1 })
    : Math.abs(value) >= 0.1
      ? formatNumber(value, { digits: 2 })
      : formatNumber(value, { digits: 5 });

/** `near 1.2, 3, 4 mm`. */
export const near = (at: Vec3): string =>
  `near ${at.map((v) => formatNumber(v, { digits: 2 })).join(', ')} mm`;

/** `1 hole`, `2 holes`. */
export const counted = (count: number, one: string, many = `${one}s`): string =>
  count === 1 ? `1 ${one}` : `${count} ${many}`;
