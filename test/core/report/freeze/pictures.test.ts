import { decode } from 'fast-png';
import { XMLValidator } from 'fast-xml-parser';
import { describe, expect, test } from 'vitest';
import type { FreezePlan } from '../../../../core/freeze/plans.js';
import { scaleColour } from '../../../../core/report/freeze/scale.js';
import {
  type FreezeSubject,
  formatSection,
  planeOf,
} from '../../../../core/report/freeze/section-picture.js';
import { formatSurface } from '../../../../core/report/freeze/surface-picture.js';
import { loadKernel } from '../../../../core/solid/kernel.js';
import { madeUpFields } from '../../../helpers/made-up-fields.js';

const kernel = await loadKernel();
const metric = { lengthUnit: 'mm', degrees: 'C' } as const;
const block = kernel.scope(() => kernel.box([-20, -10, 0], [20, 10, 30]).mesh());
const late = (
  at: readonly [number, number, number],
  voidVolume: number,
): FreezePlan['latePlaces'][number] => ({
  at,
  solidAt: 90,
  shutAt: 40,
  cutOff: 300,
  void: voidVolume,
  leastGradient: 1,
});
/** Solid 10 s at the bottom to 100 s at the top; the metal arrives the colder the more to the right it is. */
const subject: FreezeSubject = {
  gated: block,
  fields: madeUpFields(
    block,
    2,
    ([, , z]) => 10 + 3 * z,
    ([x]) => (x + 20) / 40,
  ),
  plan: {
    cell: 2,
    latePlaces: [late([6, 0, 20], 4), late([-8, 0, 12], 9), late([0, 9, 5], 1)],
    fill: {
      thinPlaces: [{ at: [18, 0, 3], volume: 20, margin: 0.9, thickness: 2 }],
      marginAt: [18, 0, 3],
      marginLimit: 2,
    } as unknown as FreezePlan['fill'],
  },
  axis: [0, 0],
};

interface Inside {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly picture: ReturnType<typeof decode>;
}

/** The picture in an SVG, and where it stands on paper. */
function pictureIn(svg: string): Inside {
  const found =
    /<image x="([\d.-]+)" y="([\d.-]+)" width="([\d.]+)" height="([\d.]+)"[^>]*base64,([^"]+)"/.exec(svg);
  const [x, y, width, height] = found!.slice(1, 5).map(Number) as [number, number, number, number];
  return { x, y, width, height, picture: decode(Uint8Array.from(atob(found![5]!), (c) => c.charCodeAt(0))) };
}

/** Colour at a share of the picture's width and height. */
function colourAt({ picture }: Inside, across: number, down: number): readonly number[] {
  const i = Math.floor(down * picture.height) * picture.width + Math.floor(across * picture.width);
  return picture.palette
    ? picture.palette[picture.data[i]!]!
    : [...picture.data.slice(picture.channels * i, picture.channels * i + 3)];
}

/** All but the picture's own bytes. */
const words = (svg: string): string => svg.replace(/base64,[^"]+/, '');

const texts = (svg: string): readonly string[] =>
  [...svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map((m) => m[1]!);

describe('the section', () => {
  const svg = formatSection(subject, metric);

  test('well formed, small, the same each time, without a broken number', () => {
    expect(XMLValidator.validate(svg)).toBe(true);
    expect(svg.length).toBeLessThan(150_000);
    expect(words(svg)).not.toMatch(/NaN|Infinity|undefined/);
    expect(formatSection(subject, metric)).toBe(svg);
  });

  test('colours are those the legend gives to the times, at heights of known time', () => {
    const inside = pictureIn(svg);
    for (const z of [6.5, 14.2, 22.8, 27.3]) {
      const time = 10 + 3 * z;
      // By the square root between a hundredth of the cells, 13 s at the lowest middles, and the latest, 97 s.
      const at = (Math.sqrt(time) - Math.sqrt(13)) / (Math.sqrt(97) - Math.sqrt(13));
      const [r, g, b] = colourAt(inside, 0.3, 1 - z / 30);
      scaleColour(at).forEach((v, k) => {
        expect(Math.abs(v - [r, g, b][k]!)).toBeLessThan(6);
      });
    }
  });

  test('the legend’s values stand where the bar has their colour, in words first and last', () => {
    const ticks = [...svg.matchAll(/text-anchor="middle">(\d+)<\/text>/g)]
      .map((m) => Number(m[1]))
      .filter((v) => v > 9);
    expect(ticks).toEqual([20, 30, 40, 50, 60, 70, 80, 90].filter((t) => ticks.includes(t)));
    expect(ticks.length).toBeGreaterThan(3);
    expect(texts(svg)).toEqual(
      expect.arrayContaining(['solid first', 'solid last', 'Solid, seconds after the mould is full']),
    );
  });

  test('it cuts where metal freezes late, and marks what lies there: the largest void is 1', () => {
    expect(planeOf(subject).through).toEqual([0, 0]);
    expect(Math.abs(Math.sin(planeOf(subject).direction))).toBeLessThan(1e-9);
    // The third, at y = 9, does not lie in the plane.
    expect(texts(svg).filter((t) => /^[1-9A-F]$/.test(t))).toEqual(['1', '2', 'A']);
    const { x, y, width, height } = pictureIn(svg);
    const ring = /<circle cx="([\d.]+)" cy="([\d.]+)"/.exec(svg)!;
    expect(Number(ring[1])).toBeCloseTo(x + (width * (-8 + 20)) / 40, 0);
    expect(Number(ring[2])).toBeCloseTo(y + height * (1 - 12 / 30), 0);
  });

  test('a place under the sprue is cut along the longer side; without any place, where the castings are solid last', () => {
    const { plan } = subject;
    const under = { ...subject, plan: { ...plan, latePlaces: [late([1, 3, 20], 9)] } };
    expect(planeOf(under)).toEqual({ through: [1, 3], direction: 0 });
    const none = {
      ...subject,
      plan: { ...plan, latePlaces: [], fill: { ...plan.fill, thinPlaces: [] } },
      fields: madeUpFields(block, 2, ([x, y]) => 50 - Math.hypot(x - 9, y - 9)),
    };
    expect(planeOf(none).direction).toBeCloseTo(Math.PI / 4, 9);
  });

  test('the scale bar is as long as it says, in either unit', () => {
    const { width } = pictureIn(svg);
    for (const [unit, mm] of [
      ['mm', 1],
      ['in', 25.4],
    ] as const) {
      const drawn = formatSection(subject, { lengthUnit: unit, degrees: 'C' });
      const [, from, to] = /M([\d.]+) [\d.]+V[\d.]+M[\d.]+ [\d.]+H([\d.]+)M/.exec(drawn)!;
      const label = texts(drawn).find((t) => t.endsWith(` ${unit}`))!;
      expect((Number(to) - Number(from)) / (width / 40)).toBeCloseTo(Number.parseFloat(label) * mm, 0);
    }
  });

  test('metal that is never solid, or all solid at once, still gives a picture', () => {
    const once = {
      ...subject,
      fields: { ...subject.fields, solidAt: subject.fields.solidAt.map((t) => (t > 0 ? 30 : 0)) },
    };
    const never = {
      ...subject,
      fields: {
        ...subject.fields,
        solidAt: subject.fields.solidAt.map((t) => (t > 50 ? Number.POSITIVE_INFINITY : t)),
      },
    };
    for (const s of [once, never]) {
      const drawn = formatSection(s, metric);
      expect(words(drawn)).not.toMatch(/NaN|Infinity|undefined/);
      expect(XMLValidator.validate(drawn)).toBe(true);
    }
  });
});

describe('the surface', () => {
  const svg = formatSurface(subject);

  test('well formed, small, the same each time', () => {
    expect(XMLValidator.validate(svg)).toBe(true);
    expect(svg.length).toBeLessThan(150_000);
    expect(words(svg)).not.toMatch(/NaN|Infinity|undefined/);
    expect(formatSurface(subject)).toBe(svg);
  });

  test('light where metal arrives hot, dark where it is about to stop', () => {
    const inside = pictureIn(svg);
    const light = (across: number, down: number): number =>
      colourAt(inside, across, down).reduce((a, b) => a + b, 0);
    // The front face, seen from the front and a little from the right: left of it hot, right of it cold.
    expect(light(0.22, 0.55)).toBeGreaterThan(light(0.42, 0.6) + 60);
    expect(light(0.42, 0.6)).toBeGreaterThan(light(0.62, 0.7) + 60);
  });

  test('every place is marked; those deep inside dashed', () => {
    expect(texts(svg).filter((t) => /^[1-9A-F]$/.test(t))).toEqual(['1', '2', '3', 'A']);
    expect(svg).toMatch(/stroke-dasharray/);
    expect(texts(svg)).toEqual(expect.arrayContaining(['limit', 'stops short', 'arrives hot']));
  });

  test('coloured by when it is solid, it has the section’s legend', () => {
    expect(texts(formatSurface(subject, 'solidAt'))).toContain('Solid, seconds after the mould is full');
  });
});
