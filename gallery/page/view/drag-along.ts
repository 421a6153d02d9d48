import type { Seen } from './projector.js';

/**
 * How far a pull of the pointer goes along an axis, mm. `from` and `to` are where two points of the axis, `length` mm
 * apart, are seen. Where the reader looks along the axis, a pull upwards counts, `millimetresPerPixel` each.
 */
export function dragAlong(
  pull: { readonly x: number; readonly y: number },
  from: Pick<Seen, 'x' | 'y'>,
  to: Pick<Seen, 'x' | 'y'>,
  length: number,
  millimetresPerPixel: number,
): number {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const square = dx * dx + dy * dy;
  // Foreshortened to a fifth, a pixel would be too many mm to aim.
  const least = (0.2 * length) / millimetresPerPixel;
  if (square < least * least) return -pull.y * millimetresPerPixel;
  return ((pull.x * dx + pull.y * dy) / square) * length;
}
