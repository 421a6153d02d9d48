import fc from 'fast-check';
import { STLLoader } from 'three/examples/jsm/loaders/STLLoader.js';
import { describe, expect, test } from 'vitest';
import { FormatError, readStl } from '../../../core/files/index.js';
import { writeCheckedStl, writeStl } from '../../../core/files/stl.js';
import type { Mesh } from '../../../core/solid/types.js';
import { box, openEdges, torus, volumeOf } from './shapes.js';

/** Corner positions in file order, whatever the indexing. */
const cornersOf = (mesh: Mesh): number[] =>
  [...mesh.triangles].flatMap((v) => [...mesh.positions.subarray(3 * v, 3 * v + 3)].map((x) => x + 0));
const codeOf = (step: () => unknown): string => {
  try {
    step();
  } catch (error) {
    if (error instanceof FormatError) return error.code;
    throw error;
  }
  return 'no error';
};

describe('writeStl', () => {
  test('has the layout of binary STL, a header that says mm and is not taken for text', () => {
    const bytes = writeStl(box([0, 0, 0], [1, 2, 3]));
    const header = new TextDecoder().decode(bytes.subarray(0, 80));
    expect(bytes.length).toBe(84 + 12 * 50);
    expect(header).toMatch(/unit: millimetre\s*$/);
    expect(header.toLowerCase().startsWith('solid')).toBe(false);
    expect(new DataView(bytes.buffer).getUint32(80, true)).toBe(12);
    // Attribute bytes are 0, normals are unit vectors along the axes.
    const view = new DataView(bytes.buffer);
    for (let t = 0; t < 12; t++) {
      const normal = [0, 4, 8].map((k) => view.getFloat32(84 + 50 * t + k, true));
      expect(normal.map(Math.abs).sort()).toEqual([0, 0, 1]);
      expect(view.getUint16(84 + 50 * t + 48, true)).toBe(0);
    }
  });

  test('an independent reader finds the same corners and outward normals', () => {
    const mesh = torus(20, 6, 40, 20);
    const bytes = writeStl(mesh);
    const geometry = new STLLoader().parse(bytes.buffer as ArrayBuffer);
    expect([...geometry.getAttribute('position').array].map((x) => x + 0)).toEqual(cornersOf(mesh));
    const p = geometry.getAttribute('position');
    const n = geometry.getAttribute('normal');
    for (let i = 0; i < p.count; i += 3) {
      const along = Math.hypot(p.getX(i), p.getY(i));
      const out = [p.getX(i) * (1 - 20 / along), p.getY(i) * (1 - 20 / along), p.getZ(i) - 6];
      expect(out[0]! * n.getX(i) + out[1]! * n.getY(i) + out[2]! * n.getZ(i)).toBeGreaterThan(0);
    }
  });

  test('comes back bit by bit, closed, with the same volume, at any scale (seed 3)', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1e4, noNaN: true }), (scale) => {
        const from = torus(10, 3, 16, 8);
        const mesh = { ...from, positions: from.positions.map((x) => x * scale) };
        const back = readStl(writeStl(mesh));
        expect(cornersOf(back)).toEqual(cornersOf(mesh));
        expect(openEdges(back)).toBe(0);
        expect(volumeOf(back)).toBe(volumeOf({ ...mesh, positions: mesh.positions.map((x) => x + 0) }));
        expect(back.positions.length).toBe(mesh.positions.length);
      }),
      { seed: 3, numRuns: 50 },
    );
  });

  test('normals of degenerate triangles are finite', () => {
    const flat = {
      positions: Float32Array.of(0, 0, 0, 1, 0, 0, 2, 0, 0),
      triangles: Uint32Array.of(0, 1, 2),
    };
    const view = new DataView(writeStl(flat).buffer);
    for (let k = 0; k < 12; k++) expect(Number.isFinite(view.getFloat32(84 + 4 * k, true))).toBe(true);
  });

  test('refuses what no file can carry', () => {
    const good = box([0, 0, 0], [1, 1, 1]);
    expect(codeOf(() => writeStl({ ...good, triangles: new Uint32Array() }))).toBe('mesh-empty');
    expect(codeOf(() => writeStl({ ...good, triangles: Uint32Array.of(0, 1, 8) }))).toBe('mesh-index');
    expect(codeOf(() => writeStl({ ...good, triangles: Uint32Array.of(0, 1) }))).toBe('mesh-index');
    for (const bad of [Number.NaN, Number.POSITIVE_INFINITY, 1e30]) {
      expect(codeOf(() => writeStl({ ...good, positions: good.positions.with(4, bad) }))).toBe('mesh-number');
    }
  });
});

describe('writeCheckedStl', () => {
  test('passes closed meshes', () => {
    const mesh = torus(20, 6, 40, 20);
    expect(writeCheckedStl(mesh)).toEqual(writeStl(mesh));
  });

  test('refuses an open mesh, and two blocks that share an edge only, and names the file', () => {
    const block = box([0, 0, 0], [1, 1, 1]);
    const open = { ...block, triangles: block.triangles.subarray(3) };
    expect(() => writeCheckedStl(open, 'pull/gated.stl')).toThrow(
      /^pull\/gated.stl, read back from its STL, is not/,
    );
    const other = box([1, 1, 0], [2, 2, 1]);
    const touching = {
      positions: Float32Array.of(...block.positions, ...other.positions),
      triangles: Uint32Array.of(...block.triangles, ...other.triangles.map((v) => v + 8)),
    };
    expect(codeOf(() => writeCheckedStl(touching))).toBe('mesh-open');
  });
});

describe('readStl', () => {
  const good = writeStl(box([0, 0, 0], [1, 2, 3]));
  const withCount = (count: number): Uint8Array => {
    const bytes = good.slice();
    new DataView(bytes.buffer).setUint32(80, count, true);
    return bytes;
  };

  test('joins equal corners and keeps every triangle', () => {
    const mesh = readStl(good);
    expect(mesh.positions.length).toBe(8 * 3);
    expect(mesh.triangles.length).toBe(12 * 3);
  });

  test('reads from the middle of a larger buffer', () => {
    const larger = new Uint8Array(good.length + 13);
    larger.set(good, 7);
    expect(readStl(larger.subarray(7, 7 + good.length))).toEqual(readStl(good));
  });

  test('names a count that lies, a file cut short, text, and numbers that are none', () => {
    expect(codeOf(() => readStl(withCount(13)))).toBe('stl-short');
    expect(codeOf(() => readStl(withCount(0xffffffff)))).toBe('stl-short');
    expect(codeOf(() => readStl(withCount(11)))).toBe('stl-count');
    expect(codeOf(() => readStl(good.subarray(0, 100)))).toBe('stl-short');
    expect(codeOf(() => readStl(new Uint8Array()))).toBe('stl-short');
    const text = 'solid pull\n facet normal 0 0 1\n  outer loop\n'.repeat(9);
    expect(codeOf(() => readStl(new TextEncoder().encode(text)))).toBe('stl-text');
    const bad = good.slice();
    new DataView(bad.buffer).setFloat32(84 + 50 + 12, Number.NaN, true);
    expect(() => readStl(bad)).toThrow(/Triangle 2 of 12 has the coordinate NaN/);
    expect(() => readStl(withCount(13))).toThrow(
      /says 13 triangles, which take 734 bytes, but the file has 684/,
    );
  });

  test('a binary file whose header begins with "solid" is read all the same', () => {
    const bytes = good.slice();
    bytes.set(new TextEncoder().encode('solid pull'));
    expect(readStl(bytes)).toEqual(readStl(good));
  });

  test('whatever the bytes, the answer is a mesh or one clear error (seed 5)', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 400 }), fc.nat(8), (bytes, count) => {
        const file = bytes.slice();
        if (file.length >= 84) new DataView(file.buffer).setUint32(80, count, true);
        for (const tried of [bytes, file]) {
          const code = codeOf(() => readStl(tried));
          expect(code === 'no error' || code.startsWith('stl-')).toBe(true);
        }
      }),
      { seed: 5, numRuns: 500 },
    );
  });
});
