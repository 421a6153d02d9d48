import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { drawFigure, drawSheet, formatSheet } from '../../core/report/drawing/index.js';
import { loadKernel } from '../../core/solid/index.js';
import type { Kernel } from '../../core/solid/types.js';
import { parts } from '../../generators/index.js';
import { drawnOf, expectEverySize, expectTextsApart, expectTrueLengths } from '../helpers/drawn.js';
import { givenSeed } from '../helpers/given-seed.js';
import { legalParameters, propertyRuns } from '../helpers/legal-parameters.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const castings = parts.flatMap((part) =>
  (part.pieces ?? [undefined]).map(
    (piece) => [piece ? `${part.name}, ${piece.name}` : part.name, part, piece?.name] as const,
  ),
);
const runs = Math.ceil(propertyRuns / 4);
const seed = givenSeed(20261125);

describe.each(castings)('drawing of %s over its whole legal space', (_, part, piece) => {
  it(`states every size truly and keeps its words apart (${runs} sets, seed ${seed})`, {
    timeout: 1_200_000,
  }, () => {
    let drawnSets = 0;
    fc.assert(
      fc.property(legalParameters(part), fc.constantFrom('mm', 'in'), (parameters, lengthUnit) => {
        const made = drawnOf(kernel, part, parameters, { tolerance: 0.1, piece });
        if (!made) return;
        drawnSets++;
        const view = { lengthUnit, degrees: 'C' } as const;
        expectTextsApart(drawSheet(made.subject, made.drawn, view));
        expectTextsApart(drawFigure(made.subject, made.drawn, view));
        const svg = formatSheet(made.subject, made.drawn, view);
        expect(svg).not.toMatch(/NaN|undefined|Infinity/);
        expectEverySize(svg, made, lengthUnit);
        expectTrueLengths(made);
      }),
      { seed, numRuns: runs },
    );
    expect(drawnSets).toBeGreaterThan(0);
  });
});
