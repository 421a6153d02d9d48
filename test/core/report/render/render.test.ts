import { decode } from 'fast-png';
import { describe, expect, test } from 'vitest';
import type { Pixels, PreviewOptions } from '../../../../core/report/render/index.js';
import {
  gatingColour,
  metalColour,
  plasticColour,
  renderPixels,
  renderPreview,
} from '../../../../core/report/render/index.js';
import { creaseAngle, smoothNormals } from '../../../../core/report/render/smooth-normals.js';
import type { Mesh } from '../../../../core/solid/types.js';
import { box, sphere, torus } from '../../files/shapes.js';

const fromAbove = { azimuth: -Math.PI / 2, elevation: Math.PI / 2 };
const fromFront = { azimuth: -Math.PI / 2, elevation: 0 };
const at = (image: Pixels, x: number, y: number): number[] => [
  ...image.data.subarray(3 * (y * image.width + x), 3 * (y * image.width + x) + 3),
];
/** Share of pixels that are not exactly the background. */
function coverage(mesh: Mesh, options: PreviewOptions): number {
  const image = renderPixels(mesh, { background: '#0000ff', ground: false, ...options });
  let n = 0;
  for (let i = 0; i < image.data.length; i += 3) {
    if (image.data[i] !== 0 || image.data[i + 1] !== 0 || image.data[i + 2] !== 255) n++;
  }
  return n / (image.width * image.height);
}

/** Free space on each side, share of the frame: what the picture promises. */
const padding = 0.055;

describe('renderPreview', () => {
  test('is a PNG of the size asked for, and the same bytes each time', () => {
    const mesh = torus(20, 6, 48, 24);
    const png = renderPreview(mesh, { width: 320, height: 200 });
    const image = decode(png);
    expect([image.width, image.height, image.channels, image.depth]).toEqual([320, 200, 3, 8]);
    expect(new Uint8Array(image.data)).toEqual(renderPixels(mesh, { width: 320, height: 200 }).data);
    expect(renderPreview(mesh, { width: 320, height: 200 })).toEqual(png);
  });

  test('refuses sizes, colours and groups that are none', () => {
    const mesh = box([0, 0, 0], [1, 1, 1]);
    expect(() => renderPixels(mesh, { width: 0 })).toThrow(/width is 0; a whole number from 16 to 4096/);
    expect(() => renderPixels(mesh, { background: 'red' })).toThrow(/colour "red"; written #rrggbb/);
    const groups = [{ start: 6, count: 7, colour: gatingColour }];
    expect(() => renderPixels(mesh, { groups })).toThrow(/triangles 6 to 12; the mesh has 12/);
  });
});

describe('what is drawn', () => {
  test('fills the frame: a sphere covers a disc of 89 % of the height', () => {
    const found = coverage(sphere(10, 60), { width: 400, height: 300, view: fromFront });
    const radius = (300 * (1 - 2 * padding)) / 2;
    // The outline drawn round it is half a pixel wider; the pixels it touches count whole.
    expect(found * 400 * 300).toBeGreaterThan(Math.PI * (radius - 0.5) ** 2);
    expect(found * 400 * 300).toBeLessThan(Math.PI * (radius + 1.6) ** 2);
  });

  test('a ring from above has its hole, a box from the front its two sides', () => {
    const ring = renderPixels(torus(20, 5, 96, 24), {
      width: 300,
      height: 300,
      view: fromAbove,
      background: '#ffffff',
      ground: false,
    });
    expect(at(ring, 150, 150)).toEqual([255, 255, 255]);
    const metal = at(ring, 150 + Math.round((20 / 25) * 150 * (1 - 2 * padding)), 150);
    expect(metal[0]!).toBeGreaterThan(metal[2]!);
    expect(metal[0]!).toBeLessThan(250);
    const scale = 300 * (1 - 2 * padding);
    const found = coverage(box([0, 0, 0], [40, 7, 20]), { width: 300, height: 300, view: fromFront });
    const wide = scale;
    const high = scale / 2;
    expect(found * 9e4).toBeGreaterThan((wide - 1) * (high - 1));
    expect(found * 9e4).toBeLessThan((wide + 3) * (high + 3));
  });

  test('azimuth and elevation look from where they say', () => {
    // A post at +X on a slab: from the front (azimuth −90°) it is on the right, from the rear on the left.
    const slab = box([0, 0, 0], [40, 10, 4]);
    const post = box([32, 2, 3], [38, 8, 20]);
    const mesh = {
      positions: Float32Array.of(...slab.positions, ...post.positions),
      triangles: Uint32Array.of(...slab.triangles, ...post.triangles.map((v) => v + 8)),
    };
    const sides = (azimuth: number): readonly [boolean, boolean] => {
      const image = renderPixels(mesh, {
        width: 200,
        height: 150,
        view: { azimuth, elevation: 0 },
        ground: false,
      });
      const there = (x: number): boolean => at(image, x, 60).some((c) => c < 250);
      return [there(30), there(167)];
    };
    expect(sides(-Math.PI / 2)).toEqual([false, true]);
    expect(sides(Math.PI / 2)).toEqual([true, false]);
  });

  test('near hides far, whatever the order of the triangles', () => {
    const near = box([0, -10, 0], [10, -9, 10]);
    const far = box([0, 0, 0], [10, 1, 10]);
    for (const nearFirst of [true, false]) {
      const [a, b] = nearFirst ? [near, far] : [far, near];
      const mesh = {
        positions: Float32Array.of(...a.positions, ...b.positions),
        triangles: Uint32Array.of(...a.triangles, ...b.triangles.map((v) => v + 8)),
      };
      const groups = [
        { start: nearFirst ? 0 : 12, count: 12, colour: { colour: '#ff0000', finish: 'plastic' as const } },
      ];
      const image = renderPixels(mesh, { width: 100, height: 100, view: fromFront, groups, ground: false });
      const [r, g] = at(image, 50, 50);
      expect(r! - g!).toBeGreaterThan(60);
    }
  });

  test('groups have their own colour, the rest the default one', () => {
    const left = box([0, 0, 0], [10, 10, 10]);
    const right = box([20, 0, 0], [30, 10, 10]);
    const mesh = {
      positions: Float32Array.of(...left.positions, ...right.positions),
      triangles: Uint32Array.of(...left.triangles, ...right.triangles.map((v) => v + 8)),
    };
    const image = renderPixels(mesh, {
      width: 300,
      height: 150,
      view: fromFront,
      colour: plasticColour,
      groups: [{ start: 12, count: 12, colour: gatingColour }],
    });
    const warm = ([r, , b]: number[]): number => r! - b!;
    expect(Math.abs(warm(at(image, 50, 75)))).toBeLessThan(20);
    expect(warm(at(image, 250, 75))).toBeGreaterThan(35);
  });

  test('the three materials are told apart, on white paper too', () => {
    const grey = (colour: typeof metalColour): number[] =>
      at(renderPixels(sphere(10, 40), { width: 100, height: 100, colour, ground: false }), 50, 50);
    const [metal, plastic, gating] = [metalColour, plasticColour, gatingColour].map(grey) as [
      number[],
      number[],
      number[],
    ];
    const distance = (a: number[], b: number[]): number => Math.hypot(...a.map((v, i) => v - b[i]!));
    expect(distance(metal, plastic)).toBeGreaterThan(40);
    expect(distance(plastic, gating)).toBeGreaterThan(30);
    expect(distance(plastic, [255, 255, 255])).toBeGreaterThan(30);
  });

  test('light comes from above: a ball is lighter on top than below; its shadow lies on the ground', () => {
    const image = renderPixels(sphere(10, 60), { width: 300, height: 300 });
    const sum = (p: number[]): number => p.reduce((a, b) => a + b);
    expect(sum(at(image, 150, 60))).toBeGreaterThan(sum(at(image, 150, 260)) + 60);
    const bare = renderPixels(sphere(10, 60), { width: 300, height: 300, ground: false });
    const darker = image.data.filter((v, i) => v < bare.data[i]! - 8).length;
    expect(darker).toBeGreaterThan(500);
    expect(image.data.some((v, i) => v > bare.data[i]!)).toBe(false);
  });

  test('a corner between walls is darker than the open floor', () => {
    const floor = box([0, 0, 0], [40, 40, 2]);
    const wall = box([0, 38, 1], [40, 40, 30]);
    const mesh = {
      positions: Float32Array.of(...floor.positions, ...wall.positions),
      triangles: Uint32Array.of(...floor.triangles, ...wall.triangles.map((v) => v + 8)),
    };
    const image = renderPixels(mesh, {
      width: 300,
      height: 300,
      view: { azimuth: -Math.PI / 2, elevation: 0.9 },
    });
    const column = Array.from({ length: 300 }, (_, y) => at(image, 150, y)[0]!);
    // Down the middle: wall, its foot, floor. The foot is the largest step from dark to light.
    const steps = column.map((v, y) => (y > 60 && y < 200 ? column[y + 1]! - v : 0));
    const foot = steps.indexOf(Math.max(...steps));
    expect(column[foot - 1]!).toBeLessThan(column[foot - 50]! - 5);
    expect(column[foot + 2]!).toBeLessThan(column[foot + 50]! - 8);
  });

  test('lines run along creases and outlines, and none across smooth surfaces', () => {
    const options = { width: 300, height: 300, ground: false, colour: plasticColour } as const;
    const cube = renderPixels(box([0, 0, 0], [10, 10, 10]), options);
    const levels = Array.from({ length: 256 }, () => 0);
    for (let i = 0; i < cube.data.length; i += 3) levels[cube.data[i]!]!++;
    // Three faces are three levels; the nine edges seen, some 130 pixels each, are darker than all of them.
    const darkestFace = levels.findIndex((n) => n > 5000);
    const edges = levels.slice(0, darkestFace - 8).reduce((a, b) => a + b);
    expect(edges).toBeGreaterThan(300);
    expect(edges).toBeLessThan(9 * 130 * 2);
    // Facets of 18° look like the ball they stand for; lines between them would not.
    const [coarse, fine] = [renderPixels(sphere(10, 10), options), renderPixels(sphere(10, 90), options)];
    let difference = 0;
    let n = 0;
    for (let y = 0; y < 300; y++) {
      for (let x = 0; x < 300; x++) {
        if (Math.hypot(x - 150, y - 150) > 110) continue;
        difference += Math.abs(at(coarse, x, y)[0]! - at(fine, x, y)[0]!);
        n++;
      }
    }
    expect(difference / n).toBeLessThan(3);
  });

  test('draws an open and tangled mesh, and needles, without failing', () => {
    const open = box([0, 0, 0], [10, 10, 10]);
    const needles = {
      positions: Float32Array.of(0, 0, 0, 10, 0, 0, 5, 1e-7, 0, 5, 5, 5, 5, 5, 5),
      triangles: Uint32Array.of(0, 1, 2, 0, 2, 3, 1, 3, 2, 0, 3, 1, 3, 4, 0, 0, 1, 2),
    };
    for (const mesh of [{ ...open, triangles: open.triangles.subarray(0, 9) }, needles]) {
      expect(renderPixels(mesh, { width: 64, height: 48 }).data.length).toBe(64 * 48 * 3);
    }
  });
});

describe('smooth normals', () => {
  test('are those of the exact surface on a sphere, to half a facet', () => {
    const mesh = sphere(10, 40);
    const { corners, creases } = smoothNormals(mesh);
    expect(creases.some((c) => c === 1)).toBe(false);
    mesh.triangles.forEach((v, c) => {
      const cos = [0, 1, 2].reduce((s, k) => s + (corners[3 * c + k]! * mesh.positions[3 * v + k]!) / 10, 0);
      expect(Math.acos(Math.min(1, cos))).toBeLessThan(Math.PI / 80);
    });
  });

  test('a cube keeps its faces flat and has twelve creases', () => {
    const mesh = box([0, 0, 0], [1, 1, 1]);
    const { corners, faces, creases } = smoothNormals(mesh);
    mesh.triangles.forEach((_, c) => {
      const f = c - (c % 3);
      for (let k = 0; k < 3; k++) expect(corners[3 * c + k]! + 0).toBeCloseTo(faces[f + k]! + 0, 6);
    });
    expect(creases.reduce((a, b) => a + b, 0)).toBe(24);
    expect(creaseAngle).toBeLessThan(Math.PI / 4);
  });
});
