import { defaultGatingSettings } from '../../foundry/gating/input.js';
import { measureMesh } from '../../solid/mass-properties.js';
import type { MassProperties, Mesh, Vec3 } from '../../solid/types.js';
import { heavyMiddle, measureSections } from '../entry/section-field.js';
import { type AirLumps, lumpSurface } from './air-estimate.js';
import { convexHull, type Hull } from './hull.js';

/** What is known of a part before it is turned. */
export interface StandFacts {
  readonly mesh: Mesh;
  readonly mass: MassProperties;
  readonly hull: Hull;
  /** Three numbers a triangle: its area along its outward normal, mm². */
  readonly areas: Float64Array;
  /** Size of that, a number a triangle. */
  readonly sizes: Float64Array;
  readonly lumps: AirLumps;
  /** Middle of the metal, heavy sections counted more. */
  readonly heavy: Vec3;
  /** Diameter of the sprue that the whole casting's modulus asks for, mm. */
  readonly sprue: number;
}

export function readFacts(mesh: Mesh): StandFacts {
  const { positions: p, triangles: t } = mesh;
  const areas = new Float64Array(t.length);
  const sizes = new Float64Array(t.length / 3);
  for (let f = 0; f < t.length; f += 3) {
    const [a, b, c] = [3 * t[f]!, 3 * t[f + 1]!, 3 * t[f + 2]!];
    const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
    const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
    const [x, y, z] = [(uy * vz - uz * vy) / 2, (uz * vx - ux * vz) / 2, (ux * vy - uy * vx) / 2];
    areas[f] = x;
    areas[f + 1] = y;
    areas[f + 2] = z;
    sizes[f / 3] = Math.sqrt(x * x + y * y + z * z);
  }
  const mass = measureMesh(mesh);
  return {
    mesh,
    mass,
    hull: convexHull(p),
    areas,
    sizes,
    lumps: lumpSurface(mesh),
    heavy: heavyMiddle(measureSections(mesh)),
    sprue: (4 * defaultGatingSettings.modulusRatio * mass.volume) / mass.area,
  };
}
