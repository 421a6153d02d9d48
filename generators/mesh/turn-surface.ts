import type { TurnedMesh } from '../../core/mesh/stand/index.js';
import type { MeshSurface } from '../../core/mesh/surfaces/index.js';
import type { Vec3 } from '../../core/solid/types.js';
import { standing } from './stand-up.js';

/** A surface as it stands, by the name it has as drawn. */
export function turnSurface(surface: MeshSurface, turned: TurnedMesh): MeshSurface {
  const way = (v: Vec3): Vec3 => standing({ ...turned, shift: [0, 0, 0] }, v);
  const centre = standing(turned, surface.centre);
  if (surface.kind === 'plane') {
    const normal = way(surface.normal);
    return { ...surface, centre, normal, offset: surface.offset + dot(normal, turned.shift) };
  }
  const direction = way(surface.direction);
  const along = dot(direction, turned.shift);
  const [from, to] = surface.extent;
  return { ...surface, centre, direction, extent: [from + along, to + along] };
}

const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
