import type { Mesh } from '../../solid/types.js';
import type { LengthUnit } from '../../units/index.js';
import { describeSurfaces } from './describe.js';
import { findFacets } from './facets.js';
import { fillSpecks } from './fill-specks.js';
import { findFlats } from './flats.js';
import { joinPieces } from './join-pieces.js';
import { nameSurfaces } from './name-surfaces.js';
import { joinRingFlats } from './ring-flats.js';
import { findScanned } from './scanned.js';
import { prepareSheet, type Sheet } from './sheet.js';
import { findStripCylinders } from './strips.js';
import type { Candidate, MeshSurface } from './surface.js';
import { isLongArc } from './sweep.js';

/** More than a person would name. */
const mostSurfaces = 1000;

/**
 * Planes and cylinders on a closed mesh in mm, named by position in the job's unit; largest first, 1,000 at most. What is
 * neither belongs to none of them.
 *
 * First what is exact to the file's rounding: facets, strips of facets round an axis, flats. Then, among what is left,
 * what scatters about a plane or cylinder by no more than the mesh's own noise. A surface has 0.02 % of the area or
 * more, a scanned one 0.1 %, and 40° of the circle where it is round.
 */
export function findSurfaces(mesh: Mesh, lengthUnit: LengthUnit = 'mm'): readonly MeshSurface[] {
  if (mesh.triangles.length < 12) return [];
  const sheet = prepareSheet(mesh);
  const facets = findFacets(sheet);
  const taken = new Uint8Array(sheet.triangles);
  // Short arcs count where several of them make up a cylinder: those left over are no surface, and may be facets of faces.
  const strips = joinPieces(sheet, findStripCylinders(sheet, facets)).filter(
    (c) => c.kind === 'cylinder' && isLongArc(sheet, c.triangles, c.cylinder) && isNoCrumb(sheet, c),
  );
  for (const { triangles } of strips) for (const f of triangles) taken[f] = 1;
  const flats = findFlats(sheet, facets, taken);
  for (const { triangles } of flats) for (const f of triangles) taken[f] = 1;
  const exact = [...strips, ...joinRingFlats(sheet, strips, flats)];
  const joined = joinPieces(sheet, [...exact, ...findScanned(sheet, taken)]);
  const found = describeSurfaces(mesh, sheet, fillSpecks(sheet, joined))
    .sort((a, b) => b.area - a.area || a.triangles[0]! - b.triangles[0]!)
    .slice(0, mostSurfaces);
  return nameSurfaces(found, lengthUnit);
}

/** A cylinder of some size, mm²: facets by chance on one circle are smaller. */
const isNoCrumb = ({ area, areas }: Sheet, { triangles }: Candidate): boolean =>
  triangles.reduce((sum, f) => sum + areas[f]!, 0) >= Math.max(2e-5 * area, Math.min(0.3, 1e-3 * area));
