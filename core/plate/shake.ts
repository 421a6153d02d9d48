import type { Lying, Rule } from './fill.js';
import type { Table, Turned } from './table.js';

/** What attempts draw out of a hat. */
export const pick = <T>(list: readonly T[], random: () => number): T =>
  list[Math.floor(random() * list.length)]!;

/** How an attempt lays things: from any of the four sides or corners. */
export const ways: readonly Rule[] = [1, -1].flatMap((sx) =>
  [1, -1].flatMap((sy) => [
    { along: 0.02 * sx, up: sy, at: 1 },
    { along: sx, up: 0.02 * sy, at: 1 },
    { along: sx, up: sy * 0.8, at: 0.5 },
    { along: 0.3 * sx, up: sy, at: 0.5 },
  ]),
);

/** How far an attempt strays from laying the largest first, as a share of a size. */
export const shakes: readonly number[] = [0.15, 0.5, 1.2];

/** Turns of a shape that one attempt looks at. */
const mostTurns = 10;

export function someTurns(turned: readonly Turned[], random: () => number): readonly Turned[] {
  if (turned.length <= mostTurns) return turned;
  const first = Math.floor(random() * turned.length);
  const step = turned.length / mostTurns;
  return Array.from({ length: mostTurns }, (_, k) => turned[(first + Math.floor(k * step)) % turned.length]!);
}

/** Takes everything off a bed, with a chance of `all`, or what lies about a place. */
export function ruin(
  lying: readonly Lying[],
  random: () => number,
  { cols, rows, fine }: Table,
  all: number,
): { kept: readonly Lying[]; taken: readonly Lying[] } {
  if (random() < all) return { kept: [], taken: lying };
  const reach = (0.2 + 0.45 * random()) * Math.max(cols, rows);
  const [x, y] = [random() * cols, random() * rows];
  const isNear = ({ col, row, laid: { mask } }: Lying): boolean => {
    const [dx, dy] = [col + mask.w / fine / 2 - x, row + mask.h / fine / 2 - y];
    return dx * dx + dy * dy < reach * reach;
  };
  return { kept: lying.filter((l) => !isNear(l)), taken: lying.filter(isNear) };
}
