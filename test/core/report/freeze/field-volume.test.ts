import { describe, expect, test } from 'vitest';
import { type CastFields, leastShare } from '../../../../core/freeze/cast-fields.js';
import { freezePart } from '../../../../core/job/freeze-part.js';
import { type FieldVolume, fieldVolume } from '../../../../core/report/freeze/field-volume.js';
import { sampleMetal } from '../../../../core/report/freeze/sample-field.js';
import { hexColour, scaleColour } from '../../../../core/report/freeze/scale.js';
import { shownField } from '../../../../core/report/freeze/shown-field.js';
import { spreadKnown } from '../../../../core/report/freeze/spread-known.js';
import { formatSurface } from '../../../../core/report/freeze/surface-picture.js';
import { loadKernel } from '../../../../core/solid/kernel.js';
import type { Mesh, Vec3 } from '../../../../core/solid/types.js';
import { makeOne } from '../../../helpers/cast-input.js';
import { madeUpFields } from '../../../helpers/made-up-fields.js';

/** As a graphics card looks up a linear texture that is clamped at its edge: 0 to 255. */
function lookup({ min, size, counts, values }: FieldVolume, at: Vec3): number {
  const [nx, ny] = counts;
  const axes = at.map((v, k) => {
    const n = counts[k as 0]!;
    const t = ((v - min[k as 0]!) / size[k as 0]!) * n - 0.5;
    const low = Math.max(0, Math.min(n - 1, Math.floor(t)));
    return { low, high: Math.min(n - 1, low + 1), part: Math.max(0, Math.min(1, t - low)) };
  });
  let sum = 0;
  for (let corner = 0; corner < 8; corner++) {
    const bits = [corner & 1, (corner >> 1) & 1, corner >> 2];
    const index = axes.map((a, k) => (bits[k] ? a.high : a.low));
    const weight = axes.reduce((w, a, k) => w * (bits[k] ? a.part : 1 - a.part), 1);
    sum += weight * values[index[0]! + nx * (index[1]! + ny * index[2]!)]!;
  }
  return sum;
}

/** Middles of a mesh's triangles with their normals and areas. */
function* facesOf({ positions: p, triangles: t }: Mesh): Generator<readonly [Vec3, Vec3, number]> {
  const at = (v: number): Vec3 => [p[3 * v]!, p[3 * v + 1]!, p[3 * v + 2]!];
  for (let i = 0; i < t.length; i += 3) {
    const [a, b, c] = [at(t[i]!), at(t[i + 1]!), at(t[i + 2]!)];
    const [u, v] = [
      [b[0] - a[0], b[1] - a[1], b[2] - a[2]] as const,
      [c[0] - a[0], c[1] - a[1], c[2] - a[2]] as const,
    ];
    const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]] as const;
    const length = Math.hypot(...n);
    if (length === 0) continue;
    yield [
      [(a[0] + b[0] + c[0]) / 3, (a[1] + b[1] + c[1]) / 3, (a[2] + b[2] + c[2]) / 3],
      [n[0] / length, n[1] / length, n[2] / length],
      length / 2,
    ];
  }
}

const castings = [
  ['spur-gear', { teeth: 24, faceWidth: 16 }],
  ['hatch-pull', {}],
  ['horn-cleat', {}],
] as const;

describe.each(castings)('the picture in space of a %s', (part, parameters) => {
  test.each(['spent', 'solidAt'] as const)(
    '%s: says on the surface what the metal says there',
    async (field) => {
      const { made, told, pour, job } = await makeOne(part, parameters);
      const frozen = freezePart(made, told, pour, job)!;
      const { values, share, scale } = shownField(frozen.fields, frozen.plan, field);
      const volume = fieldVolume(frozen, field);
      expect(Math.max(...volume.counts)).toBeLessThanOrEqual(96);
      expect(volume.values.length).toBe(volume.counts[0] * volume.counts[1] * volume.counts[2]);

      const sampler = sampleMetal({ ...frozen.fields, share }, values);
      const about = metalAbout({ ...frozen.fields, share }, values);
      let [near, all] = [0, 0];
      const beyond: number[] = [];
      const under = frozen.plan.cell / 2;
      for (const [[x, y, z], [nx, ny, nz], area] of facesOf(made.meshes.gated)) {
        // Where the surface picture asks.
        const at: Vec3 = [x - under * nx, y - under * ny, z - under * nz];
        const value = sampler(...at);
        if (Number.isNaN(value)) continue;
        const found = lookup(volume, at);
        all += area;
        if (Math.abs(found - 255 * scale.at(value)) <= 3) near += area;
        const [a, b] = about(at).map((v) => 255 * scale.at(v)) as [number, number];
        beyond.push(Math.min(a, b) - found, found - Math.max(a, b));
      }
      expect(all).toBeGreaterThan(1000);
      // Within three steps of 255, but where it changes by much from cell to cell, as at the foot of a vent; there no more than
      // the cells about differ.
      expect(near / all).toBeGreaterThan(0.97);
      expect(beyond.reduce((most, v) => Math.max(most, v))).toBeLessThan(3);
    },
  );
});

/** The least and the greatest value of metal within two cells of a place. */
function metalAbout(
  { grid, share, present }: Pick<CastFields, 'grid' | 'share' | 'present'>,
  values: Float32Array,
) {
  const cellAt = (edges: Float64Array, v: number): number => {
    const i = edges.findIndex((e) => e > v);
    return i < 0 ? edges.length - 2 : Math.max(0, i - 1);
  };
  return (at: Vec3): readonly [number, number] => {
    const [i, j, k] = at.map((v, n) => cellAt(grid.edges[n as 0]!, v)) as [number, number, number];
    const [nx, ny, nz] = grid.counts;
    let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (let r = Math.max(0, k - 2); r <= Math.min(nz - 1, k + 2); r++)
      for (let q = Math.max(0, j - 2); q <= Math.min(ny - 1, j + 2); q++)
        for (let p = Math.max(0, i - 2); p <= Math.min(nx - 1, i + 2); p++) {
          const c = p + nx * (q + ny * r);
          if (share[c]! < leastShare || present[c] === 0) continue;
          least = Math.min(least, values[c]!);
          most = Math.max(most, values[c]!);
        }
    return [least, most];
  };
}

const kernel = await loadKernel();

describe('a volume of made-up fields', () => {
  const block = kernel.scope(() => kernel.box([-20, -10, 0], [20, 10, 30]).mesh());
  const fields = madeUpFields(
    block,
    2,
    ([, , z]) => 10 + 3 * z,
    ([x]) => (x + 20) / 40,
  );
  const plan = { cell: 2, fill: { marginLimit: 2 } } as unknown as Parameters<typeof fieldVolume>[0]['plan'];

  test('a flat field is itself in the metal, and goes on beyond it', () => {
    const volume = fieldVolume({ fields, plan }, 'spent');
    // Dark, 0, is metal that stops.
    for (const x of [-17, -9.3, 0, 4.4, 18])
      for (const z of [0, 12.3, 30])
        expect(Math.abs(lookup(volume, [x, 3, z]) - 255 * (1 - (x + 20) / 40))).toBeLessThan(3);
    expect(lookup(volume, [500, 0, 0])).toBeLessThan(20);
  });

  test('has the colours, words and figures of the picture’s legend', () => {
    const volume = fieldVolume({ fields, plan }, 'spent');
    const picture = formatSurface({
      gated: block,
      fields,
      plan: { ...plan, latePlaces: [], fill: { ...plan.fill, thinPlaces: [] } },
      axis: [0, 0],
    });
    expect(picture).toContain(volume.title);
    for (const { text } of volume.ticks) expect(picture).toContain(`>${text}</text>`);
    expect(volume.colours.length).toBe(3 * 256);
    for (const i of [0, 255]) {
      const colour = [...volume.colours.subarray(3 * i, 3 * i + 3)] as [number, number, number];
      expect(hexColour(colour)).toBe(hexColour(scaleColour(i / 255)));
      expect(picture).toContain(hexColour(colour));
    }
  });

  test('has no more samples than asked for', () => {
    expect(Math.max(...fieldVolume({ fields, plan }, 'solidAt', 12).counts)).toBe(12);
  });
});

describe('spreading what is known', () => {
  test('takes the nearest value, the mean where two are as near', () => {
    const values = Float32Array.from([2, Number.NaN, 4, Number.NaN, Number.NaN]);
    spreadKnown(values, [5, 1, 1]);
    expect([...values]).toEqual([2, 3, 4, 4, 4]);
  });

  test('does not run round the end of a row', () => {
    const values = Float32Array.from([Number.NaN, 1, Number.NaN, 7]);
    spreadKnown(values, [2, 2, 1]);
    expect([...values]).toEqual([1, 1, 7, 7]);
  });

  test('nothing known: 0', () => {
    const values = new Float32Array(8).fill(Number.NaN);
    spreadKnown(values, [2, 2, 2]);
    expect([...values]).toEqual(new Array(8).fill(0));
  });
});
