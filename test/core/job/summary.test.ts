import { beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { type BuildResult, definePart, length, make, type PartDefinition } from '../../../cli/api.js';
import type { PartSummary } from '../../../core/job/summary.js';
import { topologyOf, volumeOf } from '../../helpers/welded-mesh.js';
import { states, stlMesh, type WrittenJob, written } from '../../helpers/written-job.js';

/** Parts of an outside user, made through the programmatic face, whose masses have a closed form. */

const mm = (fallback: number) =>
  length({ min: 0.5, max: 200, default: fallback, help: 'Size', group: 'Size' });

const cylinder = definePart({
  name: 'closed-form-cylinder',
  summary: 'Plain cylinder',
  parameters: z.object({ diameter: mm(40), height: mm(20) }),
  build(p, stock, { kernel, tolerance }): BuildResult {
    const [r, z0, z1] = [p.diameter / 2 + stock.skin, -stock.face, p.height + stock.face];
    return {
      solid: kernel.frustum([0, 0], z0, r, z1, r, tolerance),
      surfaces: [],
      dimensions: [],
      gates: [{ name: 'top', at: [0, 0, z1], innerDiameter: 0, outerDiameter: r }],
      vents: [],
      findings: [],
    };
  },
});

const tube = definePart({
  name: 'closed-form-tube',
  summary: 'Plain tube',
  parameters: z.object({ diameter: mm(50), bore: mm(20), height: mm(15) }),
  build(p, stock, { kernel, tolerance }): BuildResult {
    const [r, i] = [p.diameter / 2 + stock.skin, p.bore / 2 - stock.bore];
    const [z0, z1] = [-stock.face, p.height + stock.face];
    return {
      solid: kernel
        .frustum([0, 0], z0, r, z1, r, tolerance)
        .subtract(kernel.frustum([0, 0], z0 - 1, i, z1 + 1, i, tolerance)),
      surfaces: [],
      dimensions: [],
      gates: [{ name: 'top', at: [0, 0, z1], innerDiameter: 2 * i, outerDiameter: 2 * i + 1.2 * (r - i) }],
      vents: [],
      findings: [],
    };
  },
});

/** A leaf along X with a knuckle about the axis (y, z = R) at its end, bored for the pin, and a countersunk hole. */
const hinge = definePart({
  name: 'closed-form-hinge',
  summary: 'Hinge leaf with one knuckle and one countersunk hole',
  parameters: z.object({
    length: mm(45),
    width: mm(30),
    thickness: mm(4),
    knuckle: mm(14),
    pin: mm(5),
    screw: mm(5),
  }),
  build(p, stock, { kernel, tolerance }): BuildResult {
    const s = stock.skin;
    const axis = p.knuckle / 2;
    const [y0, y1] = [-p.width / 2 - stock.mating, p.width / 2 + stock.mating];
    const round = (radius: number, from: number, to: number) =>
      kernel
        .frustum([0, 0], from, radius, to, radius, tolerance)
        .rotate('x', -Math.PI / 2)
        .translate([0, 0, axis]);
    const [bottom, top] = [-s, p.thickness + s];
    const hole = p.screw / 2 - stock.bore;
    // 90° countersink, half the leaf deep from its top.
    const sink = top - p.thickness / 2;
    return {
      solid: kernel
        .box([0, y0, bottom], [p.length + s, y1, top])
        .add(round(axis + s, y0, y1))
        .subtract(
          round(p.pin / 2 - stock.bore, y0 - 1, y1 + 1),
          kernel.frustum([30, 8], bottom - 1, hole, top + 1, hole, tolerance),
          kernel.frustum([30, 8], sink, hole, top + 1, hole + top + 1 - sink, tolerance),
        ),
      surfaces: [],
      dimensions: [],
      gates: [{ name: 'leaf', at: [30, -5, top], innerDiameter: 0, outerDiameter: 9 }],
      vents: [{ name: 'leaf end', at: [40, -10, top], footDiameter: 5 }],
      findings: [],
    };
  },
});

/** A finished size and its stock by class, and the growth that the job sets. */
interface Case {
  readonly part: PartDefinition;
  readonly alloy: string;
  /** g/cm³ from the source beside it. */
  readonly density: number;
  readonly growth: number;
  /** mm³ and, for the facets, the curved area over which they may be off by two thirds of the tolerance, mm². */
  readonly exact: (stock: Record<'face' | 'bore' | 'skin' | 'mating', number>) => readonly [number, number];
  readonly genus: number;
}

const stock = { flank: 0, tip: 0, face: 0.7, bore: 0.4, skin: 0.3, mating: 0.5 } as const;
const none = { face: 0, bore: 0, skin: 0, mating: 0 };
const tolerance = 0.001;

const cases: readonly Case[] = [
  {
    part: cylinder,
    alloy: 'tin-bronze',
    density: 8.72, // C90500, Copper Development Association property sheet
    growth: 1.0157,
    exact: (s) => {
      const [r, h] = [20 + s.skin, 20 + 2 * s.face];
      return [Math.PI * r * r * h, 2 * Math.PI * r * h];
    },
    genus: 0,
  },
  {
    part: tube,
    alloy: 'a356',
    density: 2.685, // A356.0, alloy data sheet
    growth: 1.013,
    exact: (s) => {
      const [r, i, h] = [25 + s.skin, 10 - s.bore, 15 + 2 * s.face];
      return [Math.PI * (r * r - i * i) * h, 2 * Math.PI * (r + i) * h];
    },
    genus: 1,
  },
  {
    part: hinge,
    alloy: 'yellow-brass',
    density: 8.41, // C85700, Copper Development Association property sheet
    growth: 1.0182,
    exact: (s) => {
      const [r, w, t] = [7 + s.skin, 30 + 2 * s.mating, 4 + 2 * s.skin];
      const [pin, hole] = [2.5 - s.bore, 2.5 - s.bore];
      // The leaf's end inside the knuckle: half of the disc's segment of height t.
      const segment = (r * r * Math.acos((r - t) / r) - (r - t) * Math.sqrt(2 * r * t - t * t)) / 2;
      const section = (45 + s.skin) * t + Math.PI * r * r - segment - Math.PI * pin * pin;
      const deep = 2;
      const wide = hole + deep;
      const sink = (Math.PI * deep * (hole * hole + hole * wide + wide * wide)) / 3;
      const screw = Math.PI * hole * hole * (t - deep) + sink;
      return [section * w - screw, 2 * Math.PI * ((r + pin) * w + wide * t)];
    },
    genus: 2,
  },
];

describe.each(cases.map((c) => [c.part.name, c] as const))('%s', (_, c) => {
  let job: WrittenJob;
  let part: PartSummary;
  beforeAll(async () => {
    const { alloy, growth } = c;
    job = written(await make(c.part, {}, { alloy, growth, stock, tolerance, name: 'piece' }));
    part = job.summary.parts[0] as PartSummary;
  });

  it('part, casting and pattern have the volume and mass of their closed forms', () => {
    expect(part.stock.stock).toEqual(stock);
    const worst: number[] = [];
    for (const [state, s, growth] of [
      ['part', none, 1],
      ['casting', stock, 1],
      ['pattern', stock, c.growth],
    ] as const) {
      const [volume, curved] = c.exact(s);
      const exact = volume * growth ** 3;
      // Chords of sagitta s take two thirds of s off a curved area on the average; float32 a little more.
      const allowed = (2 / 3) * tolerance * curved * growth ** 3 + 1e-6 * exact;
      expect(Math.abs(part.volume[state] - exact)).toBeLessThan(allowed);
      worst.push(part.volume[state] / exact - 1);
      if (state === 'pattern') continue;
      const grams = (exact * c.density) / 1000;
      expect(Math.abs(part.mass[state] / grams - 1)).toBeLessThan(allowed / exact);
    }
    // The facets are too small to hide a wrong stock: a few µm of it would show.
    for (const deviation of worst) expect(Math.abs(deviation)).toBeLessThan(2e-4);
    if (process.env.PATTERNWRIGHT_FIGURES) console.log(c.part.name, worst);
  });

  it('charge is the gated mesh without its growth, and the casting is in it', () => {
    const gated = volumeOf(stlMesh(job, part, 'gated'));
    const charge = ((gated / c.growth ** 3) * c.density) / 1000;
    expect(Math.abs(part.mass.charge / charge - 1)).toBeLessThan(1e-9);
    expect(part.mass.casting + part.mass.gating).toBeCloseTo(part.mass.charge, 9);
    expect(part.mass.gating).toBeGreaterThan(0);
    expect(job.summary.charge[0]?.inMoulds).toBeCloseTo(part.mass.charge, 9);
  });

  it('its files are closed solids', () => {
    for (const state of states) {
      const { unmatchedEdges, collapsed, pinched, components, genus } = topologyOf(stlMesh(job, part, state));
      expect([unmatchedEdges, collapsed, pinched, components]).toEqual([0, 0, 0, 1]);
      // The sprue's foot may close the mouth of the tube.
      expect(state === 'gated' && c.part === cases[1]?.part ? c.genus - 1 : c.genus).toBe(genus);
    }
  });
});

it('stock, growth and quantity of a request reach the summary', async () => {
  const made = written(
    await make(
      'spur-gear',
      { module: 2, teeth: 24 },
      { growth: 1.02, quantity: 3, stock: { face: '1/32in' } },
    ),
  );
  const part = made.summary.parts[0] as PartSummary;
  expect(part.quantity).toBe(3);
  expect(part.growth.value).toBe(1.02);
  expect(part.stock.stock.face).toBeCloseTo(25.4 / 32, 12);
  const width = part.dimensions.find((d) => d.symbol === 'b');
  expect([width?.part, width?.casting, width?.pattern].map((x) => (x as number).toFixed(9))).toEqual(
    [20, 20 + 25.4 / 16, (20 + 25.4 / 16) * 1.02].map((x) => x.toFixed(9)),
  );
});
