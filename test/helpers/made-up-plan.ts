import type { FreezePlan, LatePlace, ThinPlace } from '../../core/freeze/plans.js';

/** How a mould of the ropewalk fills and freezes, invented: nothing in it was calculated. */
export function madeUpPlan(late = 3, thin = 2): FreezePlan {
  const latePlace = (i: number): LatePlace => ({
    at: [10 - 4 * i, 3 * i, 12.5],
    solidAt: 500 - 20 * i,
    shutAt: 450 - 20 * i,
    cutOff: 320 / (i + 1),
    void: 18 / (i + 1),
    leastGradient: 0.25,
  });
  const thinPlace = (i: number): ThinPlace => ({
    at: [20, -5 * i, 2],
    volume: 40 + i,
    margin: 0.8 + 0.3 * i,
    thickness: 1.6,
  });
  const basis = { rule: 'invented', source: 'invented for this fixture' };
  return {
    level: 'coarse',
    cell: 1.06,
    cells: 162176,
    steps: 168,
    imbalance: 2e-6,
    start: { metal: 1140, mould: 537, delay: 60 },
    fill: {
      total: 2.4,
      castings: 1.9,
      flow: { first: 30_000, last: 12_000 },
      backPressure: 120,
      history: [0, 0.3, 0.9, 1.9, 2.4].map((time, i) => ({ time, level: 15 * i, volume: 9000 * i })),
      unreached: 0,
      margin: thin > 0 ? 0.8 : 4.6,
      marginAt: [20, 0, 2],
      marginLimit: 2,
      thinPlaces: Array.from({ length: thin }, (_, i) => thinPlace(i)),
    },
    edgeRadius: { lowest: 0.21, highest: 0.34 },
    solid: { castings: 535, all: 540 },
    latePlaces: Array.from({ length: late }, (_, i) => latePlace(i)),
    feed: { demand: 1880, supply: 1760 },
    niyama: { limit: 0.775, below: 0.11, least: 0.02 },
    move: 675,
    quench: { at: 1200, temperature: 480 },
    facePeak: { temperature: 1107, at: [1, 2, 3], limit: 1200 },
    findings: [],
    bases: { feed: basis, niyama: basis },
  };
}
