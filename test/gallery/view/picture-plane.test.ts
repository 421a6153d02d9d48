import { PerspectiveCamera, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import type { SpaceDimension } from '../../../core/report/drawing/space-dimensions.js';
import type { Vec3 } from '../../../core/solid/types.js';
import { drawDimensions } from '../../../gallery/page/view/dimensions.js';
import { dragAlong } from '../../../gallery/page/view/drag-along.js';
import { workshopLight } from '../../../gallery/page/view/environment.js';
import { Pen } from '../../../gallery/page/view/pen.js';
import { makeProjector } from '../../../gallery/page/view/projector.js';

/** From −Y, 100 mm away; a millimetre at the origin is 10 pixels, x to the right, z up. */
function front(): { camera: PerspectiveCamera; pen: Pen } {
  const camera = new PerspectiveCamera((2 * Math.atan(0.3) * 180) / Math.PI, 4 / 3, 1, 1000);
  camera.up.set(0, 0, 1);
  camera.position.set(0, -100, 0);
  camera.lookAt(0, 0, 0);
  return { camera, pen: new Pen(makeProjector(camera, 800, 600)) };
}

const black = [0, 0, 0, 1] as const;
const white = [1, 1, 1, 0.5] as const;

describe('the projector', () => {
  it('sees places where three.js does', () => {
    const { camera, pen } = front();
    for (const at of [
      [0, 0, 0],
      [7, 20, -3],
      [-30, -40, 12],
    ] as const satisfies readonly Vec3[]) {
      const theirs = new Vector3(...at).project(camera);
      const seen = pen.see(at);
      expect(seen?.x).toBeCloseTo(400 + 400 * theirs.x, 6);
      expect(seen?.y).toBeCloseTo(300 - 300 * theirs.y, 6);
      expect(seen?.depth).toBeCloseTo(theirs.z, 9);
    }
    expect(pen.see([3, 0, 2])).toMatchObject({ x: expect.closeTo(430, 6), y: expect.closeTo(280, 6) });
  });

  it('does not see what is behind the reader', () => {
    expect(front().pen.see([0, -150, 0])).toBeNull();
  });
});

describe('the pen', () => {
  it('draws a line as wide as asked', () => {
    const { pen } = front();
    pen.line([0, 0, 0], [10, 0, 10], 3, black);
    const area = [0, 9].reduce((sum, at) => {
      const [ax, ay, , bx, by, , cx, cy] = pen.corners.slice(at, at + 9) as number[];
      return sum + Math.abs((bx! - ax!) * (cy! - ay!) - (cx! - ax!) * (by! - ay!)) / 2;
    }, 0);
    expect(area).toBeCloseTo(3 * 100 * Math.SQRT2, 4);
  });
});

describe('dimensions', () => {
  const length = (from: Vec3, to: Vec3): SpaceDimension => ({
    kind: 'length',
    text: '20',
    from,
    to,
    lineFrom: [from[0], from[1], from[2] - 5],
    lineTo: [to[0], to[1], to[2] - 5],
  });

  it('writes a length in the middle of its line', () => {
    const { pen } = front();
    const [wish] = drawDimensions(pen, [length([-10, 0, 0], [10, 0, 0])], black, white);
    expect(wish?.text).toBe('20');
    expect(wish?.places[0]?.[0]).toBeCloseTo(400, 6);
    expect(wish?.places[0]?.[1]).toBeCloseTo(350, 6);
    expect(pen.corners.length).toBeGreaterThan(0);
  });

  it('writes a length too short for its text beyond its end', () => {
    const { pen } = front();
    const [wish] = drawDimensions(pen, [length([-1, 0, 0], [1, 0, 0])], black, white);
    const [x, y] = wish?.places[0] ?? [0, 0];
    expect(x).toBeGreaterThan(410);
    expect(y).toBeCloseTo(350, 6);
  });

  it('hides a length that the reader looks along', () => {
    const { pen } = front();
    expect(drawDimensions(pen, [length([0, -10, 5], [0, 10, 5])], black, white)).toEqual([]);
    expect(pen.corners).toEqual([]);
  });

  it('draws leaders and angles with their texts', () => {
    const { pen } = front();
    const arc = Array.from({ length: 9 }, (_, i): Vec3 => [12 * Math.cos(i / 10), 0, 12 * Math.sin(i / 10)]);
    const wishes = drawDimensions(
      pen,
      [
        { kind: 'leader', text: 'Ø16', at: [0, 0, 0], textAt: [5, 0, 5] },
        { kind: 'angle', text: '46°', corner: [0, 0, 0], arc },
      ],
      black,
      white,
    );
    expect(wishes.map((w) => w.text)).toEqual(['Ø16', '46°']);
    expect(wishes[0]?.places[0]?.[0]).toBeCloseTo(450, 6);
    expect(pen.corners.every(Number.isFinite)).toBe(true);
  });
});

describe('pulling a section', () => {
  it('follows the pointer along the axis as it is seen', () => {
    // 10 mm of the axis are 50 pixels to the right and 50 up.
    const [from, to] = [
      { x: 100, y: 100 },
      { x: 150, y: 50 },
    ];
    expect(dragAlong({ x: 50, y: -50 }, from, to, 10, 0.1)).toBeCloseTo(10, 12);
    expect(dragAlong({ x: 50, y: 50 }, from, to, 10, 0.1)).toBeCloseTo(0, 12);
    expect(dragAlong({ x: -5, y: 5 }, from, to, 10, 0.1)).toBeCloseTo(-1, 12);
  });

  it('goes up and down where the reader looks along the axis', () => {
    const end = { x: 100, y: 100 };
    expect(dragAlong({ x: 30, y: -20 }, end, { x: 101, y: 100 }, 10, 0.1)).toBeCloseTo(2, 12);
  });
});

describe('the workshop light', () => {
  it('comes from the left and above, and is nowhere nought', () => {
    const sum = (at: Vec3) => workshopLight(at).reduce((a, b) => a + b, 0);
    expect(sum([-0.8, 0.4, 0.45])).toBeGreaterThan(2 * sum([0.8, 0.4, 0.45]));
    expect(sum([0, 1, 0])).toBeGreaterThan(2 * sum([0, -1, 0]));
    expect(sum([0, -1, 0])).toBeGreaterThan(0.3);
  });
});
