import { describe, expect, it } from 'vitest';
import { noStock, type Stock } from '../../core/part/stock.js';
import { inspectMesh } from '../../core/solid/inspect.js';
import type { Mesh, Vec3 } from '../../core/solid/types.js';
import { gudgeonPintleParameters } from '../../generators/gudgeon-pintle/parameters.js';
import { type RudderPiece, type RudderSizes, rudderSizes } from '../../generators/gudgeon-pintle/sizes.js';
import { bossFillet, innerCorner, outerHalf } from '../../generators/gudgeon-pintle/strap-shape.js';
import { swingLimit } from '../../generators/gudgeon-pintle/swing.js';
import gudgeonPintle from '../../generators/gudgeon-pintle.js';
import { overlapsOf, type Pose } from '../helpers/overlap-volume.js';
import { gapAt } from './fitting-probe.js';
import { bounds, distanceTo, surfacePoints } from './hatch-pull-probe.js';
import { codesOf, pieceOf, pieceSize } from './hinge-probe.js';

const degree = Math.PI / 180;
const pieces: readonly RudderPiece[] = ['pintle', 'gudgeon'];
const sizesOf = (given: object, piece: RudderPiece): RudderSizes =>
  rudderSizes(gudgeonPintleParameters.parse(given), piece);

const cases: Readonly<Record<string, Record<string, unknown>>> = {
  default: {},
  dinghy: { size: 450, speed: 4 },
  sternpost: { mount: 'strap', postThickness: 35 },
  'pin of rod': { pin: 'rod' },
  inch: { series: 'inch', size: 609.6, bladeThickness: 25.4 },
};

describe('gudgeon and pintle: sizes', () => {
  it.each(Object.entries(cases))('%s: made without a warning, both castings', (_, given) => {
    for (const piece of pieces)
      for (const stock of [noStock, { ...noStock, skin: 0.3, face: 0.8, mating: 0.6, bore: 0.4 }])
        expect(
          codesOf(gudgeonPintle, piece, given, stock).filter((code) => !code.startsWith('note')),
        ).toEqual([]);
  });

  it('a larger rudder or a faster boat wants a thicker pin; its force goes with area and speed squared', () => {
    const pin = (given: object): number => sizesOf(given, 'pintle').pinDiameter;
    const pins = [300, 600, 900, 1200].map((size) => pin({ size }));
    for (let i = 1; i < pins.length; i++) expect(pins[i]).toBeGreaterThan(pins[i - 1] as number);
    expect(pin({ speed: 10 })).toBeGreaterThan(pin({ speed: 5 }));
    const force = (given: object): number => sizesOf({ pintleDiameter: 12, ...given }, 'pintle').load.load;
    expect(force({ speed: 10 }) / force({ speed: 5 })).toBeCloseTo(4, 9);
    expect(force({ size: 800, bladeWidth: 320 }) / force({ size: 400, bladeWidth: 160 })).toBeCloseTo(4, 9);
  });

  it('the upper pintle is a pin’s diameter shorter, and turns in the same gudgeon', () => {
    const [low, up] = [sizesOf({}, 'pintle'), sizesOf({ position: 'upper' }, 'pintle')];
    expect(low.pintleLength - up.pintleLength).toBeCloseTo(low.pinDiameter, 0);
    expect(sizesOf({ position: 'upper' }, 'gudgeon').holeDiameter).toBe(sizesOf({}, 'gudgeon').holeDiameter);
  });
});

const block = (min: Vec3, max: Vec3): Mesh => ({
  positions: Float32Array.from(
    Array.from({ length: 8 }, (_, i) =>
      [0, 1, 2].map((k) => ((i >> k) & 1 ? max[k] : min[k]) as number),
    ).flat(),
  ),
  triangles: Uint32Array.from(
    [
      [0, 2, 1],
      [1, 2, 3],
      [4, 5, 6],
      [5, 7, 6],
      [0, 1, 4],
      [1, 5, 4],
      [2, 6, 3],
      [3, 6, 7],
      [0, 4, 2],
      [2, 4, 6],
      [1, 3, 5],
      [3, 7, 5],
    ].flat(),
  ),
});

/** Turned over about X: the pin down, y and z the other way. */
const turnedOver = ({ positions, triangles }: Mesh): Mesh => ({
  positions: positions.map((value, i) => (i % 3 === 0 ? value : -value)),
  triangles,
});

describe('gudgeon and pintle: the rudder turns, on the real meshes', () => {
  for (const [name, given] of Object.entries(cases))
    it(`${name}: nothing touches up to the swing told, and wood does just beyond it`, async () => {
      const [p, g] = [sizesOf(given, 'pintle'), sizesOf(given, 'gudgeon')];
      const limit = swingLimit(p, g);
      expect(limit).toBeGreaterThan(40 * degree);
      const pintle = turnedOver(pieceOf(gudgeonPintle, 'pintle', given).mesh);
      const gudgeon = pieceOf(gudgeonPintle, 'gudgeon', given).mesh;
      // Hangs on the gudgeon's bearing face with a washer's thickness between.
      const lift = g.width + p.width + 0.5;
      const hung = (swing: number): Pose => ({ turn: Math.PI + swing, by: [0, 0, lift] });
      const still: Pose = { turn: 0, by: [0, 0, 0] };
      const metal = await overlapsOf(gudgeon, pintle);
      for (let swing = -limit; swing <= limit + 1e-9; swing += limit / 4)
        expect(metal.at(still, hung(swing))).toBe(0);
      metal.free();
      // Blade in the straps, and the wood the gudgeon is on, as high as both fittings.
      const [low, high] = [-200, 200];
      const blade = turnedOver(block([p.standOff, -p.wood / 2, low], [400, p.wood / 2, high]));
      const post = block(
        [g.standOff, g.mount === 'strap' ? -g.wood / 2 : -600, low],
        [400, g.mount === 'strap' ? g.wood / 2 : 600, high],
      );
      const looks = await Promise.all([
        overlapsOf(post, pintle),
        overlapsOf(gudgeon, blade),
        overlapsOf(post, blade),
      ]);
      const common = (swing: number): number =>
        looks.reduce((sum, look) => sum + look.at(still, hung(swing)), 0);
      for (const share of [0, 0.5, 0.9, 1]) expect(common(share * limit)).toBe(0);
      // A sternpost is taken as endlessly wide, as a transom is: it may let the rudder go further.
      if (limit < Math.PI / 2 && g.mount === 'plate') {
        const play = (g.holeDiameter - p.pinDiameter) / 2;
        const beyond = limit + (2 * play) / (p.wood / 2) + 2 * degree;
        expect(common(beyond)).toBeGreaterThan(0);
      }
      for (const look of looks) look.free();
    });

  it('the pin goes through its gudgeon with the clearance told, and its root into the mouth', async () => {
    const [p, g] = [sizesOf({}, 'pintle'), sizesOf({}, 'gudgeon')];
    const tolerance = 0.005;
    const pintle = turnedOver(pieceOf(gudgeonPintle, 'pintle', {}, {}, tolerance).mesh);
    const gudgeon = pieceOf(gudgeonPintle, 'gudgeon', {}, {}, tolerance).mesh;
    const fit = await overlapsOf(gudgeon, pintle);
    const gap = fit.gap(
      { turn: 0, by: [0, 0, 0] },
      { turn: Math.PI, by: [0, 0, g.width + p.width + 0.5] },
      2,
    );
    fit.free();
    const play = (g.holeDiameter - p.pinDiameter) / 2;
    expect(gap).toBeGreaterThan(Math.min(play, 0.5) - 2 * tolerance);
    expect(gap).toBeLessThan(play + 2 * tolerance);
  });
});

describe('gudgeon and pintle: dimensions measured on the mesh', () => {
  const stock: Stock = { ...noStock, skin: 0.35, face: 0.8, mating: 0.6, bore: 0.5 };
  const tolerance = 0.004;
  for (const [name, given] of Object.entries(cases))
    for (const piece of pieces)
      it.each([
        ['part', noStock],
        ['casting', stock],
      ] as const)(`${name}, ${piece}, %s`, (_, state) => {
        const asked = { ...given, bore: 'cored', holes: 'cored' };
        const s = sizesOf(asked, piece);
        const built = pieceOf(gudgeonPintle, piece, asked, state, tolerance);
        const { mesh } = built;
        const { min, max } = bounds(mesh);
        const near = (symbol: string, value: number): void =>
          expect({ symbol, off: Math.abs(value - pieceSize(built, symbol)) < 2 * tolerance, value }).toEqual({
            symbol,
            off: true,
            value,
          });
        near('b_o', max[1] - min[1]);
        near('d_b', 2 * -min[0]);
        const middle = s.width / 2 + 0.017;
        // The opening past the last screw, and a strap or the plate there.
        if (s.mount === 'strap') {
          const x = s.standOff + s.reach - s.thickness / 2;
          near('b', gapAt(mesh, 1, [x, 0.013, middle]));
          near('t', gapAt(mesh, 1, [x - s.thickness, (s.wood + s.thickness) / 2, 2 * s.edge + 0.5]));
          near('l', max[0] - min[0]);
        } else {
          near('t', gapAt(mesh, 0, [(s.front + s.standOff) / 2, s.reach - s.thickness, 2 * s.edge + 0.5]));
          near('s_o', max[0]);
        }
        if (s.castPin) {
          near('d', gapAt(mesh, 0, [0.013, 0.017, s.width + s.pinFillet + 1.5]));
          near('l_p', max[2] - (s.width + state.face));
        } else {
          near('d_h', gapAt(mesh, 0, [0.013, 0.017, middle]));
          near('w', max[2] - min[2]);
        }
        expect(inspectMesh(mesh).problems).toEqual([]);
      });
});

/** Area and length of an outline; all its corners round, so that A(δ) = A − P δ + π δ² inset by δ (Steiner). */
interface Plan {
  readonly area: number;
  readonly length: number;
}

/** What rounding a corner that turns by `turn` to a radius takes away; an inner corner's is given back. */
const rounded = (r: number, turn = Math.PI / 2) => ({
  area: r * r * (Math.tan(turn / 2) - turn / 2),
  length: r * (2 * Math.tan(turn / 2) - turn),
});

function planOf(s: RudderSizes): Plan {
  const r = s.bossRadius;
  const end = rounded(0.42 * s.thickness);
  if (s.mount === 'plate') {
    const [back, foot] = [rounded(s.edge), rounded(bossFillet(s))];
    return {
      area:
        2 * s.reach * s.thickness +
        2 * r * s.front +
        (Math.PI / 2) * r * r -
        2 * end.area -
        2 * back.area +
        2 * foot.area,
      length:
        4 * s.reach +
        2 * s.thickness -
        2 * r +
        2 * s.front +
        Math.PI * r -
        2 * (end.length + back.length + foot.length),
    };
  }
  // A line from the knee, (standOff, outer), touches the boss at an angle `a` from +X.
  const outer = s.wood / 2 + s.thickness;
  const far = Math.hypot(s.standOff, outer);
  const a = Math.atan2(outer, s.standOff) + Math.acos(r / far);
  const foot = [r * Math.cos(a), r * Math.sin(a)] as const;
  const round = Math.PI - a;
  const knee = rounded(2 * s.thickness, Math.atan2(outer - foot[1], s.standOff - foot[0]));
  const inner = rounded(innerCorner(s));
  return {
    area:
      2 * s.reach * s.thickness +
      (outer + foot[1]) * (s.standOff - foot[0]) +
      r * r * (round - Math.sin(round) * Math.cos(round)) -
      2 * knee.area -
      4 * end.area +
      2 * inner.area,
    length:
      4 * s.reach +
      2 * s.thickness +
      s.wood +
      2 * Math.sqrt(far * far - r * r) +
      2 * round * r -
      2 * knee.length -
      4 * end.length -
      2 * inner.length,
  };
}

const cylinder = (r: number, l: number): number => Math.PI * r * r * l;
const frustum = (r: number, q: number, l: number): number => (Math.PI / 3) * l * (r * r + r * q + q * q);
/** What a cone, `wide` in radius at the mouth and of half angle `half`, takes away beside a hole of radius r. */
const cone = (wide: number, r: number, half: number): number => {
  const deep = Math.max(0, wide - r) / Math.tan(half);
  return frustum(wide, r, deep) - cylinder(r, deep);
};

/** Pintle or gudgeon with `k` of stock on all surfaces, its holes cored. */
function volumeOf(s: RudderSizes, k: number): number {
  const { area, length } = planOf(s);
  const [A, P, w] = [area + length * k + Math.PI * k * k, length + 2 * Math.PI * k, s.width + 2 * k];
  // Of the inset δ over the height: a quarter round e above, a bevel c below (moved out parallel, corners sharp).
  const [e, c] = [s.edge + k, 0.7 * s.edge + k * (2 - Math.SQRT2)];
  const inset = e * e * (1 - Math.PI / 4) + (c * c) / 2;
  const square = e ** 3 * (5 / 3 - Math.PI / 2) + c ** 3 / 3;
  const body = A * w - P * inset + Math.PI * square;
  const [R, r] = [s.seat.mouthDiameter / 2, s.seat.holeDiameter / 2 - k];
  // At the face moved by k a countersink moved by k along its normal is as wide as this.
  const atFace = (wide: number, half: number): number => wide + k * Math.tan(half) - k / Math.cos(half);
  const through = cylinder(r, s.thickness + 2 * k);
  const screws =
    s.screwsAt.length *
    (through * (s.mount === 'strap' ? 2 : 1) + cone(atFace(R, s.seat.angle / 2), r, s.seat.angle / 2));
  if (!s.castPin) {
    const h = s.holeDiameter / 2 - k;
    const mouth = atFace(s.holeDiameter / 2 + s.chamfer, Math.PI / 4);
    return body - screws - cylinder(h, w) - cone(mouth, h, Math.PI / 4);
  }
  const pin = s.pinDiameter / 2 + k;
  const tip = k === 0 ? 0.4 * pin : 0;
  const high = s.pintleLength - 1.75 * tip;
  const f = s.pinFillet - k;
  // Pappus: the centre of a fillet's section lies f (10 − 3π)/(12 − 3π) from its corner.
  const root =
    2 * Math.PI * (pin + (f * (10 - 3 * Math.PI)) / (12 - 3 * Math.PI)) * f * f * (1 - Math.PI / 4);
  return body - screws + cylinder(pin, high) + frustum(pin, pin - tip, 1.75 * tip) + root;
}

describe('gudgeon and pintle: volumes against closed forms', () => {
  for (const [name, given] of Object.entries(cases))
    for (const piece of pieces)
      it.each([
        ['part', 0],
        ['casting', 0.4],
      ] as const)(`${name}, ${piece}, %s`, (_, k) => {
        const asked = { ...given, bore: 'cored', holes: 'cored' };
        const stock = k === 0 ? {} : { skin: k, face: k, mating: k, bore: k };
        const { volume } = pieceOf(gudgeonPintle, piece, asked, stock, 1e-3);
        expect(Math.abs(volume / volumeOf(sizesOf(asked, piece), k) - 1)).toBeLessThan(3e-4);
      });
});

describe('gudgeon and pintle: stock by surface class, as distance on the meshes', () => {
  const stock: Stock = { ...noStock, skin: 0.35, face: 0.8, mating: 0.6, bore: 0.5 };
  it.each([
    ['pintle', {}, ['skin', 'face', 'mating', 'bore']],
    ['pintle', { pin: 'rod' }, ['skin', 'face', 'bore']],
    ['gudgeon', {}, ['skin', 'face', 'bore']],
    ['gudgeon', { mount: 'strap', postThickness: 40 }, ['skin', 'face', 'bore']],
  ] as const)('%s %j', (piece, given, classes) => {
    const asked = { ...given, bore: 'cored', holes: 'cored' };
    const s = sizesOf(asked, piece);
    const distance = distanceTo(pieceOf(gudgeonPintle, piece, asked, stock, 0.004).mesh);
    const half = s.mount === 'strap' ? outerHalf(s) : s.standOff;
    const seen = new Map<keyof Stock, number>();
    const wrong: unknown[] = [];
    for (const { at, normal } of surfacePoints(pieceOf(gudgeonPintle, piece, asked, {}, 0.004).mesh, 2.5)) {
      const [x, y, z] = at;
      const round = Math.hypot(x, y);
      const hole = s.holeDiameter / 2;
      const fromScrew = Math.min(
        ...s.screwsAt.map(([a, b]) => Math.hypot((s.mount === 'strap' ? x : y) - a, z - b)),
      );
      const within = z > 2 && z < s.width - 2;
      let known: keyof Stock | null = null;
      if (z > s.width + s.pinFillet + 1.5) {
        // The tip is cast straight.
        if (Math.abs(normal[2]) < 1e-6 && z < s.width + s.pintleLength - 0.4 * s.pinDiameter - 1)
          known = 'mating';
      } else if (normal[2] > 0.999999 && z > s.width - 0.01) {
        const foot = s.castPin ? s.pinDiameter / 2 + s.pinFillet : hole + s.chamfer;
        if (round > foot + 1.5) known = 'face';
      } else if (normal[2] < -0.999999 && z < 0.01) {
        if (s.castPin || round > hole + s.chamfer + 1.5) known = 'skin';
      } else if (Math.abs(normal[2]) < 1e-6 && !s.castPin && round < hole + 1e-3) {
        if (z > s.chamfer + 1.5 && z < s.width - s.chamfer - 1.5) known = 'bore';
      } else if (fromScrew < s.seat.holeDiameter / 2 + 1e-3) {
        // The straight walls, away from both mouths; those of the nuts' side.
        if (
          s.mount === 'strap'
            ? y > half - 0.6 * s.thickness && y < half - 0.4 * s.thickness
            : x > half - 1.2 && x < half - 0.8
        )
          known = 'bore';
      } else if (within && Math.abs(normal[2]) < 1e-6 && fromScrew > s.seat.mouthDiameter / 2 + 1.5)
        known = 'skin';
      if (known === null) continue;
      seen.set(known, (seen.get(known) ?? 0) + 1);
      if (Math.abs(distance(at) - stock[known]) > 0.009)
        wrong.push({ known, at, off: distance(at) - stock[known] });
    }
    expect(wrong).toEqual([]);
    for (const known of classes)
      expect({ known, seen: seen.get(known) ?? 0 }).toEqual({
        known,
        seen: expect.toSatisfy((n: number) => n > 20),
      });
  });
});

describe('gudgeon and pintle: stock at bounds and gauges', () => {
  it.each(pieces)('%s: skin, bearing face, pin and holes each by their own', (piece) => {
    const stock: Stock = { ...noStock, skin: 0.35, face: 0.8, mating: 0.6, bore: 0.5 };
    const given = { bore: 'cored', holes: 'cored' };
    const s = sizesOf(given, piece);
    const [part, cast] = [noStock, stock].map(
      (state) => pieceOf(gudgeonPintle, piece, given, state, 0.004).mesh,
    );
    const [a, b] = [bounds(part as Mesh), bounds(cast as Mesh)];
    // Lower face and outsides by the skin; the top by the pin's mating stock or the face's.
    expect(a.min[2] - b.min[2]).toBeCloseTo(stock.skin, 4);
    expect(b.max[1] - a.max[1]).toBeCloseTo(stock.skin, 2);
    expect(b.max[2] - a.max[2]).toBeCloseTo(s.castPin ? stock.mating : stock.face, 4);
    const narrower = (axis: 0 | 1 | 2, at: Vec3): number =>
      gapAt(part as Mesh, axis, at) - gapAt(cast as Mesh, axis, at);
    const middle = s.width / 2 + 0.017;
    if (s.castPin) {
      const at: Vec3 = [0.013, 0.017, s.width + s.pinFillet + 2];
      expect(Math.abs(-narrower(0, at) - 2 * stock.mating)).toBeLessThan(0.012);
    } else expect(Math.abs(narrower(0, [0.013, 0.017, middle]) - 2 * stock.bore)).toBeLessThan(0.012);
    const [along, height] = s.screwsAt[0] as readonly [number, number];
    const hole: Vec3 =
      s.mount === 'strap'
        ? [along + 0.01, outerHalf(s) - 0.4 * s.thickness, height + 0.01]
        : [s.standOff - 0.2 * s.thickness, along + 0.01, height + 0.01];
    expect(Math.abs(narrower(2, hole) - 2 * stock.bore)).toBeLessThan(0.02);
  });
});

describe('gudgeon and pintle: gates and vents', () => {
  it.each(Object.entries(cases))('%s: stand on metal, apart from each other', (_, given) => {
    const stock: Stock = { ...noStock, skin: 0.3, face: 0.8, mating: 0.6, bore: 0.4 };
    for (const piece of pieces) {
      const built = pieceOf(gudgeonPintle, piece, given, stock);
      const places = [
        ...built.gates.map((g) => [g.at, g.outerDiameter / 2] as const),
        ...built.vents.map((v) => [v.at, v.footDiameter / 2] as const),
      ];
      expect(built.gates[0]?.outerDiameter).toBeGreaterThan(5);
      expect(built.vents.length).toBeGreaterThan(0);
      for (const [at, radius] of places)
        for (let i = 0; i < 24; i++) {
          const angle = (i / 24) * 2 * Math.PI + 0.01;
          const under: Vec3 = [
            at[0] + 0.999 * radius * Math.cos(angle),
            at[1] + 0.999 * radius * Math.sin(angle),
            at[2] - 0.3,
          ];
          expect(gapAt(built.mesh, 2, under)).toBeGreaterThan(1.5);
        }
    }
  });
});

describe('gudgeon and pintle: findings', () => {
  const stocked = { skin: 0.3, face: 0.8, mating: 0.6, bore: 0.4 };
  it.each([
    ['stop edges-meet', 'pintle', { thickness: 4, edge: 1.8 }, {}],
    ['stop boss-wide', 'pintle', { bladeThickness: 10, pintleDiameter: 25, thickness: 4 }, {}],
    ['stop straps-short', 'pintle', { strapLength: 22, thickness: 8, fillet: 4, screws: 1 }, {}],
    ['stop fillet-filled-by-stock', 'pintle', { fillet: 0.8 }, { skin: 0.6 }],
    ['warn fillet-small', 'pintle', { fillet: 0.8, thickness: 8, pintleDiameter: 12 }, {}],
    ['warn mould-fin-thin', 'pintle', { bladeThickness: 12, strapLength: 120 }, {}],
    ['stop screws-no-room', 'gudgeon', { screw: 'M10', strapWidth: 18, thickness: 8 }, {}],
    ['stop web-thin', 'pintle', { bladeThickness: 80, pintleDiameter: 6 }, {}],
    ['warn rudder-swing-small', 'pintle', { bladeThickness: 70 }, {}],
    ['note rudder-swing', 'gudgeon', {}, {}],
    ['warn too-light', 'pintle', { size: 1200, speed: 10, pintleDiameter: 6 }, {}],
    ['note allowable-load', 'pintle', {}, {}],
    ['note rudder-estimate', 'pintle', {}, {}],
    ['note pin-turned', 'pintle', {}, stocked],
    ['note bore-drilled', 'gudgeon', { bore: 'drilled' }, stocked],
    ['note bore-drilled', 'gudgeon', { size: 300 }, stocked],
    ['warn gate-place-small', 'gudgeon', { size: 300, bore: 'cored' }, stocked],
  ] as const)('%s: %s %j', (code, piece, given, stock) => {
    expect(codesOf(gudgeonPintle, piece, given, stock)).toContain(code);
  });

  it('says which bolts, and what rod for a pin that is not cast', () => {
    const texts = (piece: RudderPiece, given: object) =>
      (pieceOf(gudgeonPintle, piece, given as Record<string, unknown>).fittings ?? []).map((f) => f.text);
    expect(texts('pintle', {}).join()).not.toMatch(/rod/);
    expect(texts('pintle', { pin: 'rod' }).join()).toMatch(/silicon bronze rod/);
    expect(texts('gudgeon', {}).join()).toMatch(/M\d/);
  });
});
