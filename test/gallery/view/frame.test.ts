import { PerspectiveCamera, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import type { Side } from '../../../gallery/page/view/frame.js';
import {
  bearings,
  frameAll,
  stillFits,
  towardsReader,
  turnBetween,
} from '../../../gallery/page/view/frame.js';
import { isSamePiece, pieceOf } from '../../../gallery/page/view/piece.js';
import { seeded } from '../../helpers/seeded.js';

/** The largest |x| and |y| in the picture of a three.js camera that stands as framed; 1 is the edge. */
function reachSeen(points: Float32Array, side: Side, aspect: number, tan: number) {
  const towards = towardsReader(bearings[side]);
  const { target, distance } = frameAll([points], towards, tan * aspect, tan);
  const camera = new PerspectiveCamera((2 * Math.atan(tan) * 180) / Math.PI, aspect, 0.1, 1e5);
  camera.up.set(0, 0, 1);
  camera.position
    .set(...towards)
    .multiplyScalar(distance)
    .add(new Vector3(...target));
  camera.lookAt(...target);
  camera.updateMatrixWorld();
  let [left, right, low, high] = [1, -1, 1, -1];
  for (let i = 0; i < points.length; i += 3) {
    const { x, y, z } = new Vector3(points[i]!, points[i + 1]!, points[i + 2]!).project(camera);
    expect(Math.abs(z)).toBeLessThan(1);
    [left, right] = [Math.min(left, x), Math.max(right, x)];
    [low, high] = [Math.min(low, y), Math.max(high, y)];
  }
  return { left, right, low, high };
}

describe('framing', () => {
  const random = seeded(41);
  const cloud = Float32Array.from({ length: 600 }, (_, i) => (random() - 0.3) * [90, 40, 25][i % 3]!);

  for (const side of ['iso', '+x', '-x', '+y', '-y', '+z', '-z'] as const) {
    for (const aspect of [0.6, 1, 1.9]) {
      it(`fills the picture of a camera of three.js from ${side} at ${aspect}`, () => {
        const { left, right, low, high } = reachSeen(cloud, side, aspect, 0.13);
        // Nothing is cut off; one direction is filled from edge to edge, the other about in the middle.
        const [filled, other] = [[left, right] as const, [low, high] as const].sort(
          (a, b) => b[1] - b[0] - (a[1] - a[0]),
        ) as [readonly [number, number], readonly [number, number]];
        expect(filled[0]).toBeCloseTo(-1, 4);
        expect(filled[1]).toBeCloseTo(1, 4);
        expect(Math.max(-other[0], other[1])).toBeLessThanOrEqual(1 + 1e-6);
        expect(Math.abs(other[0] + other[1])).toBeLessThan(0.06);
      });
    }
  }

  it('frames nothing without failing', () => {
    expect(frameAll([], [0, 0, 1], 0.1, 0.1).distance).toBeGreaterThan(0);
  });
});

describe('where the reader stands', () => {
  it('looks from the side it names', () => {
    expect(towardsReader(bearings['+x'])).toEqual([1, 0, 0]);
    for (const [side, k, sign] of [
      ['-x', 0, -1],
      ['+y', 1, 1],
      ['-y', 1, -1],
      ['+z', 2, 1],
      ['-z', 2, -1],
    ] as const) {
      expect(towardsReader(bearings[side])[k] * sign, side).toBeCloseTo(1, 6);
    }
  });

  it('turns the short way', () => {
    expect(turnBetween(3, -3)).toBeCloseTo(2 * Math.PI - 6, 12);
    expect(turnBetween(-3, 3)).toBeCloseTo(6 - 2 * Math.PI, 12);
    expect(turnBetween(0.2, 0.5)).toBeCloseTo(0.3, 12);
  });

  it('stays for a piece that changed a little, not for another', () => {
    const box = (x: number, size: number) => ({ min: [x, 0, 0], max: [x + size, size, size] }) as const;
    expect(stillFits(box(0, 10), box(0, 11))).toBe(true);
    expect(stillFits(box(0, 10), box(0, 20))).toBe(false);
    expect(stillFits(box(0, 10), box(0, 4))).toBe(false);
    expect(stillFits(box(0, 10), box(9, 10))).toBe(false);
    expect(stillFits(box(0, 0), box(0, 0))).toBe(false);
  });

  it('stays while one piece goes through its states, and goes for another piece or bed', () => {
    const of = (ids: readonly string[], size: number, width?: number) => {
      const mesh = { positions: new Float32Array(), triangles: new Uint32Array() };
      const bodies = ids.map((id) => ({ id, mesh, finish: 'metal', colour: '#b08d57' }) as const);
      const content = { bodies, ...(width === undefined ? {} : { bed: { width, depth: 200 } }) };
      return pieceOf(content, { min: [0, 0, 0], max: [size, size, size] })!;
    };
    const part = of(['wheel/part'], 20);
    expect(isSamePiece(part, of(['wheel/part', 'wheel/skin'], 21))).toBe(true);
    expect(isSamePiece(part, of(['wheel/standing', 'wheel/gating'], 60))).toBe(false);
    expect(isSamePiece(part, of(['cleat/part'], 20))).toBe(false);
    expect(isSamePiece(of(['plate-1/a'], 20, 220), of(['plate-1/a'], 20, 250))).toBe(false);
    expect(pieceOf({ bodies: [] }, null)).toBeNull();
  });
});
