import { SolidError } from '../../solid/errors.js';
import { inspectMesh } from '../../solid/inspect.js';
import { dropCollapsed } from '../../solid/mesh-topology.js';
import type { Kernel, Mesh } from '../../solid/types.js';
import { weldMesh } from '../../solid/weld.js';
import { collapseVanishing } from './collapse.js';
import { type Flats, refillFaces } from './flat-faces.js';
import { findFolds, findHard, findMisfits } from './folds.js';
import { type MovedCorners, type MoveInput, moveCorners } from './move-corners.js';
import { makeSkin, meshOfSkin } from './skin.js';
import { softenFolds } from './soften.js';
import { partSkin, uniteParts } from './unite.js';

export interface Settled {
  readonly mesh: Mesh;
  readonly steps: number;
  readonly bevelled: number;
  /** Triangles whose stock was joined on as bodies of their own. */
  readonly joined: number;
  /** Vertices that were moved less far than asked, since the surface would fold. */
  readonly short: number;
}

/** More convex pieces than this are not worth their seams. */
const mostLoose = 150;

/** Ways to one sound surface of the moved triangles, the most exact first; each made only when it is asked for. */
export function* settleMoved(kernel: Kernel, start: MoveInput, inward: boolean): Generator<Settled> {
  const first = moveCorners(start);
  const told = { steps: first.steps, bevelled: first.bevelled };
  let collapsed: { input: MoveInput; moved: MovedCorners } | undefined;
  const withoutVanishing = (): { input: MoveInput; moved: MovedCorners } => {
    collapsed ??= collapseVanishing(start);
    return collapsed;
  };
  for (const way of [() => ({ input: start, moved: first }), withoutVanishing]) {
    const { input, moved } = way();
    if (input !== start && input.halves.t.length === start.halves.t.length) break;
    const flats = refillFaces(kernel, input, moved, findMisfits(input, moved));
    const broken = findHard(input, moved);
    findFolds(input, moved, flats).forEach((b, f) => {
      if (b === 1) broken[f] = 1;
    });
    const loose = broken.reduce((sum, b) => sum + b, 0);
    if (loose === 0) {
      const mesh = plainSkin(input, moved, flats, inward);
      if (mesh) yield { mesh, ...told, joined: 0, short: 0 };
    }
    if (loose > mostLoose) continue;
    const parts = partSkin(input, moved, flats, broken, inward);
    if (parts.loose.reduce((sum, l) => sum + l, 0) > mostLoose) continue;
    const mesh = orNull(() => uniteParts(kernel, parts, inward));
    if (mesh) yield { mesh, ...told, joined: parts.joined, short: 0 };
  }
  const { input, moved } = withoutVanishing();
  const flats = refillFaces(kernel, input, moved, findMisfits(input, moved));
  const share = new Float64Array(input.halves.vertices).fill(1);
  for (let round = 0; round < 3; round++) {
    const soft = softenFolds(input, moved, flats, false, share);
    if (!soft.sound) break;
    const parts = partSkin(input, soft.moved, flats, new Uint8Array(input.halves.t.length / 3), inward);
    const { t } = input.halves;
    let loose = 0;
    for (let f = 0; f < parts.loose.length; f++)
      if (parts.loose[f] === 1) {
        loose++;
        for (let h = 3 * f; h < 3 * f + 3; h++) share[t[h]!]! *= 0.4;
      }
    if (loose > 0 && round < 2) continue;
    const mesh = orNull(() => uniteParts(kernel, parts, inward));
    if (mesh)
      yield {
        mesh,
        ...told,
        joined: parts.joined,
        short: share.reduce((sum, s) => sum + (s < 1 ? 1 : 0), 0),
      };
    // Holding back wherever it crosses would only be farther off.
    if (mesh) return;
    break;
  }
  for (const way of [
    { input, moved, flats },
    { input: start, moved: first, flats: noFlats(start) },
    { input: start, moved: moveCorners({ ...start, whole: true }), flats: noFlats(start) },
  ]) {
    const held = new Float64Array(way.input.halves.vertices).fill(1);
    const soft = softenFolds(way.input, way.moved, way.flats, true, held);
    if (!soft.sound) continue;
    const mesh = plainSkin(way.input, soft.moved, way.flats, inward);
    if (!mesh) continue;
    yield { mesh, ...told, joined: 0, short: held.reduce((sum, s) => sum + (s < 1 ? 1 : 0), 0) };
    return;
  }
}

const noFlats = ({ halves }: MoveInput): Flats => ({
  faces: [],
  faceOf: new Int32Array(halves.t.length / 3).fill(-1),
});

/** The moved surface as it is; null where it is not sound. */
function plainSkin({ halves }: MoveInput, moved: MovedCorners, flats: Flats, inward: boolean): Mesh | null {
  const chosen = new Uint8Array(halves.t.length / 3).fill(1);
  const skin = makeSkin(halves, moved, chosen, (v) => v, false, flats);
  const mesh = dropCollapsed(weldMesh(meshOfSkin(moved.points, skin.t, inward)));
  return mesh.triangles.length > 0 && inspectMesh(mesh).ok ? mesh : null;
}

/** What is made, or null where the kernel cannot write it. */
function orNull(make: () => Mesh): Mesh | null {
  try {
    return make();
  } catch (error) {
    if (!(error instanceof SolidError)) throw error;
    if (error.code === 'empty-result' && error.message.startsWith('subtract'))
      throw new SolidError('empty-result', 'offset: so far inward nothing is left of the body');
    return null;
  }
}
