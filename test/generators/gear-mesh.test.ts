import { beforeAll, describe, expect, it } from 'vitest';
import { basicRackProfiles } from '../../core/gear/basic-rack.js';
import { noStock, type Stock } from '../../core/part/stock.js';
import { loadKernel } from '../../core/solid/index.js';
import type { Kernel, Mesh } from '../../core/solid/types.js';
import { findPart } from '../../generators/index.js';
import { type RackOracle, rackOracle } from '../helpers/rack-oracle.js';
import { sliceMesh } from '../helpers/slice-mesh.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const degrees = Math.PI / 180;
const faceWidth = 16;
const normalModule = 2;
const tolerance = 0.01;

interface Case {
  readonly part: 'spur-gear' | 'helical-gear' | 'double-helical-gear';
  readonly z: number;
  readonly x: number;
  readonly beta: number;
  readonly rack: 'A' | 'B' | 'C' | 'D';
  readonly extra?: Record<string, unknown>;
}

const cases: readonly Case[] = [
  { part: 'spur-gear', z: 8, x: 0, beta: 0, rack: 'A' },
  { part: 'spur-gear', z: 8, x: -0.5, beta: 0, rack: 'C' },
  { part: 'spur-gear', z: 17, x: 0.4, beta: 0, rack: 'D' },
  { part: 'spur-gear', z: 120, x: 0.8, beta: 0, rack: 'B' },
  { part: 'helical-gear', z: 8, x: 0.4, beta: 35, rack: 'A' },
  { part: 'helical-gear', z: 12, x: -0.5, beta: 10, rack: 'A' },
  { part: 'helical-gear', z: 24, x: 0.8, beta: 20, rack: 'C', extra: { hand: 'left' } },
  { part: 'helical-gear', z: 120, x: -0.5, beta: 35, rack: 'A' },
  { part: 'double-helical-gear', z: 8, x: 0.3, beta: 25, rack: 'A' },
  { part: 'double-helical-gear', z: 40, x: 0, beta: 25, rack: 'A', extra: { lowerHand: 'right' } },
  { part: 'double-helical-gear', z: 17, x: 0, beta: 30, rack: 'B', extra: { apex: 'rounded', apexWidth: 5 } },
  { part: 'double-helical-gear', z: 120, x: 0.5, beta: 15, rack: 'A', extra: { apex: 'gap', apexWidth: 3 } },
];

/** The turn of a section, written down here once more from the definition of the helix. */
function turnAt(c: Case, z: number): number {
  if (c.part === 'spur-gear') return 0;
  const k = (2 * Math.sin(c.beta * degrees)) / (normalModule * c.z);
  if (c.part === 'helical-gear') return (c.extra?.hand === 'left' ? -1 : 1) * k * z;
  const up = c.extra?.lowerHand === 'right' ? -1 : 1;
  const away = Math.abs(z - faceWidth / 2);
  if (c.extra?.apex !== 'rounded') return up * k * away;
  const w = c.extra.apexWidth as number;
  return up * k * (away < w / 2 ? (away * away) / w : away - w / 4);
}

function buildMesh(c: Case, stock: Stock): Mesh {
  const part = findPart(c.part);
  if (!part) throw new Error(c.part);
  const parameters = part.parameters.parse({
    module: normalModule,
    teeth: c.z,
    profileShift: c.x,
    rackProfile: c.rack,
    faceWidth,
    bore: 0,
    ...(c.part === 'spur-gear' ? {} : { helixAngle: c.beta * degrees }),
    ...c.extra,
  });
  return kernel.scope(() => {
    const built = part.build(parameters, stock, { kernel, tolerance });
    if (built.solid === null) throw new Error(built.findings.map((f) => f.message).join());
    return built.solid.mesh();
  });
}

const oracleOf = (c: Case, chord: number): RackOracle =>
  rackOracle(
    {
      ...basicRackProfiles[c.rack],
      normalModule,
      teeth: c.z,
      helixAngle: c.beta * degrees,
      profileShift: c.x,
      thinning: 0,
      tipDiameter: (normalModule * c.z) / Math.cos(c.beta * degrees) + 2 * normalModule * (1 + c.x),
    },
    chord,
  );

const gap = (c: Case, z: number): boolean =>
  c.extra?.apex === 'gap' && Math.abs(z - faceWidth / 2) <= (c.extra.apexWidth as number) / 2;

describe('mesh slices against the brute-force rack', () => {
  it.each(cases.map((c) => [`${c.part} z ${c.z}, x ${c.x}, β ${c.beta}°, rack ${c.rack}`, c] as const))(
    '%s',
    (_, c) => {
      const mesh = buildMesh(c, noStock);
      const oracle = oracleOf(c, 1e-5);
      // Heights that fall on sections, between them and near the apex.
      const heights = [0.003, 1.37, 3.9, 6.6, 7.95, 8.05, 9.1, 12.44, 15.997].filter((z) => !gap(c, z));
      let worst = 0;
      let gaps = 0;
      for (const z of heights) {
        const turn = turnAt(c, z);
        const [cos, sin] = [Math.cos(-turn), Math.sin(-turn)];
        const segments = sliceMesh(mesh, z).map(
          ([x0, y0, x1, y1]) =>
            [cos * x0 - sin * y0, sin * x0 + cos * y0, cos * x1 - sin * y1, sin * x1 + cos * y1] as const,
        );
        expect(segments.length).toBeGreaterThan(8 * c.z);
        // Metal of the mesh lies on the true outline, corners and middles of the facets alike…
        const pitch = Math.PI / c.z;
        const nearTo = (x: number, y: number): boolean => Math.abs(Math.atan2(y, x)) < 1.01 * pitch;
        const near = segments.filter(([x0, y0, x1, y1]) => nearTo(x0, y0) || nearTo(x1, y1));
        for (const [x0, y0, x1, y1] of near) {
          for (const f of [0, 0.3, 0.5, 0.7]) {
            const point = [x0 + f * (x1 - x0), y0 + f * (y1 - y0)] as const;
            worst = Math.max(worst, Math.abs(oracle.distanceToTooth(...point)));
          }
        }
        // … and the true outline lies on the mesh.
        for (const p of oracle.profile.filter((_, i) => i % 7 === 0)) {
          let nearest = Number.POSITIVE_INFINITY;
          for (const [x0, y0, x1, y1] of near) {
            const [dx, dy] = [x1 - x0, y1 - y0];
            const f = Math.min(
              1,
              Math.max(0, ((p.x - x0) * dx + (p.y - y0) * dy) / (dx * dx + dy * dy || 1)),
            );
            nearest = Math.min(nearest, Math.hypot(p.x - x0 - f * dx, p.y - y0 - f * dy));
          }
          gaps = Math.max(gaps, nearest);
        }
      }
      // In the section a deviation looks longer than along the helicoid's normal, by 1/cos β at most.
      const seen = tolerance / Math.cos(c.beta * degrees);
      expect(worst).toBeLessThan(seen);
      expect(gaps).toBeLessThan(seen);
    },
  );
});

describe('flank stock on the mesh', () => {
  const stock: Stock = { ...noStock, flank: 0.15 };
  it.each(cases.map((c) => [`${c.part} z ${c.z}, x ${c.x}, β ${c.beta}°`, c] as const))(
    '%s stands off by the stock',
    (_, c) => {
      const mesh = buildMesh(c, stock);
      const oracle = oracleOf(c, 1e-5);
      let checked = 0;
      for (const z of [2.2, 5.1, 12.9]) {
        const turn = turnAt(c, z);
        const [cos, sin] = [Math.cos(-turn), Math.sin(-turn)];
        const segments = sliceMesh(mesh, z);
        const step = Math.max(1, Math.floor(segments.length / c.z / 40));
        for (let i = 0; i < segments.length; i += step) {
          const [x0, y0] = segments[i] as (typeof segments)[number];
          const [x, y] = [cos * x0 - sin * y0, sin * x0 + cos * y0];
          if (Math.abs(Math.atan2(y, x)) > Math.PI / c.z) continue;
          const deviation = oracle.deviationAt(x, y);
          // The tip has its own class; the undercut's corner is rounded off by no normal of its own.
          if (deviation.region === 'tip' || Math.hypot(x, y) > oracle.tipRadius - 2 * stock.flank) continue;
          if (isUndercutCorner(c, oracle, Math.hypot(x, y))) continue;
          const distance = oracle.normalDistanceToTooth(x, y);
          expect(Math.abs(distance - stock.flank)).toBeLessThan(0.002 + tolerance);
          checked++;
        }
      }
      expect(checked).toBeGreaterThan(20);
    },
  );
});

function isUndercutCorner(c: Case, oracle: RackOracle, radius: number): boolean {
  const undercut = c.z * Math.sin(20 * degrees) ** 2 < 2 * (1.1 - c.x) * Math.cos(c.beta * degrees);
  if (!undercut) return false;
  // The corner is where the tooth is widest above its waist.
  const widest = oracle.profile.reduce((a, b) => (b.radius > oracle.rootRadius + 0.8 && b.y > a.y ? b : a));
  return Math.abs(radius - widest.radius) < 0.8;
}
