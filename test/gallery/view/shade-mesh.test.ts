import { BufferGeometry, CylinderGeometry, EdgesGeometry, SphereGeometry } from 'three';
import { mergeVertices, toCreasedNormals } from 'three/examples/jsm/utils/BufferGeometryUtils.js';
import { describe, expect, it } from 'vitest';
import { creaseAngle } from '../../../core/report/render/smooth-normals.js';
import type { Mesh } from '../../../core/solid/types.js';
import { GeometryShelf } from '../../../gallery/page/view/geometry-shelf.js';
import { shadeMesh } from '../../../gallery/page/view/shade-mesh.js';

/** The bare triangles of a three.js shape, its corners welded. */
function bare(geometry: BufferGeometry): { readonly mesh: Mesh; readonly welded: BufferGeometry } {
  const plain = new BufferGeometry();
  plain.setAttribute('position', geometry.getAttribute('position'));
  plain.setIndex(geometry.getIndex());
  const welded = mergeVertices(plain, 1e-5);
  const triangles = Uint32Array.from(welded.getIndex()!.array);
  return { mesh: { positions: Float32Array.from(welded.getAttribute('position').array), triangles }, welded };
}

const cylinder = () => bare(new CylinderGeometry(10, 10, 20, 48, 3));

describe('shading', () => {
  for (const [name, make] of [
    ['a cylinder', cylinder],
    ['a ball', () => bare(new SphereGeometry(8, 40, 24))],
  ] as const) {
    it(`smooths and splits ${name} as three.js does`, () => {
      const { mesh, welded } = make();
      const whole = mesh.triangles.filter((_, i, t) => {
        const f = i - (i % 3);
        return t[f] !== t[f + 1] && t[f + 1] !== t[f + 2] && t[f + 2] !== t[f];
      });
      const { positions, normals } = shadeMesh({ ...mesh, triangles: whole });
      welded.setIndex([...whole]);
      const theirs = toCreasedNormals(welded, creaseAngle);
      // Nought has no sign here.
      const plain = (values: ArrayLike<number>) => Float32Array.from(values, (v) => v + 0);
      expect(plain(positions)).toEqual(plain(theirs.getAttribute('position').array));
      const n = theirs.getAttribute('normal');
      for (let i = 0; i < positions.length / 3; i++) {
        const dot =
          normals[3 * i]! * n.getX(i) + normals[3 * i + 1]! * n.getY(i) + normals[3 * i + 2]! * n.getZ(i);
        // Theirs weighs all triangles at a corner alike, ours by their angle.
        expect(dot).toBeGreaterThan(Math.cos(0.06));
      }
    });
  }

  it('draws the edges that three.js draws', () => {
    const { mesh, welded } = cylinder();
    const theirs = new EdgesGeometry(welded, (creaseAngle * 180) / Math.PI).getAttribute('position').array;
    const keys = (ends: ArrayLike<number>) =>
      Array.from({ length: ends.length / 6 }, (_, i) => {
        const end = (k: number) =>
          Array.from({ length: 3 }, (_, j) => (ends[6 * i + 3 * k + j]! + 0).toFixed(3)).join();
        return [end(0), end(1)].sort().join(' ').replaceAll('-0.000', '0.000');
      }).sort();
    const ours = keys(shadeMesh(mesh).creases);
    expect(ours).toHaveLength(96);
    expect(ours).toEqual(keys(theirs));
  });
});

describe('the shelf of geometry', () => {
  it('makes a mesh ready once, and gives up what is shown no more', () => {
    const shelf = new GeometryShelf();
    const [a, b] = [cylinder().mesh, cylinder().mesh];
    const item = shelf.take(a);
    const gone: string[] = [];
    item.surface.addEventListener('dispose', () => gone.push('surface'));
    item.creases.addEventListener('dispose', () => gone.push('creases'));
    shelf.take(b);
    shelf.keepOnly(new Set([a]));
    expect(shelf.take(a)).toBe(item);
    expect(gone).toEqual([]);
    shelf.keepOnly(new Set([b]));
    expect(gone).toEqual(['surface', 'creases']);
    expect(shelf.take(a)).not.toBe(item);
  });
});
