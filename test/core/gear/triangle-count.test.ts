import { beforeAll, describe, expect, it } from 'vitest';
import { noStock } from '../../../core/part/stock.js';
import { loadKernel } from '../../../core/solid/index.js';
import type { Kernel, Mesh } from '../../../core/solid/types.js';
import { findPart } from '../../../generators/index.js';
import {
  faceWidth,
  type GearCase,
  leastOfGear,
  normalModule,
  outlineOf,
  turned,
} from '../../helpers/least-gear.js';
import { type Flat, fewestChords, offCurve } from '../../helpers/least-triangles.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const degrees = Math.PI / 180;

const meshOf = (name: string, parameters: Record<string, unknown>, tolerance: number): Mesh => {
  const part = findPart(name);
  if (!part) throw new Error(name);
  return kernel.scope(() => {
    const built = part.build(part.parameters.parse(parameters), noStock, { kernel, tolerance });
    if (built.solid === null) throw new Error(built.findings.map((f) => f.message).join());
    return built.solid.mesh();
  });
};

const tolerances = [0.003, 0.01, 0.03];
const cases: readonly GearCase[] = (
  [
    ['spur-gear', 0],
    ['helical-gear', 25],
    ['double-helical-gear', 25],
  ] as const
).flatMap(([part, beta]) =>
  [8, 12, 17, 24, 40, 80, 120].flatMap((teeth) =>
    (teeth % 40 === 0 || teeth === 8 ? tolerances : [0.01]).map((tolerance) => ({
      ...{ part, teeth, tolerance, beta },
      x: teeth < 17 ? 0.4 : 0,
    })),
  ),
);
const rings: readonly GearCase[] = [0, 20].flatMap((beta) =>
  [36, 120].flatMap((teeth) =>
    tolerances.map((tolerance) => ({ part: 'ring-gear' as const, teeth, tolerance, beta, x: 0 })),
  ),
);

/** Greatest distance of the toothed sides of the mesh from the exact helicoid, at places all over each triangle. */
function worstDeviation(c: GearCase, { positions, triangles }: Mesh): number {
  const { space, land, outside, rate } = outlineOf(c);
  const pitch = (2 * Math.PI) / c.teeth;
  const turnAt = (z: number): number =>
    c.part === 'double-helical-gear' ? rate * Math.abs(z - faceWidth / 2) : rate * z;
  const curves = [space, land];
  const angleOf = ([x, y]: readonly number[]): number => Math.atan2(y as number, x as number);
  const from = Math.min(...curves.map((curve) => Math.min(...curve.map(angleOf))));
  const steps = 5;
  const vertex = (i: number): readonly [number, number, number] =>
    [0, 1, 2].map((k) => positions[3 * i + k] as number) as unknown as readonly [number, number, number];
  let worst = 0;
  let seen = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const corners = [0, 1, 2].map((k) => vertex(triangles[t + k] as number));
    if (corners.some(([x, y]) => outside > 0 && Math.hypot(x, y) > outside - 0.5)) continue;
    if ([0, faceWidth].some((face) => corners.every(([, , z]) => Math.abs(z - face) < 1e-4))) continue;
    // A few teeth stand for all.
    if (corners.some((p) => Math.abs(angleOf(p)) > 0.8 * pitch)) continue;
    seen++;
    for (let i = 0; i <= steps; i++) {
      for (let j = 0; i + j <= steps; j++) {
        const weights = [i / steps, j / steps, (steps - i - j) / steps];
        const [x, y, z] = [0, 1, 2].map((k) =>
          corners.reduce((sum, p, n) => sum + (weights[n] as number) * (p[k] as number), 0),
        ) as [number, number, number];
        const back = turned([x, y], -turnAt(z));
        const folded = turned(back, -pitch * Math.floor((angleOf(back) - from) / pitch));
        worst = Math.max(worst, Math.min(...curves.map((curve) => offCurve(curve, folded, 0, curve.length))));
      }
    }
  }
  expect(seen).toBeGreaterThan(20);
  return worst;
}

const figures = (name: string, made: number, least: number): void => {
  if (process.env.PATTERNWRIGHT_FIGURES) console.log(name, made, least, (made / least).toFixed(3));
};

describe('triangles of toothed bodies against the least number', () => {
  const named = (list: readonly GearCase[]) =>
    list.map((c) => [`${c.part} z ${c.teeth} β ${c.beta}°, tolerance ${c.tolerance}`, c] as const);

  it.each(named([...cases, ...rings]))('%s', (name, c) => {
    const own = c.part === 'ring-gear' ? {} : { bore: 0 };
    const helix = c.part === 'spur-gear' ? {} : { helixAngle: c.beta * degrees };
    const mesh = meshOf(
      c.part,
      { module: normalModule, teeth: c.teeth, profileShift: c.x, faceWidth, ...own, ...helix },
      c.tolerance,
    );
    const made = mesh.triangles.length / 3;
    const least = leastOfGear(c);
    figures(name, made, least);
    expect(made / least).toBeLessThanOrEqual(1.3);
    // The polyline of the bound is fine, not exact.
    expect(made / least).toBeGreaterThan(0.999);
    if (c.tolerance !== 0.01 || ![8, 17, 36, 120].includes(c.teeth)) return;
    const worst = worstDeviation(c, mesh);
    figures(`${name}: furthest off, µm`, 1000 * worst, 1000 * c.tolerance);
    expect(worst).toBeLessThanOrEqual(c.tolerance);
  });

  it.each([0, 20].flatMap((beta) => tolerances.map((tolerance) => [beta, tolerance] as const)))(
    'rack β %f°, tolerance %f',
    (beta, tolerance) => {
      const teeth = 12;
      const { triangles } = meshOf(
        'rack',
        { module: normalModule, teeth, helixAngle: beta * degrees, faceWidth },
        tolerance,
      );
      const made = triangles.length / 3;
      // ISO 53 profile A: straight flanks to 1.25 less the rounding's own depth below the datum line, then 0.38 m.
      const [alpha, rho] = [20 * degrees, 0.38 * normalModule];
      const start = 1.25 * normalModule - rho * (1 - Math.sin(alpha));
      const half = (y: number): number => (Math.PI * normalModule) / 4 - y * Math.tan(alpha);
      const centre: Flat = [half(-start) + rho * Math.cos(alpha), -start + rho * Math.sin(alpha)];
      const down = [
        ...Array.from({ length: 200 }, (_, i): Flat => {
          const y = normalModule - ((normalModule + start) * i) / 200;
          return [half(y), y];
        }),
        ...Array.from({ length: 401 }, (_, i): Flat => {
          const t = Math.PI + alpha + ((Math.PI / 2 - alpha) * i) / 400;
          return [centre[0] + rho * Math.cos(t), centre[1] + rho * Math.sin(t)];
        }),
      ].map(([x, y]): Flat => [x / Math.cos(beta * degrees), y]);
      const pitch = (Math.PI * normalModule) / Math.cos(beta * degrees);
      const space = [...down, ...[...down].reverse().map(([x, y]): Flat => [pitch - x, y])];
      const points = space.map(([x, y]) => [x, y, Math.cos(beta * degrees)] as const);
      // Edges run along every tooth that the bar has and those that its ends cut off, each with two ends; so do the
      // four of the bar itself. A closed surface without a hole has 2 n − 4 triangles at n corners.
      const cutOff = (faceWidth * Math.tan(beta * degrees)) / pitch;
      const edges = Math.floor((1 + fewestChords(points, tolerance)) * (teeth + cutOff));
      const least = 2 * (2 * edges + 4) - 4;
      figures(`rack ${beta} ${tolerance}`, made, least);
      expect(made / least).toBeLessThanOrEqual(1.3);
    },
  );
});
