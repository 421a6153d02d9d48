/** A scan goes all the way: stood up, given its gate, gated and vented, though nothing of it is flat. */

import { beforeAll, describe, expect, it } from 'vitest';
import { ventGating } from '../../../../core/foundry/air/index.js';
import { findAlloy } from '../../../../core/foundry/alloys/index.js';
import { gatingMetal, isBuildable } from '../../../../core/foundry/gating/index.js';
import { findInvestment } from '../../../../core/foundry/investment.js';
import { planGates } from '../../../../core/job/plan-gates.js';
import { findGatePlaces } from '../../../../core/mesh/entry/index.js';
import { rankDirections, turnToStand } from '../../../../core/mesh/stand/index.js';
import { loadKernel, measureBounds } from '../../../../core/solid/index.js';
import type { Kernel, Mesh } from '../../../../core/solid/types.js';
import { castingOf } from '../../../helpers/casting-of.js';
import { expectSound } from '../../../helpers/expect-sound.js';
import { shallowestOverhang } from '../../foundry/gating/mesh-facts.js';
import { closedBunny } from './closed-bunny.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const inputFor = (mesh: Mesh, gates: Parameters<typeof planGates>[0]['gates'], count: number | null) => ({
  gates,
  vents: [],
  casting: castingOf(mesh),
  metal: gatingMetal(findAlloy('tin-bronze')!, findInvestment('gypsum-bonded')!),
  settings: { gates: count },
});

const gate = (mesh: Mesh, count: number | null) => {
  const found = findGatePlaces(mesh);
  if (!found.ok) throw new Error(found.refusal.message);
  const { input, plan } = planGates(inputFor(mesh, found.places, count), mesh);
  expect(plan.findings.filter((f) => f.severity === 'stop')).toEqual([]);
  expect(isBuildable(plan)).toBe(true);
  return kernel.scope(() => {
    const { air, gating, gated, gatingSolid } = ventGating(plan, input, mesh, kernel, 0.05);
    return { places: found.places, air, gating, gated: gated.mesh(), alone: gatingSolid.mesh() };
  });
};

describe('the bunny', () => {
  it.each([null, 2])('upright, gates: %s', (count) => {
    const mesh = closedBunny(60);
    expectSound(mesh);
    const { places, gating, gated, air } = gate(mesh, count);
    expectSound(gated);
    expect(places[0]!.seat).toBeGreaterThan(0.5);
    expect(gating.gates).toHaveLength(count ?? 1);
    expect(measureBounds(gated)!.min[2]).toBe(measureBounds(mesh)!.min[2]);
    // Over the part only gating is left: it prints without support.
    expect(shallowestOverhang(gated, 60.5)?.slope ?? Math.PI / 2).toBeGreaterThan(Math.PI / 4);
    // Ears and tail get their vents though they are round, but where the sprue leaves none any room.
    expect(gating.vents.length).toBeGreaterThan(0);
    for (const vent of gating.vents) expect(vent.seat ?? 0).toBeGreaterThan(0);
    expect(air.left.reduce((sum, p) => sum + p.volume, 0)).toBeLessThan(500);
  });

  it('cut level at its feet, stands on them', () => {
    const cut = kernel.scope(() =>
      kernel
        .fromMesh(closedBunny(60))
        .subtract(kernel.box([-99, -99, -9], [99, 99, 4]))
        .components()[0]!
        .mesh(),
    );
    const [best] = rankDirections(cut);
    expect(best!.direction).toEqual([0, 0, 1]);
    expect(best!.measures.balance).toBeGreaterThan(3);
  });

  it('stood up the best way', () => {
    const before = closedBunny(60);
    const [best] = rankDirections(before, { bed: { width: 200, depth: 200, height: 200 } });
    const { mesh, problems } = turnToStand(before, best!.direction);
    expect(problems).toEqual([]);
    const { gated, air } = gate(mesh, null);
    expectSound(gated);
    expect(measureBounds(gated)!.min[2]).toBe(0);
    expect(air.left).toEqual([]);
  });
});
