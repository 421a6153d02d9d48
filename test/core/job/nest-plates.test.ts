import { describe, expect, it } from 'vitest';
import { plastics } from '../../../core/foundry/material.js';
import type { Job, Nesting, PrintBed } from '../../../core/job/job.js';
import type { PartRecord } from '../../../core/job/make-part.js';
import { type NestContext, nestPlates } from '../../../core/job/nest-plates.js';
import type { Polygon } from '../../../core/solid/types.js';

const bed: PrintBed = {
  shape: 'rectangle',
  width: 110,
  depth: 110,
  height: 100,
  margin: 5,
  gap: 4,
  brim: 0,
  keepOuts: [],
};

const square = (side: number): readonly Polygon[] => [
  [
    [0, 0],
    [side, 0],
    [side, side],
    [0, side],
  ],
];

/** What plates are laid out from, of a block. */
const block = (name: string, side: number, quantity: number, alloy: string): PartRecord =>
  ({
    request: { name, part: name, quantity, alloy, stock: {}, parameters: {} },
    silhouette: square(side),
    footprint: square(side),
    gatedBox: { min: [0, 0, 0], max: [side, side, 20] },
    facts: { gated: { triangles: 12, volume: side * side * 20, size: [side, side, 20] } },
  }) as unknown as PartRecord;

const made = [
  block('cleat', 30, 2, 'tin-bronze'),
  block('knob', 20, 3, 'yellow-brass'),
  block('eye', 30, 2, 'tin-bronze'),
  block('pull', 40, 2, 'yellow-brass'),
];
const flasks: Readonly<Record<string, string>> = { cleat: 'can', knob: 'can', eye: 'tube', pull: 'tube' };

const context = {
  plastic: plastics[0]!,
  moulds: new Map(Object.entries(flasks).map(([name, flask]) => [name, { flask: { name: flask } }])),
  pour: [
    { alloy: 'yellow-brass', flaskTemperature: 500, order: ['pull', 'knob'] },
    { alloy: 'tin-bronze', flaskTemperature: 600, order: ['eye', 'cleat'] },
  ],
} as unknown as NestContext;

const nested = (nesting: Partial<Nesting> = {}, more: Partial<NestContext> = {}, parts = made) =>
  nestPlates({ bed, nesting: { sortBy: 'any', seconds: 0, seed: 1, ...nesting } } as unknown as Job, parts, {
    ...context,
    ...more,
  });

describe('plates of a job', () => {
  it('every copy stands on one plate; how full each is follows from its patterns', () => {
    const { plates, nesting, refused } = nested({ rounds: 3 });
    expect(refused).toEqual([]);
    expect(nesting).toMatchObject({ sortBy: 'any', seed: 1 });
    expect(plates.flatMap((p) => p.placements.map((q) => `${q.name} ${q.copy}`)).sort()).toEqual(
      ['cleat 1', 'cleat 2', 'knob 1', 'knob 2', 'knob 3', 'eye 1', 'eye 2', 'pull 1', 'pull 2'].sort(),
    );
    const sides: Readonly<Record<string, number>> = { cleat: 30, knob: 20, eye: 30, pull: 40 };
    for (const { placements, filled, height } of plates) {
      const area = placements.reduce((sum, { name }) => sum + sides[name]! ** 2, 0);
      expect(filled).toBeCloseTo(area / 100 ** 2, 9);
      expect(height).toBe(20);
    }
  });

  it.each([
    ['alloy', ['tin-bronze', 'yellow-brass']],
    // Bronze is poured first, its eye in the tube.
    ['flask', ['tube', 'can']],
  ] as const)('sorted by %s: one of them a plate, in the order poured', (sortBy, batches) => {
    const { plates } = nested({ sortBy });
    expect([...new Set(plates.map((p) => p.batch))]).toEqual(batches);
    for (const { placements, batch } of plates)
      for (const { name } of placements) {
        const own =
          sortBy === 'alloy' ? made.find((m) => m.request.name === name)!.request.alloy : flasks[name];
        expect(own).toBe(batch);
      }
  });

  it('goes on as long as the timer says, and its rounds give the same plates without one', () => {
    const asked: number[] = [];
    let looks = 0;
    // Copies enough that no bed holds all, so that there is something to improve.
    const many = [
      block('cleat', 33, 7, 'tin-bronze'),
      block('knob', 21, 19, 'tin-bronze'),
      block('eye', 47, 5, 'tin-bronze'),
    ];
    const startTimer = (seconds: number) => {
      asked.push(seconds);
      return () => ++looks > 5;
    };
    const timed = nested({ seconds: 30, rounds: 2 }, { startTimer }, many);
    expect(asked).toEqual([30]);
    const { rounds } = timed.nesting;
    expect(rounds).toBe(2 + 5);
    const again = nested({ rounds }, {}, many);
    expect(again.plates).toEqual(timed.plates);
    expect(again.nesting.rounds).toBe(rounds);
  });

  it('no seconds, no timer', () => {
    const startTimer = () => {
      throw new Error('asked for');
    };
    expect(() => nested({ rounds: 1 }, { startTimer })).not.toThrow();
  });

  it('what no bed holds is told by its part, before time is spent on the others', () => {
    const startTimer = () => {
      throw new Error('asked for');
    };
    const { refused, plates } = nested({ seconds: 30 }, { startTimer }, [
      ...made,
      block('wheel', 120, 3, 'tin-bronze'),
    ]);
    expect(plates).toEqual([]);
    expect(refused.map((r) => r.name)).toEqual(['wheel']);
    expect(refused[0]!.findings).toMatchObject([{ severity: 'stop', code: 'does-not-fit-bed' }]);
    expect(refused[0]!.findings[0]!.message).toContain('The pattern needs 120 × 120 × 20 mm');
  });
});
