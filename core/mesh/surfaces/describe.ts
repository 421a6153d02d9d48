import { dot, times } from '../../shape/vector.js';
import type { Mesh, Vec3 } from '../../solid/types.js';
import { isThrough } from './bore-ends.js';
import { heightOver, sideOf } from './join-pieces.js';
import type { Axis, CylinderForm, Facing } from './place.js';
import { planeThrough } from './plane-fit.js';
import type { Sheet } from './sheet.js';
import type {
  Candidate,
  CylinderCandidate,
  CylinderSurface,
  FitError,
  PlaneCandidate,
  PlaneSurface,
} from './surface.js';
import { isLongArc, sweepOf } from './sweep.js';

/** Measured, not yet named. */
export type Unnamed =
  | Omit<PlaneSurface, 'name' | 'place' | 'outermost'>
  | Omit<CylinderSurface, 'name' | 'place'>;

/** Cosine of 2°. */
const alongAxis = 0.99939;
/** A bore or boss holds what is in or on it: it leaves no gap wider than this, radians: 160°. */
const widestGap = 2.79;

/** Bores beyond these are not looked through: every one is a walk over the mesh. */
const mostAsked = 100;

/** The surfaces' numbers; cylinders of too short an arc are left out. */
export function describeSurfaces(mesh: Mesh, sheet: Sheet, found: readonly Candidate[]): Unnamed[] {
  let asked = 0;
  return found.flatMap((candidate): Unnamed[] => {
    if (candidate.kind === 'plane') return [describePlane(sheet, candidate)];
    const cylinder = describeCylinder(sheet, candidate);
    if (!isLongArc(sheet, candidate.triangles, candidate.cylinder)) return [];
    if (cylinder.form !== 'bore' || asked === mostAsked) return [cylinder];
    asked++;
    const direction = cylinder.direction;
    return [
      {
        ...cylinder,
        through: isThrough(mesh, { ...candidate.cylinder, direction }, cylinder.extent),
      },
    ];
  });
}

function describePlane(sheet: Sheet, candidate: PlaneCandidate) {
  const plane = planeThrough(candidate.points, candidate.normal);
  const { area, centre } = middleOf(sheet, candidate.triangles);
  return {
    kind: 'plane' as const,
    triangles: Uint32Array.from(candidate.triangles).sort(),
    area,
    centre,
    normal: plane.normal,
    offset: plane.offset,
    facing: facingOf(plane.normal),
    error: errorOf(candidate),
  };
}

function describeCylinder(
  sheet: Sheet,
  candidate: CylinderCandidate,
): Omit<CylinderSurface, 'name' | 'place'> {
  const { cylinder, triangles } = candidate;
  const parts = cylinder.direction.map(Math.abs) as [number, number, number];
  const greatest = parts.indexOf(Math.max(...parts)) as 0 | 1 | 2;
  const direction = times(cylinder.direction, cylinder.direction[greatest] < 0 ? -1 : 1);
  let [from, to] = [Infinity, -Infinity];
  const p = sheet.positions;
  for (const f of triangles)
    for (let h = 3 * f; h < 3 * f + 3; h++) {
      const v = 3 * sheet.corners[h]!;
      const at = p[v]! * direction[0] + p[v + 1]! * direction[1] + p[v + 2]! * direction[2];
      from = Math.min(from, at);
      to = Math.max(to, at);
    }
  const shift = (from + to) / 2 - dot(cylinder.point, direction);
  const { sweep, gap } = sweepOf(sheet, triangles, cylinder);
  const isHole = sideOf(sheet, candidate) < 0;
  const isWhole = gap <= widestGap;
  const form: CylinderForm = isHole ? (isWhole ? 'bore' : 'hollow') : isWhole ? 'boss' : 'round';
  return {
    kind: 'cylinder',
    triangles: Uint32Array.from(triangles).sort(),
    area: middleOf(sheet, triangles).area,
    centre: [0, 1, 2].map((k) => cylinder.point[k]! + shift * direction[k]!) as unknown as Vec3,
    form,
    direction,
    along:
      parts[greatest] >= alongAxis ? (['x', 'y', 'z'] as const satisfies readonly Axis[])[greatest] : null,
    radius: cylinder.radius,
    extent: [from, to],
    sweep,
    through: null,
    error: errorOf(candidate),
  };
}

function middleOf(sheet: Sheet, triangles: Iterable<number>): { area: number; centre: Vec3 } {
  const { corners, positions: p, areas } = sheet;
  const sum: [number, number, number] = [0, 0, 0];
  let area = 0;
  for (const f of triangles) {
    area += areas[f]!;
    for (let h = 3 * f; h < 3 * f + 3; h++)
      for (let k = 0; k < 3; k++) sum[k]! += (areas[f]! * p[3 * corners[h]! + k]!) / 3;
  }
  return { area, centre: area > 0 ? times(sum, 1 / area) : sum };
}

function errorOf(candidate: Candidate): FitError {
  const measure = heightOver(candidate);
  const { points } = candidate;
  let [max, sum] = [0, 0];
  for (let i = 0; i < points.length; i += 3) {
    const height = Math.abs(measure(points[i]!, points[i + 1]!, points[i + 2]!));
    max = Math.max(max, height);
    sum += height * height;
  }
  return { max, rms: Math.sqrt(sum / Math.max(1, points.length / 3)) };
}

function facingOf([x, y, z]: Vec3): Facing | null {
  if (z > alongAxis) return 'up';
  if (z < -alongAxis) return 'down';
  if (x < -alongAxis) return 'left';
  if (x > alongAxis) return 'right';
  if (y < -alongAxis) return 'front';
  return y > alongAxis ? 'back' : null;
}
