import { BufferAttribute, BufferGeometry, Sphere, Vector3 } from 'three';
import type { Mesh } from '../../../core/solid/types.js';
import { shadeMesh } from './shade-mesh.js';

/** A mesh on the graphics card: its surface, and its creases as lines. */
export interface ShelfItem {
  readonly surface: BufferGeometry;
  readonly creases: BufferGeometry;
}

/** Keeps what was made of each mesh for as long as it is shown; the same mesh is not made ready twice. */
export class GeometryShelf {
  readonly #items = new Map<Mesh, ShelfItem>();

  take(mesh: Mesh): ShelfItem {
    let item = this.#items.get(mesh);
    if (!item) {
      item = makeItem(mesh);
      this.#items.set(mesh, item);
    }
    return item;
  }

  /** Gives up all that is made of other meshes. */
  keepOnly(meshes: ReadonlySet<Mesh>): void {
    for (const [mesh, item] of this.#items) {
      if (meshes.has(mesh)) continue;
      item.surface.dispose();
      item.creases.dispose();
      this.#items.delete(mesh);
    }
  }
}

function makeItem(mesh: Mesh): ShelfItem {
  const { positions, normals, creases } = shadeMesh(mesh);
  const surface = new BufferGeometry();
  surface.setAttribute('position', new BufferAttribute(positions, 3));
  surface.setAttribute('normal', new BufferAttribute(normals, 3));
  const lines = new BufferGeometry();
  lines.setAttribute('position', new BufferAttribute(creases, 3));
  // Nothing is culled, so nobody needs the true sphere; it would be worked out for each new shape.
  const everywhere = new Sphere(new Vector3(), Number.POSITIVE_INFINITY);
  surface.boundingSphere = everywhere;
  lines.boundingSphere = everywhere;
  return { surface, creases: lines };
}
