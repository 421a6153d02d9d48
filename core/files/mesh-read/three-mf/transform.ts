import { FormatError } from '../../format-error.js';
import { numberOf } from '../number-text.js';

/** "3D Matrices": rows m00 m01 m02, m10 …, m30 m31 m32; a row vector times it, so the last row is the move. */
export type Transform = readonly number[];

/** @throws FormatError for what is not twelve numbers, or flattens what it moves. */
export function readTransform(text: string | undefined, where: string): Transform | null {
  if (text === undefined) return null;
  const words = text.length > 1000 ? [] : text.trim().split(/\s+/);
  const values = words.map(numberOf);
  if (values.length !== 12 || !values.every(Number.isFinite)) {
    throw new FormatError(
      'three-mf-transform',
      `${where}: its transform is not twelve numbers.`,
      'Export the file again; a transform has four rows of three numbers.',
    );
  }
  if (!Number.isFinite(1 / handOf(values))) {
    throw new FormatError(
      'three-mf-transform',
      `${where}: its transform flattens the object.`,
      'Give the object a size in all three directions.',
    );
  }
  return values;
}

/** `inner` first, then `outer`. */
export function joinTransforms(inner: Transform | null, outer: Transform | null): Transform | null {
  if (!inner || !outer) return inner ?? outer;
  const joined: number[] = [];
  for (let row = 0; row < 4; row++) {
    for (let column = 0; column < 3; column++) {
      let sum = row === 3 ? outer[9 + column]! : 0;
      for (let k = 0; k < 3; k++) sum += inner[3 * row + k]! * outer[3 * k + column]!;
      joined.push(sum);
    }
  }
  return joined;
}

/** Writes the points, moved, into `to` from `at`. */
export function applyTransform(
  m: Transform | null,
  points: Float64Array,
  to: Float64Array,
  at: number,
): void {
  if (!m) {
    to.set(points, at);
    return;
  }
  for (let i = 0; i < points.length; i += 3) {
    const [x, y, z] = [points[i]!, points[i + 1]!, points[i + 2]!];
    for (let k = 0; k < 3; k++) to[at + i + k] = x * m[k]! + y * m[3 + k]! + z * m[6 + k]! + m[9 + k]!;
  }
}

/** Whether it turns a right hand into a left one. */
export const isMirrored = (m: Transform | null): boolean => m !== null && handOf(m) < 0;

/** The determinant. */
function handOf(m: Transform): number {
  const [a, b, c, d, e, f, g, h, i] = m as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  return a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
}
