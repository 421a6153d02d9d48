import { SolidError } from '../../solid/errors.js';
import { inspectOnce } from '../../solid/inspect-once.js';
import { measureMesh } from '../../solid/mass-properties.js';
import { measureBounds } from '../../solid/mesh-bounds.js';
import { measureTopology } from '../../solid/mesh-topology.js';
import type { ExactMesh, Kernel, Mesh } from '../../solid/types.js';
import { middleOfHalf } from '../health/boundary-loops.js';
import { examineMesh } from '../health/examine.js';
import { findMalformation } from '../health/malformed.js';
import { meshEdges, usesOf } from '../health/mesh-edges.js';
import { turnTriangles } from '../health/patches.js';
import { counted, type MeshRemark, near } from '../health/remark.js';
import { roundMesh } from '../health/rounded.js';
import { measureShells } from '../health/shells.js';
import { dropDuplicates, dropFlat } from './drop-triangles.js';
import { fillHoles } from './fill-holes.js';
import { groupShells } from './group-shells.js';
import { countBad, joinCorners } from './join-corners.js';
import { joinCrumbs, tidy } from './join-crumbs.js';
import { refuseOpen } from './open-faults.js';
import { orientTriangles } from './orient.js';
import { type CavityChoice, solveShells } from './solve-shells.js';
import { remark, type Step } from './step.js';
import { stitchCracks } from './stitch-cracks.js';

export interface RepairOptions {
  /** `refuse` when left out: a casting cannot have closed cavities. `fill` is what the metal would do. */
  readonly cavities?: CavityChoice;
  /** Flat holes up to so wide, mm, are closed too, though they may be meant; none when left out. */
  readonly widestHole?: number;
}

export type Repair =
  | {
      readonly ok: true;
      /** Closed, outward-facing, float32: `inspectMesh` finds nothing. */
      readonly mesh: Mesh;
      readonly done: readonly MeshRemark[];
    }
  | {
      readonly ok: false;
      /** Why it is no solid, and where. */
      readonly faults: readonly MeshRemark[];
      readonly done: readonly MeshRemark[];
    };

/**
 * Makes a sound solid of a mesh in mm by what is certain alone, tells all it did, and refuses the rest with its place.
 * Never throws on any numbers. Pure but for the kernel's work, which is only asked where bodies overlap.
 */
export function repairMesh(given: ExactMesh, kernel: Kernel, options: RepairOptions = {}): Repair {
  const malformation = findMalformation(given);
  if (malformation) return { ok: false, faults: [malformation], done: [] };
  const done: MeshRemark[] = [];
  const { mesh: rounded, collapsed } = roundMesh(given);
  if (collapsed > 0)
    done.push(
      remark(
        'collapsed-dropped',
        collapsed,
        `${counted(collapsed, 'triangle', 'triangles')} with two corners at one place ${collapsed === 1 ? 'was' : 'were'} left out.`,
      ),
    );
  // One body that is sound already: nothing else to look at.
  const { badEdges, components } = measureTopology(rounded);
  if (badEdges === 0 && components === 1 && inspectOnce(rounded).ok)
    return withoutCrumbs(tidy(rounded), done);

  let mesh = rounded;
  const steps: readonly ((mesh: Mesh) => Step)[] = [
    joinCorners,
    dropFlat,
    dropDuplicates,
    stitchCracks,
    orientTriangles,
    (open) => fillHoles(open, options.widestHole),
  ];
  for (const step of steps) {
    if (mesh.triangles.length === 0) break;
    const next = step(mesh);
    mesh = next.mesh;
    if (next.done) done.push(next.done);
  }
  if (mesh.triangles.length === 0)
    return { ok: false, faults: [remark('no-area', 1, 'No triangle of the mesh has any area.')], done };
  const open = refuseOpen(mesh);
  if (open.length > 0) return { ok: false, faults: open, done };
  const tangled = refuseTangles(mesh);
  if (tangled.length > 0) return { ok: false, faults: tangled, done };
  const solved = solveShells(mesh, kernel, options.cavities ?? 'refuse');
  done.push(...solved.done);
  if (!solved.mesh) {
    const clean = solved.faults[0]?.code === 'self-intersection' ? cleanByKernel(mesh, kernel) : null;
    if (clean) return withoutCrumbs(clean, [...done, cleaned]);
    return { ok: false, faults: solved.faults, done };
  }
  return finish(tidy(solved.mesh), kernel, done);
}

/** What makes it uncertain which side of a surface without open edges is inside. */
function refuseTangles(mesh: Mesh): readonly MeshRemark[] {
  const edges = meshEdges(mesh.triangles);
  const { shellOf, count, twistedAt } = groupShells(mesh.triangles, edges);
  if (twistedAt >= 0) {
    const at = middleOfHalf(mesh, twistedAt);
    return [
      remark(
        'twisted-surface',
        1,
        `The surface is twisted on itself ${near(at)}: it has no inside to fill.`,
        at,
      ),
    ];
  }
  if (measureShells(mesh, edges, shellOf, count).every((shell) => shell.closed)) return [];
  const { shared } = countBad(edges);
  const first =
    edges.halves[edges.starts[[...Array(edges.count).keys()].find((e) => usesOf(edges, e) > 2)!]!]!;
  const at = middleOfHalf(mesh, first);
  return [
    remark(
      'shared-edges',
      shared,
      `${counted(shared, 'edge has', 'edges have')} more than two triangles, the first ${near(at)}: which of them bound the metal is not certain.`,
      at,
    ),
  ];
}

function withoutCrumbs(sound: Mesh, done: readonly MeshRemark[]): Repair {
  const { mesh, done: told } = joinCrumbs(sound);
  return { ok: true, mesh, done: told ? [...done, told] : done };
}

/** The mesh if it is sound; else as the kernel rounds it, if that moves nothing; else why it is refused. */
function finish(mesh: Mesh, kernel: Kernel, done: readonly MeshRemark[]): Repair {
  if (inspectOnce(mesh).ok) return withoutCrumbs(mesh, done);
  const clean = cleanByKernel(mesh, kernel);
  if (clean) return withoutCrumbs(clean, [...done, cleaned]);
  const { faults } = examineMesh(mesh, { leastWall: 0 });
  const told =
    faults.length > 0 ? faults : inspectOnce(mesh).problems.map((p) => remark('unsound', 1, `${p}.`));
  return { ok: false, faults: told, done };
}

const cleaned = remark(
  'crumbs-cleaned',
  1,
  'Folds and slivers thinner than 0.0001 mm, which no file can carry, were smoothed.',
);

/** As the kernel carries it: nothing moves by more than 0.0001 mm. Null where that does not make it sound. */
function cleanByKernel(mesh: Mesh, kernel: Kernel): Mesh | null {
  if (measureMesh(mesh).volume < 0)
    return cleanByKernel(
      { positions: mesh.positions, triangles: turnTriangles(mesh.triangles, () => true) },
      kernel,
    );
  try {
    const clean = kernel.scope(() => kernel.fromMesh(mesh).mesh());
    const [before, after] = [measureBounds(mesh)!, measureBounds(clean)!];
    const isSame = [0, 1, 2].every(
      (k) =>
        Math.abs(before.min[k]! - after.min[k]!) < 1e-3 && Math.abs(before.max[k]! - after.max[k]!) < 1e-3,
    );
    return isSame && inspectOnce(clean).ok ? clean : null;
  } catch (error) {
    if (error instanceof SolidError) return null;
    throw error;
  }
}
