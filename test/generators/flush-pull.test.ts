import { describe, expect, it } from 'vitest';
import { fingertipRecess, leastHandleWidth, recessRoom } from '../../core/hardware/index.js';
import { noStock, type Stock } from '../../core/part/stock.js';
import type { Vec3 } from '../../core/solid/types.js';
import { flushPullParameters } from '../../generators/flush-pull/parameters.js';
import { flushPullSizes } from '../../generators/flush-pull/sizes.js';
import flushPull from '../../generators/flush-pull.js';
import {
  type Built,
  bounds,
  buildPart,
  distanceTo,
  sizeOf,
  surfacePoints,
  tryBuildPart,
} from '../helpers/part-probe.js';

type Given = Record<string, unknown>;
const tolerance = 0.02;
const stock: Stock = { ...noStock, skin: 0.3, face: 0.5, mating: 0.8, bore: 0.4 };
const build = (given: Given = {}, s: Stock = noStock, heights: readonly number[] = []): Built =>
  buildPart(flushPull, { given, stock: s, chord: tolerance, heights });
const sizes = (given: Given) => flushPullSizes(flushPullParameters.parse(given));

const everyKind = ['metric', 'inch'].flatMap((series) =>
  ['bare', 'gloved'].flatMap((hand) =>
    ['oval', 'square'].flatMap((shape) => [1, 2, 3, 4].map((fingers) => ({ series, hand, shape, fingers }))),
  ),
);

describe('flush pull: room by the published figures', () => {
  it('every kind has the room of its fingers, and comes out without a warning', () => {
    for (const given of everyKind) {
      const s = sizes(given);
      const hand = given.hand as 'bare';
      const room = recessRoom(given.fingers as 1, hand);
      expect(s.recessLength).toBeGreaterThanOrEqual(room.width - 1e-9);
      expect(s.recessLength).toBeLessThan(room.width + 1);
      expect(s.recessLength).toBeGreaterThan(leastHandleWidth(given.fingers as 1, hand));
      expect(s.recessDepth).toBeGreaterThanOrEqual(fingertipRecess[hand].depth - 1e-9);
      expect(s.recessWidth).toBeGreaterThan(fingertipRecess[hand].opening);
      const built = buildPart(flushPull, { given, stock, chord: 0.2 });
      expect({ given, found: built.findings.filter((f) => f.severity !== 'note') }).toEqual({
        given,
        found: [],
      });
    }
  });

  it('bare: 32 mm round for one finger, 65 × 32 for two, 110 × 32 for the hand, 13 deep (MIL-STD-1472, from memory)', () => {
    expect(sizes({ fingers: 1 })).toMatchObject({ recessLength: 32, recessWidth: 32, recessDepth: 13 });
    expect(sizes({ fingers: 2 })).toMatchObject({ recessLength: 65, recessWidth: 32, recessDepth: 13 });
    expect(sizes({ fingers: 4 })).toMatchObject({ recessLength: 110, recessWidth: 32, recessDepth: 13 });
    expect(sizes({ fingers: 4, hand: 'gloved' })).toMatchObject({ recessLength: 135, recessDepth: 19 });
  });
});

/** Area, girth and corner radius of the plan of an opening. */
function planOf(s: { shape: string; recessLength: number; recessWidth: number; recessCorner: number }) {
  const [l, b] = [s.recessLength, s.recessWidth];
  const r = s.shape === 'oval' ? b / 2 : s.recessCorner;
  return { area: l * b - (4 - Math.PI) * r * r, girth: 2 * (l + b) - (8 - 2 * Math.PI) * r };
}

/** Area inside a profile at a height: by Steiner, A + P o + π o² for an outset o of rounded outlines. */
const grown = ({ area, girth }: { area: number; girth: number }, by: number): number =>
  area + girth * by + Math.PI * by * by;

/** Volume of a dish by integration of its level sections, the section drawn anew from tangent circles. */
function dishVolume(
  plan: { area: number; girth: number },
  d: { low: number; high: number; out: number; face: number; draft: number; round: number; flare: number },
): number {
  const wall = (z: number): number => d.out / Math.cos(d.draft) + (z - d.face) * Math.tan(d.draft);
  // Circles that touch the wall and the floor from within, and the wall and the upper face from without.
  const inner = [wall(d.low + d.round) - d.round / Math.cos(d.draft), d.low + d.round] as const;
  const outer = [wall(d.high - d.flare) + d.flare / Math.cos(d.draft), d.high - d.flare] as const;
  const outset = (z: number): number => {
    if (z < inner[1] - d.round * Math.sin(d.draft))
      return inner[0] + Math.sqrt(Math.max(0, d.round ** 2 - (z - inner[1]) ** 2));
    if (z > outer[1] + d.flare * Math.sin(d.draft))
      return outer[0] - Math.sqrt(Math.max(0, d.flare ** 2 - (z - outer[1]) ** 2));
    return wall(z);
  };
  const n = 20_000;
  const step = (d.high - d.low) / n;
  let volume = 0;
  for (let i = 0; i < n; i++) volume += grown(plan, outset(d.low + (i + 0.5) * step)) * step;
  return volume;
}

describe('flush pull: volume by independent integration, within 0.1 %', () => {
  it.each([
    {},
    { fingers: 1, draft: 0 },
    { shape: 'square', fingers: 3 },
    { draft: 0.3, recessDepth: 20, floorFillet: 5, wall: 4, series: 'inch' },
  ])('%j', (given) => {
    for (const state of [noStock, { ...stock, bore: 0 }]) {
      const { skin, face, mating } = state;
      const s = sizes(given);
      const built = buildPart(flushPull, { given: { ...given, holes: 'cored' }, stock: state, chord: 0.005 });
      const plan = planOf(s);
      const [l, b] = [s.plateLength, s.plateWidth];
      const r = s.shape === 'oval' ? b / 2 : s.plateCorner;
      const plate = { area: l * b - (4 - Math.PI) * r * r, girth: 2 * (l + b) - (8 - 2 * Math.PI) * r };
      const thick = s.plateThickness + face + mating;
      // The edge's rounding: sections over it drawn in by e − √(e² − h²).
      const e = 0.8 + skin;
      let body = grown(plate, skin) * (thick - e);
      const n = 4000;
      for (let i = 0; i < n; i++) {
        const h = ((i + 0.5) / n) * e;
        body += grown(plate, skin - e + Math.sqrt(e * e - h * h)) * (e / n);
      }
      const cup = dishVolume(plan, {
        low: -skin,
        high: s.under - mating,
        out: s.wall + skin,
        face: s.top,
        draft: s.draft,
        round: s.floorFillet + s.wall + skin,
        flare: s.fillet - skin,
      });
      const recess = dishVolume(plan, {
        low: s.wall + skin,
        high: s.top + face,
        out: -skin,
        face: s.top,
        draft: s.draft,
        round: s.floorFillet - skin,
        flare: s.rimRadius + skin,
      });
      // Holes are straight on from the cone's mouth and foot through the stock of the faces.
      const { mouthDiameter, holeDiameter, angle } = s.seat;
      const [R, q] = [mouthDiameter / 2, holeDiameter / 2];
      const cone = (R - q) / Math.tan(angle / 2);
      const mouth = R + face * Math.tan(angle / 2);
      const hole =
        ((Math.PI * (cone + face)) / 3) * (mouth * mouth + mouth * q + q * q) +
        Math.PI * q * q * (s.plateThickness - cone + mating);
      const exact = body + cup - recess - s.screws.length * hole;
      expect(Math.abs(built.volume / exact - 1)).toBeLessThan(1e-3);
    }
  });
});

describe('flush pull: stock by class', () => {
  it.each([{}, { fingers: 3, shape: 'square' }, { fingers: 1, draft: 0.25, holes: 'cored' }])(
    '%j',
    (given) => {
      const s = sizes(given);
      const part = build(given);
      const far = distanceTo(build(given, stock).mesh);
      const seen = { skin: 0, face: 0, mating: 0 };
      const edgeOf = (x: number, y: number): number => {
        const [hx, hy, r] = [s.plateLength / 2, s.plateWidth / 2, s.plateCorner];
        const [dx, dy] = [Math.max(0, Math.abs(x) - hx + r), Math.max(0, Math.abs(y) - hy + r)];
        return r - Math.hypot(dx, dy);
      };
      for (const { at, normal } of surfacePoints(part.mesh, 1.5)) {
        const [x, y, z] = at;
        if (s.screws.some(([a, b]) => Math.hypot(x - a, y - b) < s.seat.mouthDiameter / 2 + 1.2)) continue;
        const level = Math.abs(Math.abs(normal[2]) - 1) < 1e-6;
        const onFace = level && Math.abs(z - s.top) < 1e-6;
        const onUnder = level && Math.abs(z - s.under) < 1e-6;
        // Roundings between two classes are carried along with the wall; a point there is nearest to neither.
        if (!onFace && z > s.top - Math.max(s.rimRadius, 0.8) - 0.6) continue;
        if (!onUnder && Math.abs(z - s.under) < s.fillet + 1) continue;
        if ((onFace || onUnder) && edgeOf(x, y) < 1.2) continue;
        const surface = onFace ? 'face' : onUnder ? 'mating' : 'skin';
        seen[surface]++;
        const off = Math.abs(far(at) - stock[surface]);
        if (off > tolerance + 0.002) throw new Error(`${surface} at ${at}: ${far(at)}`);
      }
      expect(seen.skin).toBeGreaterThan(500);
      expect(seen.face).toBeGreaterThan(50);
      expect(seen.mating).toBeGreaterThan(20);
    },
  );

  it('where every class has the same stock, rim and fillets lie at just that distance too', () => {
    const even: Stock = { ...noStock, skin: 0.4, face: 0.4, mating: 0.4, bore: 0.4 };
    const s = sizes({});
    const far = distanceTo(build({}, even).mesh);
    let seen = 0;
    for (const { at } of surfacePoints(build({}).mesh, 1.5)) {
      if (s.screws.some(([a, b]) => Math.hypot(at[0] - a, at[1] - b) < s.seat.mouthDiameter / 2 + 1.2))
        continue;
      seen++;
      expect(Math.abs(far(at) - 0.4)).toBeLessThan(tolerance + 0.002);
    }
    expect(seen).toBeGreaterThan(2000);
  });
});

describe('flush pull: sizes as measured on the mesh', () => {
  it.each([{}, { fingers: 4, shape: 'square', series: 'inch' }, { fingers: 1, hand: 'gloved' }])(
    '%j',
    (given) => {
      for (const state of [noStock, stock]) {
        const s = sizes(given);
        const first = build(given, state);
        const { min, max } = bounds(first.mesh);
        const near = (value: number, symbol: string): void =>
          expect(Math.abs(value - sizeOf(first, symbol)), `${symbol} ${value}`).toBeLessThan(
            2 * tolerance + 1e-3,
          );
        near(max[0] - min[0], 'L');
        near(max[1] - min[1], 'B');
        near(max[2] - min[2], 'h');
        const down = through(first, [0.0123, 0.0077]);
        expect(down).toHaveLength(2);
        near(down[1]! - down[0]!, 't_w');
        near(max[2] - down[1]!, 'h_r');
        const atEdge = through(first, [0.0123, s.plateWidth / 2 - 0.9]);
        near(atEdge[1]! - atEdge[0]!, 't_p');
        for (const [symbols, index] of [
          [['l_m', 'b_m'], 1],
          [['b_c'], 0],
        ] as const) {
          const method = first.dimensions.find((d) => d.symbol === symbols[0])!.method;
          const under = Number(/([\d.]+) mm under/.exec(method)![1]);
          const z = max[2] - under;
          const { slices } = build(given, state, [z]);
          // Round the middle: cup (or plate) and recess, without the screw holes.
          const spans = slices[0]!
            .map((polygon) => span(polygon))
            .filter(({ middle }) => Math.abs(middle) < 1)
            .sort((a, b) => b.x - a.x);
          expect(spans).toHaveLength(2);
          const inOrOut = spans[index]!;
          for (const symbol of symbols) near(symbol === 'l_m' ? inOrOut.x : inOrOut.y, symbol);
        }
      }
    },
  );

  it('gate and vents stand on the flat face, clear of edges, opening and holes', () => {
    for (const given of [{}, { fingers: 4, shape: 'square' }, { fingers: 1, holes: 'cored' }]) {
      const built = build(given, stock);
      const near = distanceTo(built.mesh);
      const places = [
        ...built.gates.map((g) => ({ at: g.at, d: g.outerDiameter })),
        ...built.vents.map((v) => ({ at: v.at, d: v.footDiameter })),
      ];
      expect(built.gates.filter((g) => !g.further)).toHaveLength(1);
      expect(built.vents.length).toBeGreaterThanOrEqual(3);
      for (const { at, d } of places)
        for (let i = 0; i < 24; i++) {
          const a = (i / 24) * 2 * Math.PI;
          const rim: Vec3 = [at[0] + (d / 2) * Math.cos(a), at[1] + (d / 2) * Math.sin(a), at[2]];
          expect(near(rim)).toBeLessThan(1e-3);
        }
    }
  });

  it('the sprue stands where a screw goes: its mark is no wider than file and countersink clear', () => {
    const s = sizes({});
    const built = build({}, stock);
    expect(built.gates[0]!.at.slice(0, 2)).toEqual([...s.screws[0]!]);
    // Solid under the sprue; the other hole is there.
    expect(through(built, [s.screws[0]![0] + 0.0123, 0.0077])).toHaveLength(2);
    expect(through(built, [s.screws[1]![0] + 0.0123, 0.0077])).toHaveLength(0);
    expect(through(build({}), [s.screws[0]![0] + 0.0123, 0.0077])).toHaveLength(0);
  });
});

describe('flush pull: findings', () => {
  it.each([
    ['stop recess-across', { recessLength: 30, recessWidth: 40 }, noStock],
    ['stop fillet-filled-by-stock', { fillet: 0.8 }, { ...noStock, skin: 0.6 }],
    ['stop dish-shallow', { recessDepth: 8, floorFillet: 8 }, noStock],
    ['stop cup-shallow', { recessDepth: 8, plateThickness: 6, floorFillet: 2 }, noStock],
    ['stop floor-gone', { recessWidth: 20, recessDepth: 30, floorFillet: 12 }, noStock],
    ['stop corner-pinched', { shape: 'square', recessCorner: 5, floorFillet: 8 }, noStock],
    ['stop corner-large', { shape: 'square', recessCorner: 16 }, noStock],
    ['stop plate-short', { plateLength: 70 }, noStock],
    ['stop rim-too-thin', { rimRadius: 8, fillet: 0.8, floorFillet: 3 }, noStock],
    ['warn rim-thin', { rimRadius: 6, floorFillet: 6 }, noStock],
    ['stop rim-narrow', { plateWidth: 36 }, noStock],
    ['stop stock-too-large', { plateThickness: 1.5, screw: 'M3' }, { ...noStock, skin: 0.6 }],
    ['stop screws-off-the-plate', { fasteners: '4' }, noStock],
    ['stop screws-off-the-plate', { plateLength: 84 }, noStock],
    ['stop countersink-through-plate', { screw: '6mm', plateThickness: 2.5 }, noStock],
    ['warn wall-thin', { wall: 1 }, noStock],
    ['warn sections-uneven', { wall: 1.2, plateThickness: 3.5 }, noStock],
    ['warn fillet-small', { fillet: 0.8 }, noStock],
    ['warn mould-fin-thin', { recessWidth: 14, recessDepth: 45, floorFillet: 3, draft: 0 }, noStock],
    ['warn recess-shallow', { recessDepth: 11 }, noStock],
    ['warn recess-narrow', { recessWidth: 18 }, noStock],
    ['warn recess-short', { recessLength: 40 }, noStock],
    ['warn wall-slippery', { draft: 0.4 }, noStock],
    ['note wall-short', { floorFillet: 9, rimRadius: 5, fillet: 2.5 }, noStock],
    ['warn too-light', { pull: 900 }, noStock],
    ['note pocket-in-the-wood', {}, noStock],
    ['note screw-hole-under-gate', {}, stock],
    ['note screw-holes-drilled', { holes: 'drilled' }, stock],
    ['note allowable-load', {}, noStock],
  ] as const)('%s: %j', (code, given, s) => {
    const found = tryBuildPart(flushPull, { given, stock: s, chord: 0.2 });
    expect(found.findings.map((f) => `${f.severity} ${f.code}`)).toContain(code);
    for (const f of found.findings) {
      expect(`${f.message} ${f.remedy}`).not.toMatch(/NaN|undefined|Infinity/);
      for (const p of f.parameters ?? []) expect(Object.keys(flushPullParameters.shape)).toContain(p);
    }
  });

  it('what a stop asks for is enough', () => {
    const stopped = (given: Given): readonly string[] =>
      tryBuildPart(flushPull, { given, chord: 0.2 })
        .findings.filter((f) => f.severity === 'stop')
        .map((f) => `${f.code}: ${f.remedy}`);
    const asked = (given: Given): number => Number(/([\d.]+) mm/.exec(stopped(given)[0]!)![1]);
    for (const [given, parameter] of [
      [{ shape: 'square', recessCorner: 5, floorFillet: 8 }, 'recessCorner'],
      [{ plateLength: 84 }, 'plateLength'],
      [{ plateWidth: 36 }, 'plateWidth'],
    ] as const)
      expect(stopped({ ...given, [parameter]: asked(given) })).toEqual([]);
  });
});

function span(polygon: readonly (readonly [number, number])[]) {
  const ends = (k: 0 | 1): readonly [number, number] => [
    Math.min(...polygon.map((p) => p[k])),
    Math.max(...polygon.map((p) => p[k])),
  ];
  const [x, y] = [ends(0), ends(1)];
  return { x: x[1] - x[0], y: y[1] - y[0], middle: (x[0] + x[1]) / 2 };
}

/** Heights at which an upright line passes through the surface, in order. */
function through(
  { mesh: { positions: p, triangles: t } }: Built,
  [x, y]: readonly [number, number],
): number[] {
  const found: number[] = [];
  for (let f = 0; f < t.length; f += 3) {
    const [a, b, c] = [0, 1, 2].map((n) => 3 * t[f + n]!) as [number, number, number];
    const side = (from: number, to: number): number =>
      (p[to]! - p[from]!) * (y - p[from + 1]!) - (p[to + 1]! - p[from + 1]!) * (x - p[from]!);
    const [u, v, w] = [side(b, c), side(c, a), side(a, b)];
    if (!((u > 0 && v > 0 && w > 0) || (u < 0 && v < 0 && w < 0))) continue;
    found.push((u * p[a + 2]! + v * p[b + 2]! + w * p[c + 2]!) / (u + v + w));
  }
  return found.sort((m, n) => m - n);
}
