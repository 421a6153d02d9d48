/** What is read of fields besides late places, and all of it for moulds that are frozen in earnest. */
import { beforeAll, describe, expect, test } from 'vitest';
import { findAlloy } from '../../../core/foundry/alloys/index.js';
import { defaultGatingSettings, gatingMetal, planGating } from '../../../core/foundry/gating/index.js';
import { findInvestment } from '../../../core/foundry/investment.js';
import type { GatingPlan } from '../../../core/foundry/plans.js';
import { type CastFields, cellRole, leastShare } from '../../../core/freeze/cast-fields.js';
import { freezingMetal, mouldSubstance } from '../../../core/freeze/cast-substances.js';
import { mixedStart, runFreeze } from '../../../core/freeze/freeze.js';
import { gridOf, stretchedEdges } from '../../../core/freeze/grid.js';
import type { FillPlan } from '../../../core/freeze/plans.js';
import { readFacePeak } from '../../../core/freeze/readings/face-peak.js';
import {
  latePlaces,
  moveAfter,
  niyamaLimit,
  quenchTemperature,
  readFeed,
  readFreeze,
  readNiyama,
  remediesFor,
} from '../../../core/freeze/readings/index.js';
import { fillShares } from '../../../core/freeze/voxels.js';
import { hasStop } from '../../../core/part/finding.js';
import { loadKernel } from '../../../core/solid/kernel.js';
import type { Kernel, Solid, Vec3 } from '../../../core/solid/types.js';
import { evenGrid, fieldsOf, rowOf } from '../../helpers/freeze-readings.js';

const bronze = findAlloy('tin-bronze')!;
const plaster = findInvestment('gypsum-bonded');

/** A block of 40 × 40 × 20 mm gated on top. */
const gating: GatingPlan = planGating({
  gates: [{ name: 'top', at: [0, 0, 20], innerDiameter: 0, outerDiameter: 30 }],
  vents: [],
  casting: { volume: 32_000, area: 6400, mass: 250, top: 20, bottom: 0, radius: 28.3 },
  metal: gatingMetal(bronze, plaster),
});

const filled: FillPlan = {
  total: 2,
  castings: 1.5,
  flow: { first: 2e4, last: 1e4 },
  backPressure: 10,
  history: [],
  unreached: 0,
  margin: 30,
  marginAt: [0, 0, 0],
  marginLimit: 2,
  thinPlaces: [],
};

const read = (fields: CastFields, fill: FillPlan = filled, metal = 1100) =>
  readFreeze(fields, {
    alloy: bronze,
    investment: plaster,
    gating,
    settings: defaultGatingSettings,
    level: 'coarse',
    cell: 1,
    steps: 100,
    imbalance: 1e-6,
    start: { metal, mould: 500, delay: 60 },
    fill,
    edgeRadius: { lowest: 0.2, highest: 0.3 },
    quenchAt: 900,
  });

describe('single readings', () => {
  test('the gating this is tested with can be built', () => expect(hasStop(gating.findings)).toBe(false));

  test('feed: the gating plan’s own figures, and the liquid’s contraction', () => {
    const { demand, supply } = readFeed(gating, bronze, 32_000, bronze.liquidus + 150);
    expect(supply).toBe(gating.fill.feedSupply);
    // Liquid copper loses 0.80 kg/m³ a degree of 8000 (Iida and Guthrie, from memory): 1.5 % in 150 °C.
    expect((demand - gating.fill.feedDemand) / 32_000).toBeCloseTo(0.015, 3);
    expect(readFeed(gating, bronze, 32_000, bronze.liquidus - 10).demand).toBe(gating.fill.feedDemand);
  });

  test('Niyama’s limit: 1 √(K·min)/cm is 0.775 √(K·s)/mm', () => {
    // 10 K/cm and 100 K/min are just on it.
    expect(10 / 10 / Math.sqrt(100 / 60)).toBeCloseTo(niyamaLimit, 12);
    expect(niyamaLimit).toBeCloseTo(0.775, 3);
  });

  test('Niyama’s measure counts castings alone, by metal', () => {
    const fields = rowOf('.cccg', [0, 10, 10, 10, 20]);
    const gradient = Float32Array.of(0, 2, 1, 0.5, 0.01);
    const coolingRate = Float32Array.of(0, 4, 4, 4, 4);
    const told = readNiyama({ ...fields, gradient, coolingRate });
    expect(told.least).toBeCloseTo(0.25, 6);
    expect(told.below).toBeCloseTo(2 / 3, 6);
    expect(readNiyama(rowOf('.g', [0, 5]))).toEqual({ limit: niyamaLimit, below: 0, least: 0 });
  });

  test('quench temperatures: black heat for copper, lower for what melts low', () => {
    const at = (name: string): number => quenchTemperature(findAlloy(name)!);
    expect(at('tin-bronze')).toBe(480);
    // 0.75 × (555 + 273.15) − 273.15
    expect(at('a356')).toBeCloseTo(347.96, 2);
    expect(at('pewter')).toBeCloseTo(114.71, 2);
    for (const name of ['tin-bronze', 'a356', 'pewter', 'za-12', 'sterling-silver', 'grey-iron'])
      expect(at(name)).toBeLessThan(findAlloy(name)!.solidus - 90);
  });

  test('moved a quarter later than it is solid', () => expect(moveAfter(400)).toBe(500));

  test('the face’s peak and where', () => {
    const fields = rowOf('.c.', [0, 10, 0]);
    const told = readFacePeak({ ...fields, facePeak: Float32Array.of(900, 0, 1000) }, plaster);
    expect(told).toEqual({ temperature: 1000, at: [7.5, 1.5, 1.5], limit: 1200 });
  });
});

/** Rows of 8 cells of 3 mm for each letter. */
const row = (roles: string, times: readonly number[]): CastFields =>
  rowOf(
    [...roles].map((r) => r.repeat(8)).join(''),
    times.flatMap((t) => Array<number>(8).fill(t)),
  );

describe('the plan', () => {
  test('times, cells and findings of a sound mould', () => {
    const plan = read(row('.ccg', [0, 50, 80, 120]));
    expect(plan.solid).toEqual({ castings: 80, all: 120 });
    expect(plan).toMatchObject({ cells: 32, move: 150, quench: { at: 900, temperature: 480 } });
    expect(plan.latePlaces).toHaveLength(1);
    expect(plan.latePlaces[0]).not.toHaveProperty('neckIn');
    expect(plan.findings.filter((f) => f.severity !== 'note')).toEqual([]);
    expect(JSON.parse(JSON.stringify(plan))).toEqual(plan);
  });

  test('cut off at the gate, and in the casting: findings with what to change', () => {
    const atGate = read(row('cgg', [90, 40, 120]));
    const inCasting = read(row('cccg', [60, 90, 40, 120]));
    expect(atGate.findings.map((f) => f.code)).toContain('cut-off-at-gate');
    expect(inCasting.findings.map((f) => f.code)).toContain('cut-off-in-casting');
    const names = (plan: typeof atGate) => remediesFor(plan, gating, defaultGatingSettings);
    expect(names(atGate).map((t) => Object.keys(t.settings)[0])).toEqual([
      'leastSprueDiameter',
      'modulusRatio',
      'cupLeastDiameter',
      'gates',
    ]);
    expect(names(atGate)[0]!.settings.leastSprueDiameter).toBeCloseTo(1.15 * gating.sprue.bottomDiameter, 2);
    expect(names(inCasting).map((t) => t.settings)).toContainEqual({ gates: 2 });
    expect(remediesFor(read(row('ccg', [50, 80, 120])), gating, defaultGatingSettings)).toEqual([]);
  });

  test('each remedy is settings that gating can be planned with', () => {
    const fill = { ...filled, unreached: 500, margin: 0.5 };
    const thin = { at: [1, 2, 3] as Vec3, volume: 30, margin: 0.5, thickness: 1.2 };
    const plan = read(row('cgg', [90, 40, 120]), { ...fill, thinPlaces: [thin] });
    expect(plan.findings.map((f) => [f.severity, f.code])).toEqual(
      expect.arrayContaining([
        ['warn', 'cavity-not-reached'],
        ['warn', 'may-not-fill'],
        ['note', 'cut-off-at-gate'],
      ]),
    );
    const trials = remediesFor(plan, gating, defaultGatingSettings);
    expect(trials.length).toBeGreaterThan(5);
    for (const { settings } of trials.filter((t) => t.settings.gates === undefined)) {
      const again = planGating({
        gates: [{ name: 'top', at: [0, 0, 20], innerDiameter: 0, outerDiameter: 30 }],
        vents: [],
        casting: { volume: 32_000, area: 6400, mass: 250, top: 20, bottom: 0, radius: 28.3 },
        metal: gatingMetal(bronze, plaster),
        settings,
      });
      expect(hasStop(again.findings)).toBe(false);
    }
  });

  test('a face hotter than the investment stands', () => {
    const fields = row('.cg', [0, 50, 120]);
    const facePeak = fields.facePeak.map((_, c) => (c === 7 ? 1250 : 0));
    expect(read({ ...fields, facePeak }).findings.map((f) => f.code)).toContain('face-too-hot');
    expect(read(fields).findings.map((f) => f.code)).not.toContain('face-too-hot');
  });
});

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

/** Bronze at 1050 °C in a block of plaster at 500 °C. */
function frozen(shape: () => { readonly casting: Solid; readonly gating: Solid }, half: Vec3, step: number) {
  const { own, all } = kernel.scope(() => {
    const { casting, gating: feeder } = shape();
    return { own: casting.mesh(), all: casting.add(feeder).mesh() };
  });
  const axis = (h: number) => stretchedEdges([-h - 30, h + 30], [-h, h], step);
  const grid = gridOf(axis(half[0]), axis(half[1]), axis(half[2]));
  const share = fillShares(all, grid);
  const mine = fillShares(own, grid);
  const [metal, mould] = [freezingMetal(bronze), mouldSubstance(plaster)];
  const result = runFreeze({
    grid,
    share,
    metal,
    mould,
    contactResistance: 1e3,
    surroundings: { temperature: 500, convection: 0, emissivity: 0 },
    start: mixedStart({ share, metal, mould }, 1050, 500),
  });
  const role = Uint8Array.from(share, (s, c) =>
    s < leastShare ? cellRole.mould : mine[c]! >= s / 2 ? cellRole.casting : cellRole.gating,
  );
  return fieldsOf(grid, result.solidAt, role, { ...result, share });
}

const feeding = { freezingShrinkage: bronze.freezingShrinkage, feederEfficiency: 0.14 };

describe('frozen in earnest', () => {
  const cube = (x: number, size: number): Solid =>
    kernel.box([x - size / 2, -size / 2, -size / 2], [x + size / 2, size / 2, size / 2]);
  const bar = (from: number, to: number, thick: number): Solid =>
    kernel.box([from, -thick / 2, -thick / 2], [to, thick / 2, thick / 2]);

  test('a cube behind a long thin neck is cut off in it; behind a thick one it is fed', () => {
    const dumbBell = (neck: number): CastFields =>
      frozen(
        () => ({ casting: cube(-36, 20).add(bar(-30, 20, neck)), gating: cube(34, 30) }),
        [50, 16, 16],
        2,
      );
    const [place, ...others] = latePlaces(dumbBell(3), feeding).filter((p) => p.cutOff > 0);
    expect(others).toEqual([]);
    expect(place!.at[0]).toBeGreaterThan(-46);
    expect(place!.at[0]).toBeLessThan(-26);
    expect(place!.neck![0]).toBeGreaterThan(-26);
    expect(place!.neck![0]).toBeLessThan(20);
    expect(place!.cutOff).toBeGreaterThan(500);
    expect(place!.cutOff).toBeLessThan(20 ** 3 + 200);
    expect(place!.leastGradient).toBeGreaterThan(0);
    expect(latePlaces(dumbBell(14), feeding).reduce((s, p) => s + p.void, 0)).toBeLessThan(0.2 * place!.void);
  });

  test('an L fed at one end: the boss on its other end is cut off by the thin leg', () => {
    const fields = frozen(
      () => ({
        casting: bar(-24, 16, 4).add(
          kernel.box([-26, -2, -26], [-22, 2, 2]),
          kernel.box([-34, -10, -40], [-14, 10, -20]),
        ),
        gating: cube(26, 26),
      }),
      [42, 14, 42],
      2,
    );
    const [boss] = latePlaces(fields, feeding).filter((p) => p.cutOff > 0);
    expect(boss!.at[2]).toBeLessThan(-20);
    const [x, , z] = boss!.neck!;
    expect(z > -20 && x < 14).toBe(true);
    expect(boss!.shutAt).toBeLessThan(0.9 * boss!.solidAt);
  });

  test('a block alone has all of itself cut off', () => {
    const grid = evenGrid([4, 4, 4], 2);
    const time = Array.from({ length: grid.size }, (_, c) => 10 + (c % 5));
    const told = latePlaces(fieldsOf(grid, time, Array<number>(grid.size).fill(cellRole.casting)), feeding);
    expect(told.reduce((s, p) => s + p.cutOff, 0)).toBeCloseTo(512, 3);
  });
});
