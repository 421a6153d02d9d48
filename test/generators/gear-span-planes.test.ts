import { beforeAll, describe, expect, it } from 'vitest';
import { loadKernel } from '../../core/solid/index.js';
import type { Kernel } from '../../core/solid/types.js';
import { type BuiltStates, buildStates, measuredStates } from '../helpers/built-states.js';
import { type GearToMeasure, spanOverTeeth } from '../helpers/gear-gauge.js';

/**
 * Two parallel planes closed on the meshes over k teeth, rocked out of the transverse plane for the least reading as a
 * disc micrometer is, against the W_k of the inspection sheet.
 */
let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const deg = Math.PI / 180;
const tolerance = 0.003;
const stock = { flank: 0.12, tip: 0.12, face: 0.3 };
const growth = 1.0182;

interface SpanCase {
  readonly part: 'spur-gear' | 'helical-gear' | 'double-helical-gear';
  readonly parameters: Readonly<Record<string, unknown>>;
}

const spur = (parameters: SpanCase['parameters']): SpanCase => ({
  part: 'spur-gear',
  parameters: { module: 2, faceWidth: 6, bore: 0, ...parameters },
});
const helical = (beta: number, parameters: SpanCase['parameters']): SpanCase => ({
  part: 'helical-gear',
  parameters: { module: 2, bore: 0, helixAngle: beta * deg, ...parameters },
});

const cases: Readonly<Record<string, SpanCase>> = {
  'spur 24': spur({ teeth: 24 }),
  'spur 19, x 0.4, thinned': spur({ teeth: 19, profileShift: 0.4, thinning: 0.08 }),
  'spur 45, x −0.3, thinned': spur({ teeth: 45, profileShift: -0.3, thinning: 0.12 }),
  'spur 30 of 25°, x 0.2': spur({ teeth: 30, profileShift: 0.2, pressureAngle: 25 * deg, rootRadius: 0.2 }),
  'helical 22 of 15°': helical(15, { teeth: 22, faceWidth: 14 }),
  'helical 18 of 25°, x 0.3, thinned, left': helical(25, {
    ...{ teeth: 18, faceWidth: 18, hand: 'left', profileShift: 0.3, thinning: 0.06 },
  }),
  'helical 33 of 30°, x −0.1': helical(30, { teeth: 33, faceWidth: 26, profileShift: -0.1, thinning: 0.05 }),
  'double-helical 20 of 22°, thinned': {
    part: 'double-helical-gear',
    parameters: { module: 2, bore: 0, teeth: 20, helixAngle: 22 * deg, faceWidth: 36, thinning: 0.07 },
  },
};

const statesOf = ({ part, parameters }: SpanCase, chord = tolerance): BuiltStates =>
  buildStates(kernel, part, parameters, { stock, growth, tolerance: chord });

const gaugeOf = (c: SpanCase, built: BuiltStates, state: (typeof measuredStates)[number]): GearToMeasure => ({
  mesh: built.meshes[state],
  teeth: c.parameters.teeth as number,
  halves: c.part === 'double-helical-gear' ? 2 : 1,
});

const spanRow = ({ rows }: BuiltStates) => rows.find(({ symbol }) => symbol.startsWith('W_'));

describe('planes closed over k teeth', () => {
  it.each(Object.entries(cases))('%s: W_k of part, casting and pattern', (title, c) => {
    const built = statesOf(c);
    const row = spanRow(built);
    if (!row) throw new Error('no span is listed');
    const k = Number(row.symbol.slice(2));
    for (const state of measuredStates) {
      const { span, middleSpan, tilt } = spanOverTeeth(gaugeOf(c, built, state), k);
      const off = span - row[state];
      if (process.env.PATTERNWRIGHT_FIGURES) {
        const [w, µm] = [row[state].toFixed(4), (1000 * off).toFixed(2)];
        console.log(
          `${title}, ${state}: W_${k} ${w}, planes ${µm} µm off, tilted ${(tilt / deg).toFixed(3)}°`,
        );
      }
      // A flank under each plane, off by the tolerance at most (times growth on the pattern).
      expect(Math.abs(off)).toBeLessThan(2 * tolerance * growth);
      // They touch the flanks and not the ends of their reach.
      expect(span - middleSpan).toBeLessThan(2 * tolerance * growth);
      // Rocked they lie flat in the transverse plane on spur teeth, and clearly out of it on helical ones.
      if (c.part === 'spur-gear') expect(Math.abs(tilt)).toBeLessThan(0.2 * deg);
      else expect(Math.abs(tilt)).toBeGreaterThan(10 * deg);
    }
  });
});

describe('a face too narrow for a helical span', () => {
  const coarse = 0.005;
  const wide = helical(28, { teeth: 24, faceWidth: 24, thinning: 0.05 });
  const narrowed = (faceWidth: number): SpanCase => ({
    ...wide,
    parameters: { ...wide.parameters, faceWidth },
  });

  it('is refused by the inspection sheet, which measures one tooth instead', () => {
    const built = statesOf(narrowed(7), coarse);
    const symbols = built.rows.map(({ symbol }) => symbol);
    expect(spanRow(built)).toBeUndefined();
    expect(symbols).toContain('s_c');
    expect(symbols).toContain('h_c');
    expect(symbols.some((symbol) => symbol.startsWith('M_'))).toBe(true);
  });

  it('because the planes would not find both flanks there: they read short', () => {
    const built = statesOf(wide, coarse);
    const row = spanRow(built);
    if (!row) throw new Error('no span is listed');
    const k = Number(row.symbol.slice(2));
    const narrow = narrowed(7);
    const { span } = spanOverTeeth(gaugeOf(narrow, statesOf(narrow, coarse), 'part'), k);
    expect(row.part - span).toBeGreaterThan(0.02);
  });

  it('and no narrower face is given a span that the planes do not find', () => {
    let [given, refused] = [0, 0];
    for (const faceWidth of [7.5, 8.5, 10, 14]) {
      const c = narrowed(faceWidth);
      const built = statesOf(c, coarse);
      const row = spanRow(built);
      if (!row) {
        refused++;
        continue;
      }
      given++;
      const { span } = spanOverTeeth(gaugeOf(c, built, 'part'), Number(row.symbol.slice(2)));
      expect(Math.abs(span - row.part)).toBeLessThan(2 * coarse);
    }
    expect(given).toBeGreaterThan(1);
    expect(refused).toBeGreaterThan(1);
  });
});
