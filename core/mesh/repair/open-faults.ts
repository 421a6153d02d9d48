import type { Mesh } from '../../solid/types.js';
import { formatNumber } from '../../units/index.js';
import { type BoundaryLoop, boundaryLoops, type MeshHole, measureHole } from '../health/boundary-loops.js';
import { remarkOfHole } from '../health/examine.js';
import { meshEdges } from '../health/mesh-edges.js';
import { findPatches } from '../health/patches.js';
import { counted, figure, type MeshRemark, near } from '../health/remark.js';
import { diagonalOf, measureShells, middleOfBox } from '../health/shells.js';
import { mostEdges, trivialShare } from './fill-holes.js';
import { remark } from './step.js';

/** Holes told one by one; more are counted. */
const mostTold = 8;

/** A shell whose widest hole spans this share of it is a sheet, not a body with a hole. */
const sheetShare = 0.9;

/** Why an open mesh is no solid: the sheets it consists of, or the holes in it, the widest first. */
export function refuseOpen(mesh: Mesh): MeshRemark[] {
  const edges = meshEdges(mesh.triangles);
  const loops = boundaryLoops(mesh.triangles, edges);
  if (loops.length === 0) return [];
  const patches = findPatches(mesh.triangles, edges);
  const shells = measureShells(mesh, edges, patches.patchOf, patches.count);
  const holes = loops
    .map((loop) => ({ loop, hole: measureHole(mesh, loop), shell: patches.patchOf[loop.triangle]! }))
    .sort((a, b) => b.hole.across - a.hole.across);
  const sheets = new Set(
    holes
      .filter(({ hole, shell }) => hole.across >= sheetShare * diagonalOf(shells[shell]!.box))
      .map(({ shell }) => shell),
  );
  const found: MeshRemark[] = [];
  if (sheets.size > 0) {
    const largest = [...sheets].reduce((most, s) => (shells[s]!.area > shells[most]!.area ? s : most));
    const at = middleOfBox(shells[largest]!.box);
    found.push(
      remark(
        'open-sheet',
        sheets.size,
        `${counted(sheets.size, 'surface is an open sheet', 'surfaces are open sheets')}, the largest of ${figure(shells[largest]!.area)} mm² ${near(at)}: a sheet has no inside to fill with metal. Give it a thickness, or close it to a body.`,
        at,
      ),
    );
  }
  const rest = holes.filter(({ shell }) => !sheets.has(shell));
  for (const { hole, loop, shell } of rest.slice(0, mostTold)) {
    const told = remarkOfHole(hole);
    const body = diagonalOf(shells[shell]!.box);
    found.push({ ...told, message: `${told.message} ${whyNot(loop, hole, hole.across / body)}` });
  }
  if (rest.length > mostTold)
    found.push(
      remark(
        'more-holes',
        rest.length - mostTold,
        `${counted(rest.length - mostTold, 'hole')} besides, none wider.`,
      ),
    );
  return found;
}

function whyNot({ isSimple }: BoundaryLoop, { flat, across, edges }: MeshHole, share: number): string {
  if (!isSimple) return 'Its edges make no simple loop.';
  if (share <= trivialShare || edges > mostEdges) return 'Its shape leaves more than one way to close it.';
  const why = `It is ${Math.round(100 * share)} % of its body across; only holes up to ${100 * trivialShare} % are surely meant closed.`;
  return flat ? `${why} If it is, allow flat holes up to ${formatNumber(Math.ceil(across))} mm.` : why;
}
