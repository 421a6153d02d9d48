import { orient2d } from 'robust-predicates';

/** Above 0 where the corners a, b, c, of x and y each, turn left; exact (robust-predicates). */
export const turnOf = (flat: Float64Array, a: number, b: number, c: number): number =>
  -orient2d(flat[2 * a]!, flat[2 * a + 1]!, flat[2 * b]!, flat[2 * b + 1]!, flat[2 * c]!, flat[2 * c + 1]!);
