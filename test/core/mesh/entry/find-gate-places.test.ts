import { beforeAll, describe, expect, it } from 'vitest';
import { deepest, findGatePlaces, measureSections } from '../../../../core/mesh/entry/index.js';
import type { GatePlace } from '../../../../core/part/contract.js';
import { loadKernel } from '../../../../core/solid/index.js';
import type { Kernel, Mesh, Solid } from '../../../../core/solid/types.js';
import { pierce } from '../../foundry/gating/mesh-facts.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const meshOf = (make: () => Solid): Mesh => kernel.scope(() => make().mesh());
const box = (x: number, y: number, z: number): Mesh => meshOf(() => kernel.box([0, 0, 0], [x, y, z]));

/** Balls of radius 10 at x = −30 and 14 at x = 30 on a bar, their middles at z = 20. */
const dumbBell = (): Mesh =>
  meshOf(() =>
    kernel.union([
      kernel.sphere([-30, 0, 20], 10, 0.05),
      kernel.sphere([30, 0, 20], 14, 0.05),
      kernel.box([-30, -4, 16], [30, 4, 24]),
    ]),
  );

/** 1 for each triangle all of whose corners meet a condition. */
const marked = (
  { positions: p, triangles: t }: Mesh,
  is: (x: number, y: number, z: number) => boolean,
): Uint8Array =>
  Uint8Array.from({ length: t.length / 3 }, (_, f) =>
    [0, 1, 2].every((k) =>
      is(...([0, 1, 2].map((c) => p[3 * t[3 * f + k]! + c]!) as [number, number, number])),
    )
      ? 1
      : 0,
  );

const placesOf = (found: ReturnType<typeof findGatePlaces>): readonly GatePlace[] => {
  if (!found.ok) throw new Error(found.refusal.message);
  return found.places;
};

/** What a gate place promises, measured by uprights on the mesh: nothing over it, metal under its sunk foot. */
const expectKept = (mesh: Mesh, { at, outerDiameter, seat = 0 }: GatePlace): void => {
  for (const share of [0, 0.35, 0.7, 0.99])
    for (let turn = 0.1; turn < 6.3; turn += 0.37) {
      const r = (share * outerDiameter) / 2;
      const [top, under] = pierce(mesh, at[0] + r * Math.cos(turn), at[1] + r * Math.sin(turn));
      expect(top!.z).toBeLessThanOrEqual(at[2] + 1e-3);
      expect(top!.z).toBeGreaterThanOrEqual(at[2] - seat - 0.01);
      expect(under!.z).toBeLessThan(at[2] - seat - 0.4);
    }
};

describe('how deep the metal lies', () => {
  it('in a ball, a plate and a bar: the radius, half the thickness', () => {
    for (const [mesh, depth] of [
      [meshOf(() => kernel.sphere([3, 4, 5], 12, 0.02)), 12],
      [box(90, 60, 4), 2],
      [box(120, 8, 8), 4],
    ] as const) {
      const field = measureSections(mesh);
      expect(Math.abs(deepest(field).depth - depth)).toBeLessThan(0.6 * field.size);
      expect(field.size).toBeLessThan(0.45 * depth);
    }
  });
});

describe('where metal enters', () => {
  it('over the larger of two balls; the smaller is a further place, and both keep their word', () => {
    const mesh = dumbBell();
    const found = findGatePlaces(mesh, { count: 3 });
    const places = placesOf(found);
    expect(places[0]!.name).toBe('the heaviest section');
    expect(places[0]!.further).toBeUndefined();
    for (const [k, v] of [30, 0, 34].entries()) expect(Math.abs(places[0]!.at[k]! - v)).toBeLessThan(0.3);
    expect(Math.abs(places[1]!.at[0] + 30)).toBeLessThan(0.3);
    expect(places[1]!.further).toBe(true);
    if (found.ok) expect(Math.abs(found.heaviest.diameter - 28)).toBeLessThan(1.5);
    // How a ball falls away within the circle, and little more.
    const { outerDiameter, seat = 0 } = places[0]!;
    const exact = 14 - Math.sqrt(14 ** 2 - (outerDiameter / 2) ** 2);
    expect(seat).toBeGreaterThan(exact - 0.1);
    expect(seat).toBeLessThan(exact + 0.8);
    for (const place of places) expectKept(mesh, place);
  });

  it('in the middle of a plate, flat and without a seat', () => {
    const mesh = box(80, 50, 8);
    const [first] = placesOf(findGatePlaces(mesh));
    expect(first!.seat).toBeUndefined();
    expect(first!.at[2]).toBe(8);
    expect(Math.hypot(first!.at[0] - 40, first!.at[1] - 25)).toBeLessThan(4);
    expectKept(mesh, first!);
  });

  it('over the boss of a lever, not on its thin arm, and not under what overhangs', () => {
    const lever = meshOf(() =>
      kernel.union([kernel.box([0, -5, 0], [70, 5, 5]), kernel.frustum([70, 0], 0, 12, 22, 12, 0.05)]),
    );
    const [first, ...more] = placesOf(findGatePlaces(lever));
    expect(Math.hypot(first!.at[0] - 70, first!.at[1])).toBeLessThan(2);
    for (const place of [first!, ...more]) expectKept(lever, place);
    // A shelf over the boss: the sprue must come down beside it.
    const roofed = meshOf(() =>
      kernel.union([
        kernel.box([-40, -10, 0], [40, 10, 20]),
        kernel.box([20, -10, 0], [40, 10, 60]),
        kernel.box([-10, -10, 54], [40, 10, 60]),
      ]),
    );
    const under = findGatePlaces(roofed, { wanted: { at: [5, 0, 20] } });
    expect(under.ok).toBe(false);
    if (!under.ok) {
      expect(under.refusal.message).toContain('the part reaches up to z = 60.0 mm over it');
      expectKept(roofed, under.nearest!);
    }
  });

  it('is the same for the same mesh', () => {
    expect(findGatePlaces(dumbBell())).toEqual(findGatePlaces(dumbBell()));
  });
});

describe('marked faces', () => {
  it('are kept clear of, the whole foot of it', () => {
    const mesh = meshOf(() =>
      kernel.union([kernel.box([0, 0, 0], [80, 40, 20]), kernel.box([50, 0, 19], [80, 40, 24])]),
    );
    const avoid = marked(mesh, (_, __, z) => z === 24);
    for (const place of placesOf(findGatePlaces(mesh, { avoid }))) {
      expect(place.at[2]).toBeLessThan(21);
      expect(place.at[0] + place.outerDiameter / 2).toBeLessThanOrEqual(50 + 1e-6);
      expectKept(mesh, place);
    }
    const over = placesOf(findGatePlaces(mesh));
    expect(over[0]!.at[2]).toBe(24);
  });

  it('all over: a refusal that names the best spot and what helps', () => {
    const mesh = box(60, 40, 20);
    const found = findGatePlaces(mesh, { avoid: marked(mesh, () => true) });
    expect(found.ok).toBe(false);
    if (found.ok) return;
    expect(found.refusal.severity).toBe('stop');
    expect(found.refusal.message).toMatch(
      /^Nothing of the part as it stands looks up and holds a gate of 4\.4 mm\. At the best spot, \((29|30)\.\d, (19|20)\.\d\), a foot of 4\.4 mm touches a marked face there\.$/,
    );
    expect(found.refusal.remedy).toMatch(
      /^Turn the part .* add a flat boss of at least 5 mm at \((29|30)\.\d, (19|20)\.\d\)\. Or name the marked face for the gate \(gateAt\)/,
    );
  });
});

describe('a place asked for', () => {
  it('at a point: there, its height found', () => {
    const mesh = box(80, 50, 8);
    for (const at of [
      [12, 13],
      [12, 13, 8],
    ] as const) {
      const places = placesOf(findGatePlaces(mesh, { wanted: { at } }));
      expect(places).toHaveLength(1);
      expect(places[0]).toMatchObject({ name: 'the point asked for', at: [12, 13, 8] });
      expectKept(mesh, places[0]!);
    }
  });

  it.each([
    ['beside the part', [100, 20], 'nothing of the part lies there'],
    ['on its edge', [79, 25], 'reaches out over the part'],
    ['far under the surface', [40, 25, 2], 'the part reaches up to z = 8.0 mm over it'],
    ['in the air', [40, 25, 30], 'the part ends at z = 8.0 mm there'],
  ] as const)('%s: a refusal with the reason and the nearest that serves', (_, at, why) => {
    const mesh = box(80, 50, 8);
    const found = findGatePlaces(mesh, { wanted: { at } });
    expect(found.ok).toBe(false);
    if (found.ok) return;
    expect(found.refusal.message).toContain(why);
    const { at: near } = found.nearest!;
    expectKept(mesh, found.nearest!);
    expect(found.refusal.remedy).toContain(`(${near[0].toFixed(1)}, ${near[1].toFixed(1)}, 8.0)`);
    // No farther than to the nearest spot with room for the least foot, and a cell.
    expect(Math.hypot(near[0] - Math.min(77.8, at[0]), near[1] - at[1])).toBeLessThan(2);
  });

  it('on a slope too steep for a foot', () => {
    const roof = meshOf(() =>
      kernel
        .extrude(
          [
            [
              [0, 0],
              [60, 0],
              [60, 8],
              [0, 60],
            ],
          ],
          -20,
          20,
        )
        .rotate('x', Math.PI / 2),
    );
    const found = findGatePlaces(roof);
    expect(found.ok).toBe(false);
    if (!found.ok)
      expect(found.refusal.message).toMatch(
        /the surface under a foot of 4\.4 mm falls away [34]\.\d mm there; 1\.5 mm is the most/,
      );
  });

  it('on a face: there, or a refusal', () => {
    const mesh = meshOf(() =>
      kernel.union([kernel.box([0, 0, 0], [80, 40, 10]), kernel.box([0, 0, 9], [30, 40, 30])]),
    );
    const low = placesOf(findGatePlaces(mesh, { wanted: { face: marked(mesh, (_, __, z) => z === 10) } }));
    for (const place of low) expect(place.at[2]).toBe(10);
    expect(placesOf(findGatePlaces(mesh))[0]!.at[2]).toBe(30);
    const below = findGatePlaces(mesh, { wanted: { face: marked(mesh, (_, __, z) => z === 0) } });
    expect(below.ok).toBe(false);
    if (!below.ok) {
      expect(below.refusal.message).toContain('nothing of it looks up');
      expectKept(mesh, below.nearest!);
    }
  });
});
