/** Which leaf: the one with the outer knuckles, one more of them, or the other. */
export type LeafSide = 'outer' | 'inner';

export interface KnuckleRow {
  /** Length of the leaves along the pin, mm. */
  readonly length: number;
  /** Knuckles of both leaves together, odd. */
  readonly count: number;
  /** Room at each joint, finished, mm. */
  readonly gap: number;
  readonly knuckleLength: number;
}

/** From, to along the pin, mm; the row's middle is 0. */
export type Span = readonly [from: number, to: number];

/** All knuckles in order; the first, third … belong to the outer leaf. */
const spans = ({ length, count, gap, knuckleLength }: KnuckleRow): readonly Span[] =>
  Array.from({ length: count }, (_, i): Span => {
    const from = -length / 2 + i * (knuckleLength + gap);
    return [from, i === count - 1 ? length / 2 : from + knuckleLength];
  });

const isOf = (side: LeafSide, i: number): boolean => (i % 2 === 0) === (side === 'outer');

/** A leaf's own knuckles. */
export const knuckleSpans = (row: KnuckleRow, side: LeafSide): readonly Span[] =>
  spans(row).filter((_, i) => isOf(side, i));

/** Room for the other leaf's knuckles with the gaps beside them; at the row's ends it ends with the leaf. */
export function notchSpans(row: KnuckleRow, side: LeafSide): readonly Span[] {
  return spans(row).flatMap(([from, to], i): Span[] =>
    isOf(side, i) ? [] : [[i === 0 ? from : from - row.gap, i === row.count - 1 ? to : to + row.gap]],
  );
}
