import { defaultGatingSettings } from '../../foundry/gating/input.js';
import { faceVectors } from '../../solid/face-vectors.js';
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
  const areas = faceVectors(mesh).map((twice) => twice / 2);
  const sizes = Float64Array.from({ length: areas.length / 3 }, (_, n) => {
    const [x, y, z] = [areas[3 * n]!, areas[3 * n + 1]!, areas[3 * n + 2]!];
    return Math.sqrt(x * x + y * y + z * z);
  });
  const mass = measureMesh(mesh);
  return {
    mesh,
    mass,
    hull: convexHull(mesh.positions),
    areas,
    sizes,
    lumps: lumpSurface(mesh),
    heavy: heavyMiddle(measureSections(mesh)),
    sprue: (4 * defaultGatingSettings.modulusRatio * mass.volume) / mass.area,
  };
}
