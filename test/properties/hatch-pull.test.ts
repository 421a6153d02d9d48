import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fieldRegistry } from '../../core/part/fields.js';
import { noStock, type Stock } from '../../core/part/stock.js';
import { inspectMesh } from '../../core/solid/inspect.js';
import hatchPull from '../../generators/hatch-pull.js';
import { tryBuild } from '../generators/hatch-pull-probe.js';

const seed = 40_217;
const numRuns = Number(process.env.PATTERNWRIGHT_RUNS ?? 200);

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const shape = hatchPull.parameters.shape as Record<string, Parameters<typeof fieldRegistry.get>[0]>;

/** The whole legal space, straight from the schema: each parameter given or left out. */
const anywhere = fc.record(
  Object.fromEntries(
    Object.entries(shape).map(([name, schema]) => {
      const field = fieldRegistry.get(schema);
      if (!field) throw new Error(`${name} has no field facts`);
      if (field.choices) return [name, fc.constantFrom(...field.choices)];
      const [min, max] = [field.min as number, field.max as number];
      return [name, field.kind === 'count' ? fc.integer({ min, max }) : real(min, max)];
    }),
  ),
  { requiredKeys: [] },
);

/** Nearer to what a person would ask for, so that most of them can be made; half of them on whole sizes. */
const likely = fc
  .record({
    size: real(14, 100),
    round: fc.boolean(),
    fixed: fc.record(
      {
        fingers: fc.constantFrom(1, 2),
        section: fc.constantFrom('bevelled', 'oval'),
        tab: fc.constantFrom('square', 'round', 'leaf', 'plate'),
        series: fc.constantFrom('metric', 'inch'),
        hole: fc.constantFrom('auto', 'cored', 'drilled'),
        lipAngle: real(0.0873, 0.698),
        pinClearance: real(0, 1),
      },
      { requiredKeys: [] },
    ),
    scaled: fc.record(
      {
        eyeWidth: real(0.8, 1.5),
        eyeLength: real(0.8, 1.5),
        rimWidth: real(0.18, 0.4),
        thickness: real(0.18, 0.4),
        bevel: fc.oneof(fc.constant(0), real(0, 0.08)),
        lipLength: fc.oneof(fc.constant(0), real(0, 0.3)),
        tabWidth: real(0.3, 1.2),
        pinDiameter: real(0.05, 0.2),
        pinDistance: real(0.45, 1.2),
        pinToEnd: real(0.12, 0.3),
        filletRadius: real(0.05, 0.3),
      },
      { requiredKeys: [] },
    ),
  })
  .map(({ size, round, fixed, scaled }) => {
    const neat = (value: number) => (round ? Math.round(value * 2) / 2 : value);
    const given: Record<string, unknown> = { ...fixed, size: neat(size) };
    for (const [name, factor] of Object.entries(scaled)) {
      const field = fieldRegistry.get(shape[name]!)!;
      given[name] = Math.min(field.max!, Math.max(field.min!, neat((factor as number) * size)));
    }
    return given;
  });

const anyStock: fc.Arbitrary<Stock> = fc.oneof(
  fc.constant(noStock),
  fc.record({ skin: real(0, 1), mating: real(0, 1.5), bore: real(0, 1) }).map((s) => ({ ...noStock, ...s })),
  fc.constantFrom(0.3, 0.5).map((s) => ({ ...noStock, skin: s, mating: s, bore: s })),
);

const symbols = (built: { dimensions: readonly { symbol: string; value: number }[] }) =>
  Object.fromEntries(built.dimensions.map((d) => [d.symbol, d.value]));

/** Builds and checks one; true when it was made, false when it was refused with a `stop`. */
function check(given: Record<string, unknown>, stock: Stock, chord: number): boolean {
  const built = tryBuild(given, stock, [], chord);
  const stops = built.findings.filter((f) => f.severity === 'stop');
  for (const f of built.findings)
    expect(`${f.message} ${f.remedy}`).not.toMatch(/NaN|undefined|Infinity|null|(^| )-\d/);
  if ('solid' in built) {
    expect(stops.length).toBeGreaterThan(0);
    return false;
  }
  expect(stops).toEqual([]);
  const report = inspectMesh(built.mesh);
  expect(report.problems).toEqual([]);
  expect(report.ok).toBe(true);
  expect(report.components).toBe(1);
  expect(built.volume).toBeGreaterThan(0);
  const holds = (symbol: string) => (built.dimensions.find((d) => d.symbol === symbol)?.value ?? 0) > 0;
  expect(report.genus).toBe(1 + (holds('d_h') ? 1 : 0) + (holds('d_s') ? 2 : 0));
  for (const d of built.dimensions) {
    expect(Number.isFinite(d.value)).toBe(true);
    expect(d.value).toBeGreaterThanOrEqual(0);
  }
  const box = report.boundingBox!;
  const extent = (symbol: string) => built.dimensions.find((d) => d.symbol === symbol)!.value;
  // The oval's mesh meets its crowns within the tolerance; a faced tab stands over or under its ring's underside.
  const oval = given.section === 'oval';
  const within = oval ? 2 * chord : 5e-4;
  expect(Math.abs(box.max[0] - box.min[0] - extent('l'))).toBeLessThan(within);
  expect(Math.abs(box.max[1] - box.min[1] - extent('b'))).toBeLessThan(within);
  const step = oval && 'l_t' in symbols(built) ? Math.max(0, stock.mating - stock.skin) : 0;
  expect(Math.abs(box.max[2] - box.min[2] - extent('t') - step)).toBeLessThan(within);
  expect(built.gates).toHaveLength(1);
  for (const g of built.gates) expect(g.outerDiameter).toBeGreaterThan(0);
  for (const v of built.vents) expect(v.footDiameter).toBeGreaterThan(0);
  const places = [
    ...built.gates.map((g) => ({ at: g.at, diameter: g.outerDiameter })),
    ...built.vents.map((v) => ({ at: v.at, diameter: v.footDiameter })),
  ];
  places.forEach((a, i) => {
    for (const b of places.slice(i + 1))
      expect(Math.hypot(a.at[0] - b.at[0], a.at[1] - b.at[1])).toBeGreaterThan((a.diameter + b.diameter) / 2);
  });
  return true;
}

describe(`hatch pull, ${numRuns} sets, seed ${seed}`, () => {
  it('likely sizes: a sound mesh of one piece, or a stop', { timeout: 600_000 + 400 * numRuns }, () => {
    let made = 0;
    fc.assert(
      fc.property(likely, anyStock, fc.constantFrom(0.005, 0.01, 0.02, 0.05), (given, stock, chord) => {
        if (check(given, stock, chord)) made++;
      }),
      { seed, numRuns },
    );
    expect(made / numRuns).toBeGreaterThan(0.2);
  });

  it('the whole legal space: a sound mesh of one piece, or a stop', {
    timeout: 600_000 + 400 * numRuns,
  }, () => {
    fc.assert(
      fc.property(anywhere, anyStock, (given, stock) => {
        check(given, stock, 0.02);
      }),
      { seed, numRuns },
    );
  });
});
