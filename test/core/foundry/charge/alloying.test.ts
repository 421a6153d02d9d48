import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findAlloy } from '../../../../core/foundry/alloys/index.js';
import {
  type AlloyingPlan,
  planAlloying,
  type StockMetal,
  usualElementLoss,
} from '../../../../core/foundry/charge/index.js';

const seed = 20511;
const copper: StockMetal = { name: 'copper', composition: { Cu: 100 }, pricePerKg: 9 };
const tin: StockMetal = { name: 'tin', composition: { Sn: 100 }, pricePerKg: 30 };
const zinc: StockMetal = { name: 'zinc', composition: { Zn: 100 }, pricePerKg: 3 };
const redScrap: StockMetal = {
  name: 'red brass scrap',
  composition: { Cu: 85, Sn: 5, Pb: 5, Zn: 5 },
  pricePerKg: 5,
};
const noLoss = (m: StockMetal): StockMetal => ({
  ...m,
  meltLoss: Object.fromEntries(Object.keys(m.composition).map((e) => [e, 0])),
});
const massOf = (plan: AlloyingPlan, name: string): number =>
  (plan.ok ? plan.mix : plan.nearest).items.find((i) => i.name === name)?.mass ?? 0;

describe('planAlloying by hand', () => {
  it('70/30 brass from copper and zinc, with what burns off put back: x = 0.7 M/(1 − 0.01), 0.3 M/(1 − 0.05)', () => {
    const plan = planAlloying({
      stock: [copper, zinc],
      target: { Cu: { min: 70, max: 70 }, Zn: { min: 30, max: 30 } },
      melt: 1000,
    });
    expect(plan.ok).toBe(true);
    expect(massOf(plan, 'copper')).toBeCloseTo(700 / 0.99, 5);
    expect(massOf(plan, 'zinc')).toBeCloseTo(300 / 0.95, 5);
    expect(plan.ok && plan.mix.cost).toBeCloseTo((9 * 700) / 0.99 / 1000 + (3 * 300) / 0.95 / 1000, 6);
  });

  it('scrap is the cheapest, lead at its limit says how much: a corner drawn on paper', () => {
    // Scrap s, copper c, tin t, a melt of 1. Lead: 5 s ≤ 2, so s = 0.4. Tin: 5 s + 100 t ≥ 6, so t = 0.04; copper the
    // rest, 0.56. Zinc 2 lies within 1 to 5. Cost 0.4·5 + 0.56·9 + 0.04·30 = 8.24 a kg.
    const plan = planAlloying({
      stock: [redScrap, copper, tin].map(noLoss),
      target: { Cu: {}, Sn: { min: 6, max: 8 }, Pb: { max: 2 }, Zn: { min: 1, max: 5 } },
      melt: 1000,
    });
    expect(plan.ok).toBe(true);
    expect(massOf(plan, 'red brass scrap')).toBeCloseTo(400, 5);
    expect(massOf(plan, 'tin')).toBeCloseTo(40, 5);
    expect(massOf(plan, 'copper')).toBeCloseTo(560, 5);
    expect(plan.ok && plan.mix.cost).toBeCloseTo(8.24, 7);
  });

  it('no more is taken than is there: 250 g of scrap, and the rest new', () => {
    const plan = planAlloying({
      stock: [noLoss({ ...redScrap, available: 250 }), ...[copper, tin].map(noLoss)],
      target: { Cu: {}, Sn: { min: 6, max: 8 }, Pb: { max: 2 }, Zn: { min: 1, max: 5 } },
      melt: 1000,
    });
    expect(massOf(plan, 'red brass scrap')).toBeCloseTo(250, 5);
    expect(massOf(plan, 'tin')).toBeCloseTo(47.5, 5);
  });
});

describe('an impossible mix', () => {
  it('says that tin is short and by how much, and what would help', () => {
    // Scrap alone has 5 % of tin where 6 is the least, and 5 % of lead where 6 is allowed.
    const plan = planAlloying({
      stock: [noLoss(redScrap)],
      target: { Cu: { min: 80 }, Sn: { min: 6, max: 8 }, Pb: { max: 6 }, Zn: { max: 6 } },
      melt: 1000,
    });
    expect(plan.ok).toBe(false);
    if (plan.ok) return;
    expect(plan.short).toBe(0);
    expect(plan.out).toHaveLength(1);
    expect(plan.out[0]).toMatchObject({ element: 'Sn', side: 'under', limit: 6 });
    expect(plan.out[0]!.by).toBeCloseTo(1, 6);
    // 0.05 (1000 − y) + y = 60: y = 10/0.95 of tin, before its own 1 % of loss.
    expect(plan.help).toHaveLength(1);
    expect(plan.help[0]!.element).toBe('Sn');
    expect(plan.help[0]!.mass).toBeCloseTo(10 / 0.95 / 0.99, 4);
  });

  it('says that lead is over, and that copper and tin would thin it', () => {
    const plan = planAlloying({
      stock: [noLoss(redScrap)],
      target: { Cu: {}, Sn: { min: 4.5, max: 6 }, Pb: { max: 2 }, Zn: { max: 6 } },
      melt: 500,
    });
    expect(plan.ok).toBe(false);
    if (plan.ok) return;
    expect(plan.out.map((o) => [o.element, o.side])).toEqual([['Pb', 'over']]);
    expect(plan.out[0]!.by).toBeCloseTo(3, 6);
    expect(plan.help.map((h) => h.element).sort()).toContain('Cu');
  });

  it('an element the target does not name is out beyond 0.3 %', () => {
    const plan = planAlloying({ stock: [noLoss(redScrap)], target: { Cu: {}, Sn: {}, Zn: {} }, melt: 100 });
    expect(plan.ok ? [] : plan.out.map((o) => [o.element, o.limit])).toEqual([['Pb', 0.3]]);
  });

  it('unknown metal is an impurity too', () => {
    const guess: StockMetal = { name: 'tap bodies', composition: { Cu: 60, Zn: 38 }, pricePerKg: 2 };
    const plan = planAlloying({ stock: [noLoss(guess)], target: { Cu: {}, Zn: {} }, melt: 100 });
    expect(plan.ok ? [] : plan.out.map((o) => o.element)).toEqual(['unknown metal']);
  });

  it('says how much metal is wanting', () => {
    const plan = planAlloying({
      stock: [{ ...copper, available: 100 }],
      target: { Cu: { min: 99 } },
      melt: 250,
    });
    expect(plan.ok).toBe(false);
    if (plan.ok) return;
    expect(plan.short).toBeCloseTo(250 - 99, 6);
    expect(plan.out).toEqual([]);
    expect(plan.help[0]?.mass).toBeCloseTo(151 / 0.99, 4);
  });

  it('refuses nonsense', () => {
    const good = { stock: [copper], target: { Cu: {} }, melt: 100 };
    expect(() => planAlloying({ ...good, melt: 0 })).toThrow(/melt is 0/);
    expect(() => planAlloying({ ...good, stock: [] })).toThrow(/stock is an empty list/);
    expect(() => planAlloying({ ...good, stock: [{ ...copper, composition: { Cu: 80, Sn: 30 } }] })).toThrow(
      /copper composition, summed is 110/,
    );
    expect(() => planAlloying({ ...good, stock: [{ ...copper, available: 0 }] })).toThrow(/all used up/);
  });
});

/** Random shelves: pure metals, always enough to make the alloy, and scraps of random composition. */
const share = fc.double({ min: 0.5, max: 12, noNaN: true });
const price = fc.double({ min: 0.5, max: 40, noNaN: true });
const scrap = fc
  .record({
    sn: share,
    zn: share,
    pb: share,
    price,
    available: fc.double({ min: 1, max: 3000, noNaN: true }),
  })
  .map(
    ({ sn, zn, pb, price: pricePerKg, available }): StockMetal => ({
      name: `scrap ${sn.toFixed(3)} ${zn.toFixed(3)} ${pb.toFixed(3)}`,
      composition: { Cu: 100 - sn - zn - pb, Sn: sn, Zn: zn, Pb: pb },
      pricePerKg,
      available,
    }),
  );

describe('properties', () => {
  const target = findAlloy('navy-m-bronze')!.composition;
  const lead: StockMetal = { name: 'lead', composition: { Pb: 100 }, pricePerKg: 2.5 };
  const pure = [copper, tin, zinc, lead];

  it(`meets every limit and weighs the melt asked (seed ${seed})`, () => {
    fc.assert(
      fc.property(
        fc.array(scrap, { maxLength: 6 }),
        fc.double({ min: 5, max: 2e4, noNaN: true }),
        (scraps, melt) => {
          const plan = planAlloying({ stock: [...scraps, ...pure], target, melt });
          expect(plan.ok).toBe(true);
          if (!plan.ok) return;
          for (const [element, limit] of Object.entries(target)) {
            const got = plan.mix.composition[element as 'Cu'] ?? 0;
            expect(got).toBeGreaterThanOrEqual((limit.min ?? 0) - 1e-5);
            expect(got).toBeLessThanOrEqual((limit.max ?? 100) + 1e-5);
          }
          // Mass balance worked here apart from the programme.
          const stock = [...scraps, ...pure];
          let molten = 0;
          for (const item of plan.mix.items) {
            const metal = stock.find((m) => m.name === item.name)!;
            expect(item.mass).toBeLessThanOrEqual(metal.available ?? Number.POSITIVE_INFINITY);
            for (const [e, s] of Object.entries(metal.composition))
              molten += item.mass * (s / 100) * (1 - usualElementLoss[e as 'Cu']);
          }
          expect(molten / melt).toBeCloseTo(1, 6);
        },
      ),
      { seed, numRuns: 200 },
    );
  });

  it(`costs no more than any random mix that meets the limits (seed ${seed + 1})`, () => {
    const navy = { Cu: 88, Sn: 6, Pb: 1.5, Zn: 4.5 } as const;
    let compared = 0;
    fc.assert(
      fc.property(
        fc.array(scrap, { minLength: 1, maxLength: 4 }),
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 4, maxLength: 4 }),
        fc.double({ min: 0, max: 0.6, noNaN: true }),
        (scraps, weights, portion) => {
          const stock = [...scraps, ...pure].map(noLoss).map(({ available: _, ...m }) => m);
          // Some scrap, the rest pure metals up to the nominal composition: feasible unless a pure share is negative.
          const all = weights.slice(0, scraps.length).reduce((a, b) => a + b, 0) || 1;
          const used = scraps.map((_, i) => (portion * weights[i]!) / all);
          const rest = pure.map((p) => {
            const e = Object.keys(p.composition)[0] as keyof typeof navy;
            return (
              navy[e] / 100 - scraps.reduce((s, m, i) => s + (used[i]! * (m.composition[e] ?? 0)) / 100, 0)
            );
          });
          fc.pre(rest.every((r) => r >= 0));
          compared++;
          const cost =
            scraps.reduce((s, m, i) => s + used[i]! * m.pricePerKg, 0) +
            pure.reduce((s, m, i) => s + rest[i]! * m.pricePerKg, 0);
          const plan = planAlloying({ stock, target, melt: 1000 });
          expect(plan.ok && plan.mix.cost).toBeLessThanOrEqual(cost + 1e-6);
        },
      ),
      { seed: seed + 1, numRuns: 200 },
    );
    expect(compared).toBeGreaterThan(150);
  });

  it(`out by name is out in truth, and the help puts it right (seed ${seed + 2})`, () => {
    fc.assert(
      fc.property(fc.array(scrap, { minLength: 1, maxLength: 3 }), (scraps) => {
        const plan = planAlloying({ stock: scraps, target, melt: 2000 });
        if (plan.ok) return;
        expect(plan.short > 0 || plan.out.length > 0).toBe(true);
        for (const o of plan.out)
          expect(o.side === 'over' ? o.got - o.limit : o.limit - o.got).toBeCloseTo(o.by, 6);
        const bought = plan.help.map(
          ({ element, mass }): StockMetal => ({
            name: `pure ${element}`,
            composition: { [element]: 100 },
            pricePerKg: 1,
            available: mass * (1 + 1e-6) + 1e-4,
          }),
        );
        expect(planAlloying({ stock: [...scraps, ...bought], target, melt: 2000 }).ok).toBe(true);
      }),
      { seed: seed + 2, numRuns: 150 },
    );
  });
});
