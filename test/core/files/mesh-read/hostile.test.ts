import fc from 'fast-check';
import { afterAll, describe, expect, test, vi } from 'vitest';

/** Bytes of typed arrays made since the last count; set up before anything that makes some is loaded. */
const made = vi.hoisted(() => {
  const count = { bytes: 0 };
  for (const name of [
    'Float64Array',
    'Float32Array',
    'Uint32Array',
    'Int32Array',
    'Uint16Array',
    'Uint8Array',
  ] as const) {
    const real: unknown = globalThis[name];
    const counted = new Proxy(real as new (...given: unknown[]) => ArrayBufferView, {
      construct(target, given, asked) {
        const array = Reflect.construct(target, given, asked) as ArrayBufferView;
        // A view of what is there takes nothing.
        if (!(given[0] instanceof ArrayBuffer)) count.bytes += array.byteLength;
        return array;
      },
    });
    Object.assign(globalThis, { [name]: counted });
  }
  return count;
});

import { FormatError } from '../../../../core/files/format-error.js';
import { meshLimits, readMeshFile } from '../../../../core/files/mesh-read/index.js';
import { hostileFiles, mutate, randomOf } from './hostile-files.js';
import { sampleMeshes, threeForms, unsoundness, utf8, writeByThree } from './samples.js';
import { modelOf, packageOf, tetrahedron } from './zips.js';

/** Words of libraries and of the language, which say nothing to a founder. */
const foreign =
  /undefined|\bnull\b|NaN\b(?! is)|\[object|Error|exception|saxes|fflate|three\.|\bjs:|RangeError|typed array|DataView|offset|out of bounds|invalid|unexpected|\bEOF\b|parse|token|buffer|stack|at line \d+:\d+/i;

/** The refusal's code, or 'read' for a sound mesh; everything else fails. */
function outcomeOf(bytes: Uint8Array, name: string): string {
  try {
    const file = readMeshFile(bytes, name);
    expect(unsoundness(file.mesh)).toBe('');
    return 'read';
  } catch (error) {
    if (!(error instanceof FormatError)) throw error;
    for (const sentence of [error.message, error.remedy]) {
      expect(sentence).toMatch(/^["A-Z][\s\S]*\.$/);
      expect(sentence.length).toBeLessThan(300);
      expect(sentence).not.toMatch(/\p{Cc}/u);
    }
    // What is quoted from the file is the file's.
    expect(`${error.message} ${error.remedy}`.replaceAll(/"[^"]*"|the coordinate \S+/g, '')).not.toMatch(
      foreign,
    );
    expect(error.cause).toBe(undefined);
    return error.code;
  }
}

const groups = hostileFiles();

test('there are more than 200 hostile files, no two alike', () => {
  const all = groups.flatMap(([, files]) => files);
  expect(all.length).toBeGreaterThanOrEqual(400);
  const seen = new Set(
    all.map(({ bytes, name }) => `${name} ${bytes.length} ${bytes.reduce((h, b) => (h * 31 + b) | 0, 7)}`),
  );
  expect(seen.size).toBeGreaterThan(0.95 * all.length);
});

const told = new Map<string, number>();
describe.each(groups)('%s', (_group, files) => {
  test.each(files.map((f) => [f.what, f] as const))('%s', (_what, { bytes, name, outcomes }) => {
    made.bytes = 0;
    const outcome = outcomeOf(bytes, name);
    // What a file claims takes no memory: what it holds does, and the pieces of 4 MB that a package unfolds to.
    expect(made.bytes).toBeLessThan(2 ** 20 + 40 * bytes.length + (name.endsWith('3mf') ? 48 * 2 ** 20 : 0));
    if (outcomes) expect(outcomes).toContain(outcome);
    told.set(outcome, (told.get(outcome) ?? 0) + 1);
  });
});
afterAll(() => {
  // Most are refused, and every reader has been through its refusals.
  expect(told.size).toBeGreaterThan(25);
});

describe('memory', () => {
  const taken = (bytes: Uint8Array, name: string): number => {
    made.bytes = 0;
    outcomeOf(bytes, name);
    return made.bytes;
  };

  test('ten million claimed triangles take nothing', () => {
    const stl = new Uint8Array(84);
    new DataView(stl.buffer).setUint32(80, 10_000_000, true);
    const ply =
      'ply\nformat binary_little_endian 1.0\nelement vertex 10000000\nproperty float x\nproperty float y\nproperty float z\n' +
      'element face 10000000\nproperty list uchar int vertex_indices\nend_header\n';
    for (const [bytes, name] of [
      [stl, 'a.stl'],
      [utf8(ply), 'a.ply'],
      [utf8(ply.replace('binary_little_endian', 'ascii')), 'a.ply'],
    ] as const)
      expect(taken(bytes, name)).toBeLessThan(20_000);
  });

  test('a package that would unfold to a thousand times its size takes nothing', () => {
    const large = packageOf(modelOf(`${`<object id="1">${tetrahedron}</object>`}${' '.repeat(30_000_000)}`));
    expect(large.length).toBeLessThan(50_000);
    expect(taken(large, 'a.3mf')).toBeLessThan(2 ** 20);
  });

  test.each(threeForms)('%s takes a small multiple of its size', (form) => {
    const bytes = writeByThree(sampleMeshes.bunny!, form);
    // Arrays as they grow, and once more whole: indices and doubles of 4 and 8 bytes for as few as 2 in the file.
    expect(taken(bytes, 'a')).toBeLessThan(12 * bytes.length);
  });
});

describe('limits', () => {
  const small = { ...meshLimits, fileBytes: 50_000_000, triangles: 990, vertices: 2000 };
  const codeOf = (bytes: Uint8Array, limits = small): string => {
    try {
      readMeshFile(bytes, 'a', limits);
    } catch (error) {
      if (error instanceof FormatError) return `${error.code}: ${error.message}`;
      throw error;
    }
    return 'read';
  };

  test('a file beyond the limit is refused before it is looked at', () => {
    made.bytes = 0;
    const file = new Uint8Array(meshLimits.fileBytes + 1);
    made.bytes = 0;
    expect(codeOf(file, meshLimits)).toBe('file-large: The file has 513 MiB; at most 512 are read.');
    expect(made.bytes).toBe(0);
  });

  test('triangles and vertices are counted as they come, in every format', () => {
    // 992 triangles.
    for (const form of threeForms) {
      const bytes = writeByThree(sampleMeshes.teapot!, form);
      expect(codeOf(bytes)).toMatch(
        /^mesh-large: The file has 99[12] triangles or more; at most 990 are read\.$/,
      );
      expect(codeOf(bytes, { ...small, triangles: 992 })).toBe('read');
    }
    for (const form of ['obj', 'ply text', 'ply little'] as const)
      expect(codeOf(writeByThree(sampleMeshes.teapot!, form), { ...small, vertices: 100 })).toMatch(
        /^mesh-large: .*vertices/,
      );
    const package3mf = packageOf(modelOf());
    expect(codeOf(package3mf, { ...small, triangles: 3 })).toMatch(/^mesh-large: The file has 4 triangles/);
    expect(codeOf(package3mf, { ...small, vertices: 3 })).toMatch(/^mesh-large: The file has 4 vertices/);
    expect(codeOf(package3mf, { ...small, unfoldedBytes: 600 })).toMatch(
      /^zip-size: .*would unfold to 0 MiB/,
    );
    const face = utf8(`v 0 0 0\nv 1 0 0\nv 0 1 0\nf ${'1 2 3 '.repeat(400)}`);
    expect(codeOf(face)).toMatch(/^mesh-large: /);
  });
});

describe('arbitrary bytes are read, or refused in words', () => {
  const extension = fc.constantFrom('a.stl', 'a.3mf', 'a.obj', 'a.ply', 'a');

  test('of any kind (seed 41)', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 600 }), extension, (bytes, name) => {
        expect(outcomeOf(bytes, name)).not.toBe('');
      }),
      { seed: 41, numRuns: 3000 },
    );
  });

  test('of letters that the formats use (seed 42)', () => {
    const words =
      'solid facet normal outer loop vertex endloop endfacet endsolid ply format ascii 1.0 element face property list ' +
      'float uchar int x y z vertex_indices end_header v f # 0 1 2 3 -1 1e9 nan 1/2 \\ binary_little_endian < > \0 \ufeff';
    const word = fc.constantFrom(...words.split(' '), '\n', '\n', '\r\n', ' ');
    fc.assert(
      fc.property(
        fc.array(word, { maxLength: 60 }),
        fc.constantFrom('solid a\n', 'ply\n', 'v 0 0 0\n', ''),
        extension,
        (body, start, name) => {
          expect(outcomeOf(utf8(start + body.join(' ')), name)).not.toBe('');
        },
      ),
      { seed: 42, numRuns: 3000 },
    );
  });

  test('of models in a package (seed 43)', () => {
    const piece = fc.constantFrom(
      '<object id="1">',
      '<object id="2">',
      '</object>',
      '<mesh>',
      '</mesh>',
      '<vertices>',
      '</vertices>',
      '<vertex x="1" y="2" z="3"/>',
      '<triangles>',
      '</triangles>',
      '<triangle v1="0" v2="0" v3="0"/>',
      '<components>',
      '</components>',
      '<component objectid="1"/>',
      '<component objectid="2" transform="1 0 0 0 1 0 0 0 1 0 0 0"/>',
      '<item objectid="1"/>',
      '<a/>',
      '&amp;',
      ' ',
      tetrahedron,
    );
    fc.assert(
      fc.property(
        fc.array(piece, { maxLength: 14 }),
        fc.array(piece, { maxLength: 3 }),
        (resources, items) => {
          expect(outcomeOf(packageOf(modelOf(resources.join(''), items.join(''))), 'a.3mf')).not.toBe('');
        },
      ),
      { seed: 43, numRuns: 1000 },
    );
  });

  test('of whole files changed at random (seed 44)', () => {
    const bases = [
      ...threeForms.map((form) =>
        writeByThree(
          {
            positions: Float32Array.of(0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0, 1),
            triangles: Uint32Array.of(0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 3),
          },
          form,
        ),
      ),
      packageOf(modelOf()),
    ];
    fc.assert(
      fc.property(fc.constantFrom(...bases), fc.integer(), extension, (whole, seed, name) => {
        expect(outcomeOf(mutate(whole, randomOf(seed)), name)).not.toBe('');
      }),
      { seed: 44, numRuns: 3000 },
    );
  });
});
