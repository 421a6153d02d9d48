import { describe, expect, test } from 'vitest';
import type { MeltPlan, PouredMould } from '../../../core/foundry/charge/melt-plan.js';
import type { Summary } from '../../../core/job/summary.js';
import { pourRuns } from '../../../core/report/traveller/pour-runs.js';
import { formatTraveller } from '../../../core/report/traveller.js';
import { summary } from './fixture.js';

const [plan] = summary.pour;
const { alloy } = plan!;
const names = summary.parts.filter((p) => p.alloy === alloy).map((p) => p.name);
const [one, two] = names as [string, string];

const mould = (name: string, copy: number, temperature: number, leaves?: number): PouredMould => ({
  name,
  copy,
  temperature,
  lowest: 1080,
  reheated: leaves !== undefined,
  ...(leaves === undefined ? {} : { leaves }),
});
const heat = (charge: number, moulds: readonly PouredMould[]) => ({
  castings: [],
  inMoulds: charge,
  charge,
  drawn: 1e6,
  leaves: 1190,
  moulds,
});
const melt: MeltPlan = {
  crucible: { name: 'A6', title: 'A6', capacity: 4000, owned: true },
  scaleStep: 1,
  efficiency: 0.5,
  metalTemperature: 1150,
  heats: [
    heat(3901, [mould(two, 1, 1150), mould(two, 2, 1120), mould(two, 3, 1150, 1214), mould(one, 1, 1111)]),
    heat(702, [mould(one, 2, 1150)]),
  ],
  bench: [],
  findings: [],
  bases: {},
};
const job: Summary = {
  ...summary,
  charge: summary.charge.map((c) => (c.alloy === alloy ? { ...c, charge: 4603, melt } : c)),
};
const page = formatTraveller(job, {}, {}, { lengthUnit: 'mm', degrees: 'C' });
const visible = (html: string): string => html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');
const bench = visible(page.slice(page.indexOf('id="bench"')));
const pour = visible(page.slice(page.indexOf('id="pour"'), page.indexOf('id="quench"')));

describe('the order of pouring, told as the heats have it', () => {
  test('moulds of a name together, parted by a heat or a reheat', () => {
    expect(pourRuns(job, plan!).map((r) => [r.heat, r.name, ...r.copies, r.reheated])).toEqual([
      [0, two, 1, 2, false],
      [0, two, 3, 3, true],
      [0, one, 1, 1, false],
      [1, one, 2, 2, false],
    ]);
  });

  test('without heats, as the plan has it', () => {
    expect(pourRuns(summary, plan!).map((r) => r.name)).toEqual(plan!.order);
  });

  test('paper and bench copy say the same: heat by heat, and when the pot goes back to what', () => {
    for (const text of [pour, bench]) expect(text).toContain('back into the furnace, to leave it at 1214 °C');
    expect(pour).toContain('1120 to 1150 °C');
    // A crucible that holds 4000 g is never told to take 4603 g at once.
    expect(bench).toContain('heat 1: weigh out 3901 g');
    expect(bench).toContain('heat 2: weigh out 702 g');
    expect(bench).not.toContain('4603');
  });
});
