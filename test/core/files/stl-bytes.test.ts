import { beforeEach, expect, test, vi } from 'vitest';
import { FormatError } from '../../../core/files/index.js';
import { inspectOnce } from '../../../core/solid/index.js';
import { box } from './shapes.js';

/** What goes wrong in the writer, on the triangles' bytes: 50 a triangle. */
let fault: (triangles: DataView) => void;
vi.mock('@jscad/stl-serializer/CSGToStlb.js', async (load) => {
  const real = await load<typeof import('@jscad/stl-serializer/CSGToStlb.js')>();
  const serializeBinary: typeof real.serializeBinary = (objects, options) => {
    const parts = real.serializeBinary(objects, options);
    fault(new DataView(parts[2]));
    return parts;
  };
  return { ...real, serializeBinary };
});
const { writeCheckedStl } = await import('../../../core/files/stl.js');

beforeEach(() => {
  fault = () => undefined;
});

const codeOf = (step: () => unknown): string => {
  try {
    step();
    return 'written';
  } catch (error) {
    if (error instanceof FormatError) return error.code;
    throw error;
  }
};

test('a sound mesh is no warrant for its bytes: what the writer spoils is found', () => {
  const mesh = box([0, 0, 0], [1, 2, 3]);
  expect(inspectOnce(mesh).ok).toBe(true);
  expect(codeOf(() => writeCheckedStl(mesh))).toBe('written');
  const step = 2 ** -23;
  const at = 50 * 4 + 12 + 12 + 4;
  fault = (view) => view.setFloat32(at, view.getFloat32(at, true) + step, true);
  expect(codeOf(() => writeCheckedStl(mesh))).toBe('mesh-open');
  fault = (view) => view.setFloat32(at, Number.NaN, true);
  expect(codeOf(() => writeCheckedStl(mesh))).toBe('stl-number');
  // A whole triangle over another: two corners swapped.
  fault = (view) => {
    for (let k = 0; k < 12; k += 4) {
      const first = view.getFloat32(12 + k, true);
      view.setFloat32(12 + k, view.getFloat32(24 + k, true), true);
      view.setFloat32(24 + k, first, true);
    }
  };
  expect(codeOf(() => writeCheckedStl(mesh))).toBe('mesh-open');
});

test('what the writer changes without harm is inspected, and passes', () => {
  const mesh = box([0, 0, 0], [1, 2, 3]);
  // All of it twice as large.
  fault = (view) => {
    for (let t = 0; t < 12; t++)
      for (let k = 12; k < 48; k += 4)
        view.setFloat32(50 * t + k, 2 * view.getFloat32(50 * t + k, true), true);
  };
  expect(codeOf(() => writeCheckedStl(mesh))).toBe('written');
});

test('a mesh written to after it was inspected is not passed', () => {
  const mesh = box([0, 0, 0], [1, 2, 3]);
  inspectOnce(mesh);
  mesh.triangles.copyWithin(0, 3, 6);
  expect(codeOf(() => writeCheckedStl(mesh))).toBe('mesh-open');
});
