import { beforeAll, describe, expect, it } from 'vitest';
import { basicRackProfiles } from '../../../core/gear/basic-rack.js';
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

/** Chords of one pitch: over the tip, and from its corner down to the root and up to the next tooth. */
function pitchChords(flank: readonly Flat[], teeth: number, rate: number, tolerance: number): number {
  // From tip corner to root.
  const root = flank.at(-1) as Flat;
  const corner = flank[0] as Flat;
  const pitch = (2 * Math.PI) / teeth;
  const land = arc(Math.hypot(...root), Math.atan2(root[1], root[0]), pitch - Math.atan2(root[1], root[0]));
  const up = [...flank].reverse().map(([x, y]) => turned([x, -y], pitch));
  const tip = arc(Math.hypot(...corner), -Math.atan2(corner[1], corner[0]), Math.atan2(corner[1], corner[0]));
  const space = withLean([...flank, ...land.slice(1, -1), ...up], rate);
  return fewestChords(withLean(tip, rate), tolerance) + fewestChords(space, tolerance);
}

interface Case {
  readonly part: 'spur-gear' | 'helical-gear' | 'double-helical-gear';
  readonly teeth: number;
  readonly tolerance: number;
  readonly x?: number;
  readonly bore: number;
}

const tolerances = [0.003, 0.01, 0.03];
const cases: readonly Case[] = (['spur-gear', 'helical-gear', 'double-helical-gear'] as const).flatMap(
  (part) =>
    [8, 12, 17, 24, 40, 80, 120].flatMap((teeth) =>
      tolerances.flatMap((tolerance) => [{ part, teeth, tolerance, x: teeth < 17 ? 0.4 : 0, bore: 0 }]),
    ),
);

function bound(c: Case): number {
  const beta = c.part === 'spur-gear' ? 0 : 25 * degrees;
  const tipDiameter = (normalModule * c.teeth) / Math.cos(beta) + 2 * normalModule * (1 + (c.x ?? 0));
  const oracle = rackOracle(
    {
      ...basicRackProfiles.A,
      normalModule,
      teeth: c.teeth,
      normalPressureAngle: 20 * degrees,
      helixAngle: beta,
      profileShift: c.x ?? 0,
      thinning: 0,
      tipDiameter,
    },
    2e-6,
  );
  const rate = Math.tan(beta) / oracle.referenceRadius;
  const flank = [...oracle.profile].reverse().map(({ x, y }): Flat => [x, y]);
  const chords = pitchChords(flank, c.teeth, rate, c.tolerance);
  const halves = c.part === 'double-helical-gear' ? 2 : 1;
  const strips = Array.from({ length: halves }, () =>
    beta === 0 ? 1 : fewestStrips(oracle.tipRadius, (rate * faceWidth) / halves, c.tolerance),
  );
  return leastTriangles({
    chords,
    teeth: c.teeth,
    strips,
    cylinder: c.bore > 0 ? fewestSides(c.bore / 2, c.tolerance) : 0,
  });
}

describe('triangles of toothed bodies against the least number', () => {
  it.each(cases.map((c) => [`${c.part} z ${c.teeth}, tolerance ${c.tolerance}`, c] as const))(
    '%s',
    (_, c) => {
      const made = trianglesOf(
        c.part,
        {
          module: normalModule,
          teeth: c.teeth,
          profileShift: c.x,
          faceWidth,
          bore: c.bore,
          ...(c.part === 'spur-gear' ? {} : { helixAngle: 25 * degrees }),
        },
        c.tolerance,
      );
      const least = bound(c);
      if (process.env.PATTERNWRIGHT_FIGURES)
        console.log(c.part, c.teeth, c.tolerance, made, least, made / least);
      expect(made / least).toBeLessThanOrEqual(1.3);
    },
  );
});
