import { beforeAll, describe, expect, it } from 'vitest';
import { gearFromRack } from '../../../core/gear/basic-rack.js';
import { internalForm, usualCutterTeeth } from '../../../core/gear/internal-form.js';
import { noStock } from '../../../core/part/stock.js';
import { loadKernel } from '../../../core/solid/index.js';
import type { Kernel } from '../../../core/solid/types.js';
import { findPart } from '../../../generators/index.js';
import {
  type Flat,
  fewestChords,
  fewestSides,
  fewestStrips,
  leastTriangles,
  withLean,
} from '../../helpers/least-triangles.js';
import { rackOracle } from '../../helpers/rack-oracle.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const degrees = Math.PI / 180;
const normalModule = 2;
const faceWidth = 24;

const trianglesOf = (name: string, parameters: Record<string, unknown>, tolerance: number): number => {
  const part = findPart(name);
  if (!part) throw new Error(name);
  return kernel.scope(() => {
    const built = part.build(part.parameters.parse(parameters), noStock, { kernel, tolerance });
    if (built.solid === null) throw new Error(built.findings.map((f) => f.message).join());
    return built.solid.mesh().triangles.length / 3;
  });
};

const arc = (radius: number, from: number, to: number, steps = 400): readonly Flat[] =>
  Array.from({ length: steps + 1 }, (_, i): Flat => {
    const t = from + ((to - from) * i) / steps;
    return [radius * Math.cos(t), radius * Math.sin(t)];
  });

const turned = ([x, y]: Flat, angle: number): Flat => [
  x * Math.cos(angle) - y * Math.sin(angle),
  x * Math.sin(angle) + y * Math.cos(angle),
];

/**
 * Chords of one pitch: over the land between two corners, and from corner to corner through the space.
 * @param flank dense, from the corner at the open end of a space to its bottom; the tooth (or space) is centred on +X
 * @param bottom angle, rad, where the other side of the space begins: the flank's mirror image turned by twice this
 */
function pitchChords(
  flank: readonly Flat[],
  teeth: number,
  spaceAt: number,
  rate: number,
  tolerance: number,
): number {
  const [corner, root] = [flank[0] as Flat, flank.at(-1) as Flat];
  const angle = ([x, y]: Flat): number => Math.atan2(y, x);
  const other = (p: Flat): Flat => turned([p[0], -p[1]], 2 * spaceAt);
  const bottom = arc(Math.hypot(...root), angle(root), 2 * spaceAt - angle(root));
  const space = withLean([...flank, ...bottom.slice(1, -1), ...[...flank].reverse().map(other)], rate);
  const middle = spaceAt - Math.PI / teeth;
  const land = arc(Math.hypot(...corner), angle(corner), 2 * middle - angle(corner));
  return fewestChords(withLean(land, rate), tolerance) + fewestChords(space, tolerance);
}

interface Case {
  readonly part: 'spur-gear' | 'helical-gear' | 'double-helical-gear' | 'ring-gear';
  readonly teeth: number;
  readonly tolerance: number;
  readonly x: number;
  /** Degrees. */
  readonly beta: number;
}

const tolerances = [0.003, 0.01, 0.03];
const cases: readonly Case[] = (
  [
    ['spur-gear', 0],
    ['helical-gear', 25],
    ['double-helical-gear', 25],
  ] as const
).flatMap(([part, beta]) =>
  [8, 12, 17, 24, 40, 80, 120].flatMap((teeth) =>
    tolerances.map((tolerance) => ({ part, teeth, tolerance, beta, x: teeth < 17 ? 0.4 : 0 })),
  ),
);
const rings: readonly Case[] = [0, 20].flatMap((beta) =>
  [36, 60, 120].flatMap((teeth) =>
    tolerances.map((tolerance) => ({ part: 'ring-gear' as const, teeth, tolerance, beta, x: 0 })),
  ),
);

const specOf = ({ teeth, beta, x }: Case) =>
  gearFromRack('A', { normalModule, teeth, helixAngle: beta * degrees, profileShift: x });

/** Polylines of exact curves err by far less than the tolerance that chords are counted for. */
const fineness = 1 / 500;

function bound(c: Case): number {
  const spec = specOf(c);
  const radius = (normalModule * c.teeth) / Math.cos(spec.helixAngle) / 2;
  const rate = Math.tan(spec.helixAngle) / radius;
  if (c.part === 'ring-gear') {
    const made = internalForm(spec, usualCutterTeeth(c.teeth));
    if (!made.ok) throw new Error('no ring');
    const { curves, rootRadius, tipRadius } = made.space;
    const flank = [...curves]
      .reverse()
      .flatMap((curve) =>
        Array.from({ length: 401 }, (_, i) => curve.at(curve.to + ((curve.from - curve.to) * i) / 400)),
      );
    const outside = tipRadius + 1.2 * 2.25 * normalModule;
    return leastTriangles({
      chords: pitchChords(
        flank.map(([x, y]): Flat => [x, -y]),
        c.teeth,
        0,
        rate,
        c.tolerance,
      ),
      teeth: c.teeth,
      strips: [fewestStrips(rootRadius, rate * faceWidth, c.tolerance)],
      cylinder: fewestSides(outside, c.tolerance),
    });
  }
  const tipDiameter = 2 * radius + 2 * normalModule * (1 + c.x);
  const oracle = rackOracle({ ...spec, tipDiameter }, c.tolerance * fineness);
  const flank = [...oracle.profile].reverse().map(({ x, y }): Flat => [x, y]);
  const halves = c.part === 'double-helical-gear' ? 2 : 1;
  return leastTriangles({
    chords: pitchChords(flank, c.teeth, Math.PI / c.teeth, rate, c.tolerance),
    teeth: c.teeth,
    strips: Array.from({ length: halves }, () =>
      rate === 0 ? 1 : fewestStrips(oracle.tipRadius, (rate * faceWidth) / halves, c.tolerance),
    ),
    cylinder: 0,
  });
}

const figures = (name: string, made: number, least: number): void => {
  if (process.env.PATTERNWRIGHT_FIGURES) console.log(name, made, least, (made / least).toFixed(3));
};

describe('triangles of toothed bodies against the least number', () => {
  const named = (list: readonly Case[]) =>
    list.map((c) => [`${c.part} z ${c.teeth} β ${c.beta}°, tolerance ${c.tolerance}`, c] as const);

  it.each(named([...cases, ...rings]))('%s', (name, c) => {
    const own = c.part === 'ring-gear' ? {} : { bore: 0 };
    const helix = c.part === 'spur-gear' ? {} : { helixAngle: c.beta * degrees };
    const made = trianglesOf(
      c.part,
      { module: normalModule, teeth: c.teeth, profileShift: c.x, faceWidth, ...own, ...helix },
      c.tolerance,
    );
    const least = bound(c);
    figures(name, made, least);
    expect(made / least).toBeLessThanOrEqual(1.3);
  });

  it.each([0, 20].flatMap((beta) => tolerances.map((tolerance) => [beta, tolerance] as const)))(
    'rack β %f°, tolerance %f',
    (beta, tolerance) => {
      const teeth = 12;
      const made = trianglesOf(
        'rack',
        { module: normalModule, teeth, helixAngle: beta * degrees, faceWidth },
        tolerance,
      );
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
