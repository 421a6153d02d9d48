import { Box3, BufferAttribute, BufferGeometry, Matrix4 } from 'three';
import { describe, expect, it } from 'vitest';
import type { Body } from '../../../gallery/page/view/content.js';
import { boundsOf, sectionRange } from '../../../gallery/page/view/section-range.js';

const box = (size: readonly [number, number, number], standing?: Body['standing']): Body => ({
  id: 'box',
  mesh: {
    positions: Float32Array.from({ length: 24 }, (_, i) =>
      (Math.floor(i / 3) >> (i % 3)) & 1 ? size[i % 3]! : 0,
    ),
    triangles: new Uint32Array(),
  },
  finish: 'metal',
  colour: '#b08d57',
  ...(standing ? { standing } : {}),
});

describe('section range', () => {
  it('is as long as the bodies along the axis', () => {
    const bodies = [box([10, 20, 30]), box([5, 5, 5], { turn: 0, at: [-7, 2, 40] })];
    expect(sectionRange(bodies, 'x')).toEqual({ min: -7, max: 10 });
    expect(sectionRange(bodies, 'y')).toEqual({ min: 0, max: 20 });
    expect(sectionRange(bodies, 'z')).toEqual({ min: 0, max: 45 });
  });

  it('is none without bodies', () => {
    expect(sectionRange([], 'z')).toBeNull();
    const empty = {
      ...box([1, 1, 1]),
      mesh: { positions: new Float32Array(), triangles: new Uint32Array() },
    };
    expect(sectionRange([empty], 'z')).toBeNull();
  });

  it('agrees with three.js on a turned box', () => {
    const body = box([10, 20, 30], { turn: 0.7, at: [3, -4, 5] });
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(body.mesh.positions, 3));
    const theirs = new Box3()
      .setFromBufferAttribute(geometry.getAttribute('position') as BufferAttribute)
      .applyMatrix4(new Matrix4().makeRotationZ(0.7).setPosition(3, -4, 5));
    const ours = boundsOf([body]);
    for (const k of [0, 1, 2] as const) {
      expect(ours?.min[k]).toBeCloseTo(theirs.min.getComponent(k), 5);
      expect(ours?.max[k]).toBeCloseTo(theirs.max.getComponent(k), 5);
    }
  });
});
