import type { ExactMesh, Mesh } from '../../solid/types.js';
import { counted, type MeshRemark } from './remark.js';

/** What keeps arrays of numbers from being a mesh at all; null for nothing. */
export function findMalformation({ positions: p, triangles: t }: ExactMesh | Mesh): MeshRemark | null {
  const fault = (code: string, message: string, count = 1): MeshRemark => ({ code, message, count });
  if (t.length === 0 || p.length === 0) return fault('no-triangles', 'The file holds no triangles.');
  if (p.length % 3 !== 0 || t.length % 3 !== 0)
    return fault('incomplete', 'The last vertex or triangle is incomplete.');
  let bad = 0;
  let first = -1;
  for (let i = 0; i < p.length; i++)
    if (!Number.isFinite(Math.fround(p[i]!))) {
      if (bad++ === 0) first = Math.floor(i / 3);
    }
  if (bad > 0)
    return fault(
      'not-finite',
      `${counted(bad, 'coordinate is', 'coordinates are')} not a finite number, the first in vertex ${first}; every coordinate must be one.`,
      bad,
    );
  const count = p.length / 3;
  for (let i = 0; i < t.length; i++)
    if (t[i]! >= count)
      return fault(
        'lost-vertex',
        `Triangle ${Math.floor(i / 3)} names vertex ${t[i]}; there are ${count}, numbered from 0.`,
      );
  return null;
}
