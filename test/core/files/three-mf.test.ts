import fc from 'fast-check';
import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { unzipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { type ThreeMfObject, write3mf } from '../../../core/files/index.js';
import { formatFloat32 } from '../../../core/files/three-mf.js';
import { box, openEdges, torus } from './shapes.js';

interface Read {
  unit: string;
  meta: Map<string, string>;
  objects: { id: string; name: string; positions: Float32Array; triangles: Uint32Array }[];
  items: { object: string; matrix: number[] }[];
  parts: string[];
}

/** An independent reader that follows the package from its relationships and checks the core rules on the way. */
function read3mf(bytes: Uint8Array): Read {
  const parts = unzipSync(bytes);
  const text = (name: string): string => {
    const part = parts[name];
    if (part === undefined) throw new Error(`no part ${name}`);
    return new TextDecoder('utf-8', { fatal: true }).decode(part);
  };
  const parser = new XMLParser({
    ignoreAttributes: false,
    attributeNamePrefix: '',
    parseAttributeValue: false,
    parseTagValue: false,
    isArray: (tag) =>
      ['object', 'item', 'vertex', 'triangle', 'metadata', 'Default', 'Relationship'].includes(tag),
  });
  const parse = (name: string) => {
    expect(XMLValidator.validate(text(name))).toBe(true);
    return parser.parse(text(name));
  };
  const types = parse('[Content_Types].xml').Types.Default as { Extension: string; ContentType: string }[];
  expect(types.find((t) => t.Extension === 'rels')?.ContentType).toBe(
    'application/vnd.openxmlformats-package.relationships+xml',
  );
  expect(types.find((t) => t.Extension === 'model')?.ContentType).toBe(
    'application/vnd.ms-package.3dmanufacturing-3dmodel+xml',
  );
  const relations = parse('_rels/.rels').Relationships.Relationship as { Type: string; Target: string }[];
  const start = relations.filter(
    (r) => r.Type === 'http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel',
  );
  expect(start.length).toBe(1);
  const { model } = parse(start[0]!.Target.slice(1));
  expect(model.xmlns).toBe('http://schemas.microsoft.com/3dmanufacturing/core/2015/02');
  const objects = (model.resources.object as Record<string, unknown>[]).map((o) => {
    const { vertices, triangles } = o.mesh as {
      vertices: { vertex: Record<'x' | 'y' | 'z', string>[] };
      triangles: { triangle: Record<'v1' | 'v2' | 'v3', string>[] };
    };
    expect(o.type).toBe('model');
    return {
      id: String(o.id),
      name: String(o.name),
      positions: Float32Array.from(vertices.vertex.flatMap((v) => [v.x, v.y, v.z].map(Number))),
      triangles: Uint32Array.from(triangles.triangle.flatMap((t) => [t.v1, t.v2, t.v3].map(Number))),
    };
  });
  return {
    unit: model.unit,
    meta: new Map((model.metadata ?? []).map((m: { name: string; '#text': string }) => [m.name, m['#text']])),
    objects,
    items: ((model.build.item ?? []) as { objectid: string; transform: string }[]).map((i) => ({
      object: i.objectid,
      matrix: i.transform.split(' ').map(Number),
    })),
    parts: Object.keys(parts),
  };
}

function checkRules(read: Read): void {
  expect(read.unit).toBe('millimeter');
  expect(new Set(read.objects.map((o) => o.id)).size).toBe(read.objects.length);
  for (const o of read.objects) {
    // Resource ids are from 1 to 2³¹ − 1.
    expect(Number.isInteger(Number(o.id)) && Number(o.id) > 0 && Number(o.id) < 2 ** 31).toBe(true);
    const vertices = o.positions.length / 3;
    const edges = new Map<string, number>();
    for (let i = 0; i < o.triangles.length; i += 3) {
      const t = [...o.triangles.subarray(i, i + 3)];
      expect(new Set(t).size).toBe(3);
      for (let k = 0; k < 3; k++) {
        expect(t[k]!).toBeLessThan(vertices);
        const edge = `${t[k]} ${t[(k + 1) % 3]}`;
        edges.set(edge, (edges.get(edge) ?? 0) + 1);
      }
    }
    // Manifold by index, as the specification asks: each edge once in each direction.
    for (const [edge, n] of edges) {
      expect(n).toBe(1);
      expect(edges.get(edge.split(' ').reverse().join(' '))).toBe(1);
    }
  }
  for (const item of read.items) {
    expect(read.objects.some((o) => o.id === item.object)).toBe(true);
    expect(item.matrix.length).toBe(12);
    expect(item.matrix.every(Number.isFinite)).toBe(true);
    const [a, b, c, d, e, f, g, h, i] = item.matrix as [
      number,
      number,
      number,
      number,
      number,
      number,
      number,
      number,
      number,
    ];
    expect(a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g)).toBeCloseTo(1, 12);
  }
}

describe('write3mf', () => {
  const ring = torus(20.2, 5.1, 24, 12);
  const block = box([-3, -4, -0.25], [5, 6, 7]);
  const objects: ThreeMfObject[] = [
    {
      name: 'rope-gear 40 <A> & "B"',
      mesh: ring,
      placements: [
        { x: 30.5, y: 40.25, z: 0, turn: 0 },
        { x: 90, y: 41, z: 0, turn: Math.PI / 2 },
      ],
    },
    { name: 'Hebel für Luke 2 🙂', mesh: block },
  ];
  const bytes = write3mf(objects, { title: 'Plate 1', application: 'Patternwright' });

  test('an independent reader finds the unit, the names, the meshes bit by bit and the placements', () => {
    const read = read3mf(bytes);
    checkRules(read);
    expect(read.parts).toEqual(['[Content_Types].xml', '_rels/.rels', '3D/3dmodel.model']);
    expect([...read.meta]).toEqual([
      ['Title', 'Plate 1'],
      ['Application', 'Patternwright'],
    ]);
    const plain = (s: string): string => s.replace(/&(amp|lt|gt|quot|apos);/g, (_, e: string) => entity[e]!);
    const entity: Record<string, string> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };
    expect(read.objects.map((o) => plain(o.name))).toEqual(objects.map((o) => o.name));
    expect(read.objects[0]!.positions).toEqual(ring.positions.map((v) => v + 0));
    expect(read.objects[0]!.triangles).toEqual(ring.triangles);
    expect(openEdges(read.objects[1]!)).toBe(0);
    expect(read.items).toEqual([
      { object: '1', matrix: [1, 0, 0, 0, 1, 0, 0, 0, 1, 30.5, 40.25, 0] },
      { object: '1', matrix: [0, 1, 0, -1, 0, 0, 0, 0, 1, 90, 41, 0] },
      { object: '2', matrix: [1, 0, 0, 0, 1, 0, 0, 0, 1, 3, 4, 0.25] },
    ]);
  });

  test('a quarter turn takes +X to +Y by the row-vector rule', () => {
    const m = read3mf(bytes).items[1]!.matrix;
    const [x, y] = [1, 0].map((_, k) => 1 * m[k]! + 0 * m[3 + k]! + m[9 + k]!);
    expect([x, y]).toEqual([90, 42]);
  });

  test('the same input gives the same bytes', () => {
    expect(write3mf(objects, { title: 'Plate 1', application: 'Patternwright' })).toEqual(bytes);
  });

  test('unwelded triangles become a mesh that is manifold by its indices', () => {
    const soup = {
      positions: Float32Array.from(
        [...block.triangles].flatMap((v) => [...block.positions.subarray(3 * v, 3 * v + 3)]),
      ),
      triangles: Uint32Array.from({ length: block.triangles.length }, (_, i) => i),
    };
    const read = read3mf(write3mf([{ name: 'soup', mesh: soup }]));
    checkRules(read);
    expect(read.objects[0]!.positions.length).toBe(8 * 3);
  });

  test('any name and any float32 comes through (seed 21)', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 30 }), (name) => {
        const read = read3mf(write3mf([{ name, mesh: block }]));
        expect(read.objects.length).toBe(1);
      }),
      { seed: 21, numRuns: 60 },
    );
    fc.assert(
      fc.property(fc.float({ noNaN: true, noDefaultInfinity: true }), (value) => {
        const text = formatFloat32(value);
        expect(text).toMatch(/^-?(\d+(\.\d+)?|\.\d+)([eE][-+]?\d+)?$/);
        expect(Math.fround(Number(text)) + 0).toBe(value + 0);
      }),
      { seed: 22, numRuns: 2000 },
    );
  });

  test('refuses nothing to write and placements that are no place', () => {
    expect(() => write3mf([])).toThrow(/no object/);
    expect(() =>
      write3mf([{ name: 'pull', mesh: block, placements: [{ x: Number.NaN, y: 0, z: 0, turn: 0 }] }]),
    ).toThrow(/placement of pull is not finite/);
    expect(() => write3mf([{ name: 'pull', mesh: { ...block, triangles: new Uint32Array() } }])).toThrow(
      /no triangles/,
    );
  });
});
