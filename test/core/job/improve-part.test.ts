import { expect, test } from 'vitest';
import { lateCodes } from '../../../core/freeze/readings/late-findings.js';
import { type ImproveInput, improvePart } from '../../../core/job/improve-part.js';
import type { JobPart } from '../../../core/job/job.js';
import { stop, warn } from '../../../core/part/finding.js';

/** What is tried, and told, where two gates leave a place in the casting cut off. */
function tried(request: Partial<JobPart>): { readonly asked: readonly JobPart[]; readonly told: string } {
  const asked: JobPart[] = [];
  const gate = { runner: { diameter: 8 } };
  const improved = improvePart({
    made: {
      request,
      gating: {
        gates: [gate, gate],
        sprue: { bottomDiameter: 9 },
        cup: { topDiameter: 40 },
        fill: { pourTime: 3 },
        vents: [],
      },
    },
    frozen: { plan: { findings: [warn(lateCodes.inCasting, 'Cut off.', 'Gate it there.')] } },
    job: {},
    remake: (one: JobPart) => {
      asked.push(one);
      return { ok: false, name: '', findings: [stop('refused', 'No.', 'None.')] };
    },
    freeze: () => undefined,
  } as unknown as ImproveInput);
  return { asked, told: improved?.finding.message ?? '' };
}

test('more gates are tried where there may be more, and not told of where there may not', () => {
  const one = tried({ name: 'one', part: 'knob' });
  expect(one.asked.map((r) => r.gates)).toContain(3);
  expect(one.told).toContain('3 gates');
  const tree = tried({ name: 'tree', part: 'tree', tree: [] });
  expect(tree.asked.length).toBe(one.asked.length - 1);
  expect(tree.asked.map((r) => r.gates)).not.toContain(3);
  expect(tree.told).toMatch(/^Tried, and none measures better: sprue or runners/);
  expect(tree.told).not.toContain('gates');
});
