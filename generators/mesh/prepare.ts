import { type Remember, rememberLast, serialOf } from '../../core/job/remember.js';
import { examineMesh, wallWithin } from '../../core/mesh/health/index.js';
import type { MeshFile } from '../../core/mesh/mesh-file.js';
import type { TurnedMesh } from '../../core/mesh/stand/index.js';
import { findSurfaces, type MeshSurface } from '../../core/mesh/surfaces/index.js';
import type { BuildKit, SurfaceNote } from '../../core/part/contract.js';
import { type Finding, hasStop } from '../../core/part/finding.js';
import type { SurfaceClass } from '../../core/part/stock.js';
import type { Mesh } from '../../core/solid/types.js';
import { markSurfaces } from './mark-surfaces.js';
import type { MeshParameters } from './parameters.js';
import { bodyFindings, cautionFinding, readSource } from './source.js';
import { standUp } from './stand-up.js';

/** A mesh ready for its stock: mended, stood up, its surfaces found and marked. */
export type PreparedMesh =
  | {
      readonly ok: true;
      /** As it stands. */
      readonly mesh: Mesh;
      readonly turned: TurnedMesh;
      /** As drawn: names and places are the file's own. */
      readonly surfaces: readonly MeshSurface[];
      /** One a triangle. */
      readonly classes: readonly SurfaceClass[];
      /** Stock by amount, mm, one a triangle; NaN where the class decides. */
      readonly own: Float64Array;
      /** Worn off and put back, mm, one a triangle. */
      readonly wear: Float64Array;
      readonly notes: readonly SurfaceNote[];
      /** mm: what counts for filling; missing where there is no wall. */
      readonly thinnestWall?: number;
      /** 1 for each triangle with other stock than skin: no place for a gate. */
      readonly machined: Uint8Array;
      readonly findings: readonly Finding[];
    }
  | { readonly ok: false; readonly findings: readonly Finding[] };

/** Results of the last settings of each file; they go when the file does. */
const kept = new WeakMap<MeshFile, Remember>();
const mostKept = 3;

/**
 * So little of a surface may lie over thinner walls before they decide how hot and fast it is poured: rounded edges, tips
 * and noise are less. Of the parts that are drawn here, cleats, pulls, eyes and a knob, it gives their own walls.
 */
const thinShare = 0.1;

/** Of the walls that count for filling the thinnest, mm. */
export const wallOf = (mesh: Mesh): number | undefined => wallWithin(mesh, thinShare) ?? undefined;

/** All that is the same for a part and its casting; kept, since both are asked for in turn. */
export function prepareMesh(p: MeshParameters, file: MeshFile, kit: BuildKit): PreparedMesh {
  const remember = kept.get(file) ?? rememberLast(mostKept);
  kept.set(file, remember);
  const { gateAt: _gate, ...settings } = p;
  return remember([settings, kit.bed, kit.lengthUnit, serialOf(file)], () => prepare(p, file, kit));
}

function prepare(p: MeshParameters, file: MeshFile, kit: BuildKit): PreparedMesh {
  const unit = kit.lengthUnit ?? 'mm';
  const source = readSource(p, file, kit.kernel);
  if (!source.ok) return source;
  const health = examineMesh(source.mesh);
  const bodies = bodyFindings(health);
  if (bodies.length > 0) return { ok: false, findings: [...bodies, ...source.findings] };
  const surfaces = findSurfaces(source.mesh, unit);
  const marked = markSurfaces(p, source.mesh, surfaces, unit);
  const told = [...marked.findings, ...source.findings];
  if (!marked.ok || hasStop(told)) return { ok: false, findings: told };
  const { classes, own, wear, notes } = marked;
  const machined = Uint8Array.from(classes, (c, f) => (c !== 'skin' || !Number.isNaN(own[f]!) ? 1 : 0));
  const stood = standUp(source.mesh, p.up, machined, kit.bed);
  if (!stood.ok) return { ok: false, findings: [...stood.findings, ...told] };
  const wall = wallOf(source.mesh);
  return {
    ok: true,
    mesh: stood.turned.mesh,
    turned: stood.turned,
    surfaces,
    classes,
    own,
    wear,
    notes,
    machined,
    ...(wall === undefined ? {} : { thinnestWall: wall }),
    findings: [...told, ...stood.findings, ...health.cautions.map(cautionFinding)],
  };
}
