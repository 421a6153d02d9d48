import { maths } from '../maths/maths.js';

/** Cosine and sine of a turn, exact for quarter turns. */
export function turnOf(turn: number): readonly [cos: number, sin: number] {
  const quarters = turn / (Math.PI / 2);
  const whole = Math.round(quarters);
  if (Math.abs(quarters - whole) > 1e-9) return [maths.cos(turn), maths.sin(turn)];
  return (
    [
      [1, 0],
      [0, 1],
      [-1, 0],
      [0, -1],
    ] as const
  )[((whole % 4) + 4) % 4]!;
}
