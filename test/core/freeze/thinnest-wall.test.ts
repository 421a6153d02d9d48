/** The thinnest wall that fills a hot plaster mould, by calculation and by the trade. */
import { expect, test } from 'vitest';
import { type Alloy, findAlloy } from '../../../core/foundry/alloys/index.js';
import { findInvestment, type Investment } from '../../../core/foundry/investment.js';
import { contactResistance, freezingMetal, mouldSubstance } from '../../../core/freeze/cast-substances.js';
import { marginLimit } from '../../../core/freeze/fill/thin-places.js';
import { mixedStart, runFreeze } from '../../../core/freeze/freeze.js';
import { gridOf, stretchedEdges } from '../../../core/freeze/grid.js';

const one = Float64Array.of(0, 1);

/** s until a wide wall, mm thick, flows no more, poured as a thin casting is. */
function stopsAfter(alloy: Alloy, thickness: number): number {
  const cells = 12;
  const h = thickness / cells;
  const edges = stretchedEdges([-60, 60 + thickness], [-4 * h, thickness + 4 * h], h);
  const share = Float32Array.from({ length: edges.length - 1 }, (_, i) => {
    const middle = (edges[i]! + edges[i + 1]!) / 2;
    return middle > 0 && middle < thickness ? 1 : 0;
  });
  const [metal, mould] = [
    freezingMetal(alloy),
    mouldSubstance(findInvestment('gypsum-bonded') as Investment),
  ];
  const [flask, pour] = [alloy.flaskRange.thin[1], (alloy.pourRange.light[0] + alloy.pourRange.light[1]) / 2];
  const problem = {
    grid: gridOf(edges, one, one),
    share,
    metal,
    mould,
    contactResistance,
    surroundings: { temperature: flask, convection: 0, emissivity: 0 },
    shut: [1, 2] as const,
  };
  const { stopsAt } = runFreeze({ ...problem, start: mixedStart(problem, pour, flask) });
  return stopsAt.reduce((a, b) => Math.max(a, b), 0);
}

/** Thickness at which metal that runs for so many s keeps the margin asked for. */
function thinnest(alloy: Alloy, seconds: number): number {
  let [low, high] = [0.2, 10];
  while (high - low > 0.02) {
    const middle = (low + high) / 2;
    if (stopsAfter(alloy, middle) < marginLimit * seconds) low = middle;
    else high = middle;
  }
  return high;
}

// A kilogram or less is poured in one to three seconds (P. N. Rao, t = K ∛W, from memory). Surface tension and oxide
// skins, which the calculation leaves out, keep metal from thinner walls than heat alone does.
test.each([
  ['tin-bronze', 1.5],
  ['a356', 1],
])(
  '%s fills the trade’s %f mm in a hot plaster mould (from memory) with the margin asked for, a quarter of it not',
  (name, least) => {
    const alloy = findAlloy(name) as Alloy;
    const [quick, slow] = [thinnest(alloy, 1), thinnest(alloy, 3)];
    console.log(`${name}: by heat alone from ${quick.toFixed(2)} mm in 1 s, ${slow.toFixed(2)} mm in 3 s`);
    expect(slow).toBeLessThan(least);
    expect(quick).toBeGreaterThan(least / 5);
    expect(slow).toBeGreaterThan(least / 4);
  },
);
