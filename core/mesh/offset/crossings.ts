import { isFlat, trianglesCross } from '../../solid/triangle-crossing.js';
import { forOverlappingPairs } from '../../solid/triangle-pairs.js';
import { areClearlyApart, trianglePlanes } from '../../solid/triangle-planes.js';

export interface Crossings {
  /** 1 for each triangle that crosses or touches one that it should not. */
  readonly crossing: Uint8Array;
  readonly any: boolean;
  /** Triangles without area. */
  readonly flat: number;
}

/** Which triangles of a surface whose corners are joined meet others in more than they share. Exact. */
export function findCrossings(p: Float64Array, t: Uint32Array): Crossings {
  const corners = { p, t };
  const whole = new Uint32Array(t.length / 3);
  let size = 0;
  for (let i = 0; i < t.length / 3; i++) if (!isFlat(corners, i)) whole[size++] = i;
  const planes = trianglePlanes(corners);
  const crossing = new Uint8Array(t.length / 3);
  let any = false;
  forOverlappingPairs(p, t, whole.subarray(0, size), (i, j) => {
    if ((crossing[i] === 1 && crossing[j] === 1) || areClearlyApart(corners, planes, i, j)) return false;
    if (trianglesCross(corners, i, j)) {
      crossing[i] = 1;
      crossing[j] = 1;
      any = true;
    }
    return false;
  });
  return { crossing, any, flat: t.length / 3 - size };
}
