import type { Manifold, ManifoldToplevel } from 'manifold-3d/manifold.js';
import type { Mesh } from '../../../core/solid/types.js';
import type { Construction } from './recorded-kernel.js';

export async function loadBareKernel(): Promise<ManifoldToplevel> {
  const { default: load } = await import('manifold-3d/manifold.js');
  const wasm = await load();
  wasm.setup();
  return wasm;
}

/**
 * The solid by manifold-3d's own calls and no others: what was drawn stands ready as meshes, nothing is checked. The
 * caller deletes it.
 * @param given stands for the mesh that the construction begins with
 */
export function makeBare(wasm: ManifoldToplevel, construction: Construction, given?: Manifold): Manifold {
  const made: Manifold[] = [];
  const keep = (solid: Manifold): Manifold => {
    made.push(solid);
    return solid;
  };
  const make = (c: Construction): Manifold => {
    switch (c.op) {
      case 'union':
        return keep(wasm.Manifold.union(c.of.map(make)));
      case 'subtract':
        return keep(wasm.Manifold.difference(c.of.map(make)));
      case 'translate':
        return keep(make(c.of).translate([...c.by]));
      case 'rotate': {
        const degrees = (180 * c.angle) / Math.PI;
        return keep(
          make(c.of).rotate(
            c.axis === 'x' ? [degrees, 0, 0] : c.axis === 'y' ? [0, degrees, 0] : [0, 0, degrees],
          ),
        );
      }
      case 'mesh':
        return given ?? keep(takeIn(wasm, c.ready));
      default:
        return keep(takeIn(wasm, c.ready));
    }
  };
  const solid = make(construction);
  // Evaluated before its operands go.
  solid.numTri();
  for (const other of made) if (other !== solid) other.delete();
  return solid;
}

export function takeIn(wasm: ManifoldToplevel, { positions, triangles }: Mesh): Manifold {
  return wasm.Manifold.ofMesh(new wasm.Mesh({ numProp: 3, vertProperties: positions, triVerts: triangles }));
}

/** Binary STL as short as it can be written: the normals are left to the reader, as the format allows. */
export function bareStl({ positions: p, triangles: t }: Mesh): Uint8Array {
  const count = t.length / 3;
  const bytes = new Uint8Array(84 + 50 * count);
  const view = new DataView(bytes.buffer);
  view.setUint32(80, count, true);
  for (let i = 0, at = 96; i < t.length; i += 3, at += 14)
    for (let k = 0; k < 3; k++)
      for (let c = 0, v = 3 * (t[i + k] as number); c < 3; c++, at += 4)
        view.setFloat32(at, p[v + c] as number, true);
  return bytes;
}
