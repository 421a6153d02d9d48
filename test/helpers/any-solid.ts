import fc from 'fast-check';
import { writeStl } from '../../core/files/stl.js';
import { write3mf } from '../../core/files/three-mf.js';
import type { Kernel, Mesh, Solid, Vec3 } from '../../core/solid/types.js';

/** Random bodies from the kernel, joined, cut and turned, and the files they may come in. */

const fraction = fc.integer({ min: 0, max: 1000 }).map((n) => n / 1000);
const between = (min: number, max: number) => fraction.map((f) => min + (max - min) * f);

const kinds = ['box', 'cylinder', 'ball', 'cone', 'loft'] as const;

const anyTurn = fc.oneof(
  { weight: 3, arbitrary: fc.constant<Vec3>([0, 0, 0]) },
  { weight: 1, arbitrary: fc.constantFrom<Vec3>([Math.PI / 2, 0, 0], [0, Math.PI / 2, 0]) },
  { weight: 2, arbitrary: fc.tuple(between(-3, 3), between(-3, 3), between(-3, 3)) },
);

const anyBody = fc.record({
  kind: fc.constantFrom(...kinds),
  /** Half sides, of the whole. */
  size: fc.tuple(between(0.12, 0.5), between(0.12, 0.5), between(0.12, 0.5)),
  at: fc.tuple(between(-0.4, 0.4), between(-0.4, 0.4), between(-0.4, 0.4)),
  turn: anyTurn,
});

/** Round holes through all of it, along an axis. */
const anyBore = fc.record({
  radius: between(0.03, 0.12),
  at: fc.tuple(between(-0.3, 0.3), between(-0.3, 0.3)),
  along: fc.constantFrom('x', 'y', 'z'),
});

export const anySolid = fc.record({
  bodies: fc.array(anyBody, { minLength: 1, maxLength: 3 }),
  bores: fc.array(anyBore, { maxLength: 2 }),
  turn: anyTurn,
  /** Longest side, mm. */
  longest: fc.oneof(between(10, 60), between(60, 200)),
  /** Chord error as part of the longest side. */
  chord: fc.constantFrom(0.001, 0.004),
});

export type AnySolid = typeof anySolid extends fc.Arbitrary<infer T> ? T : never;

const turned = (solid: Solid, [x, y, z]: Vec3): Solid => {
  let s = solid;
  if (x !== 0) s = s.rotate('x', x);
  if (y !== 0) s = s.rotate('y', y);
  return z === 0 ? s : s.rotate('z', z);
};

function bodyOf(kernel: Kernel, { kind, size, at, turn }: AnySolid['bodies'][number], chord: number): Solid {
  const [a, b, c] = size;
  const make = (): Solid => {
    if (kind === 'box') return kernel.box([-a, -b, -c], [a, b, c]);
    if (kind === 'cylinder') return kernel.frustum([0, 0], -c, a, c, a, chord);
    if (kind === 'ball') return kernel.sphere([0, 0, 0], a, chord);
    if (kind === 'cone') return kernel.frustum([0, 0], -c, a, c, 0.5 * b, chord);
    const section = (z: number, r: number, s: number) => ({
      points: Array.from({ length: 12 }, (_, i): Vec3 => {
        const angle = (Math.PI * i) / 6;
        return [r * Math.cos(angle), s * Math.sin(angle), z];
      }),
    });
    return kernel.loft([section(-c, a, b), section(0, b, b), section(c, 0.6 * b, a)]);
  };
  return turned(make(), turn).translate(at);
}

/** One body of it, the largest, its longest side as asked, mm; null where nothing is left. */
export function meshOfAny(kernel: Kernel, { bodies, bores, turn, longest, chord }: AnySolid): Mesh | null {
  return kernel.scope(() => {
    let solid = kernel.union(bodies.map((body) => bodyOf(kernel, body, chord)));
    for (const { radius, at, along } of bores) {
      let bore = kernel.frustum(at, -3, radius, 3, radius, chord);
      if (along === 'x') bore = bore.rotate('y', Math.PI / 2);
      if (along === 'y') bore = bore.rotate('x', Math.PI / 2);
      const touched = solid.intersect(bore);
      if (touched.isEmpty() || touched.volume() > 0.5 * solid.volume()) continue;
      solid = solid.subtract(bore);
    }
    const [largest] = turned(solid, turn).components();
    if (largest === undefined) return null;
    const { min, max } = largest.bounds();
    return largest.scale(longest / Math.max(...max.map((v, k) => v - min[k]!))).mesh();
  });
}

export const formats = ['stl', 'text.stl', 'obj', 'ply', '3mf'] as const;

/** mm in one. */
export const fileUnits = { mm: 1, cm: 10, m: 1000, in: 25.4, ft: 304.8 } as const;

/** The file of a mesh; in 3MF always mm, which it says itself. */
export function fileOf(
  mesh: Mesh,
  format: (typeof formats)[number],
  unit: keyof typeof fileUnits,
): Uint8Array {
  if (format === '3mf') return write3mf([{ name: 'any', mesh, placements: [{ x: 0, y: 0, z: 0, turn: 0 }] }]);
  const positions = mesh.positions.map((v) => v / fileUnits[unit]);
  const { triangles } = mesh;
  if (format === 'stl') return writeStl({ positions, triangles });
  const corner = (v: number): string => [0, 1, 2].map((k) => positions[3 * v + k]!.toPrecision(9)).join(' ');
  const corners = Array.from({ length: positions.length / 3 }, (_, v) => corner(v));
  const faces = Array.from({ length: triangles.length / 3 }, (_, f) => triangles.subarray(3 * f, 3 * f + 3));
  const lines = {
    'text.stl': () => [
      'solid any',
      ...faces.flatMap((face) => [
        'facet normal 0 0 0',
        'outer loop',
        ...Array.from(face, (v) => `vertex ${corners[v]}`),
        'endloop',
        'endfacet',
      ]),
      'endsolid any',
    ],
    obj: () => [
      ...corners.map((c) => `v ${c}`),
      ...faces.map((face) => `f ${Array.from(face, (v) => v + 1).join(' ')}`),
    ],
    ply: () => [
      'ply',
      'format ascii 1.0',
      `element vertex ${corners.length}`,
      ...['x', 'y', 'z'].map((axis) => `property float ${axis}`),
      `element face ${faces.length}`,
      'property list uchar int vertex_indices',
      'end_header',
      ...corners,
      ...faces.map((face) => `3 ${face.join(' ')}`),
    ],
  }[format]();
  return new TextEncoder().encode(`${lines.join('\n')}\n`);
}
