/**
 * Every part of the program, piece by piece and preset by preset, gated: the rules of filling and feeding are worked
 * out again here from the plan's own sizes by the handbook's formulas, and what is not met must be a finding; the
 * gating is measured on its mesh.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { findAlloy } from '../../core/foundry/alloys/index.js';
import { edgeMargin, sink } from '../../core/foundry/gating/sprue.js';
import { makePart } from '../../core/job/make-part.js';
import { readParameters } from '../../core/part/parameters.js';
import { measureOverhang } from '../../core/plate/overhang.js';
import { loadKernel } from '../../core/solid/index.js';
import type { Kernel } from '../../core/solid/types.js';
import { parts } from '../../generators/index.js';
import { plainJob } from '../helpers/part-space.js';

/** mm that a knuckle's round top rises inside the foot of a vent on it. */
const crown = 0.25;
const alloyFor = ['tin-bronze', 'yellow-brass', 'a356', 'silicon-bronze'];
const castings = parts
  .flatMap((part) =>
    [undefined, ...Object.keys(part.presets ?? {})].flatMap((preset) =>
      (part.pieces ?? [undefined]).map((piece) => ({ part, preset, piece: piece?.name })),
    ),
  )
  .map((c, i) => ({
    ...c,
    alloy: alloyFor[i % alloyFor.length]!,
    title: [c.part.name, c.piece, c.preset].filter((x) => x !== undefined).join(', '),
  }));

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

it('are at least thirty', () => expect(castings.length).toBeGreaterThanOrEqual(30));

describe.each(castings)('$title in $alloy', ({ part, preset, piece, alloy }) => {
  it('meets its rules or says which not, prints without support, stays on its gate and vent places', () => {
    const reading = readParameters(part, {}, { lengthUnit: 'mm', preset });
    if (!reading.ok) throw new Error('a preset is refused');
    const request = {
      name: 'one',
      part: part.name,
      ...(piece === undefined ? {} : { piece }),
      quantity: 1,
      alloy,
      stock: {},
      parameters: reading.parameters as never,
    };
    const outcome = makePart(request, part, plainJob(0.05), kernel);
    if (!outcome.ok) {
      expect(outcome.findings.some((f) => f.severity === 'stop')).toBe(true);
      return;
    }
    const { gating, meshes, gatingMesh, mass } = outcome.made;
    const codes = gating.findings.map((f) => f.code);
    const liquid = findAlloy(alloy)!.liquidDensity;
    const { gates, entry, sprue, fill } = gating;

    // Continuity: the metal's volume through the narrowest place in the pour's time, or slower where the cup is throttled.
    const velocity = fill.flow / entry.area;
    expect(entry.velocity).toBeCloseTo(velocity, 6);
    expect(velocity > entry.velocityLimit * (1 + 1e-6)).toBe(codes.includes('gate-velocity'));
    // Torricelli: no stream is faster than free fall from the cup's surface.
    expect(velocity).toBeLessThanOrEqual(Math.sqrt(2 * 9806.65 * sprue.head) * (1 + 1e-9));
    // The modulus of a long round bar is d/4 (Wlodawer).
    const thinnest = Math.min(...gates.map((g) => g.runner?.diameter ?? sprue.bottomDiameter));
    expect(thinnest / 4 / fill.castingModulus < 1.2 * (1 - 1e-6)).toBe(codes.includes('sprue-freezes-early'));
    expect(fill.feedSupply < fill.feedDemand * (1 - 1e-6)).toBe(codes.includes('feed-short'));
    expect(fill.pourTime).toBeGreaterThanOrEqual(mass.casting / liquid / fill.flow - 1e-6);

    // What the gating adds to the surface that needs support.
    const added = measureOverhang(meshes.gated).area - measureOverhang(meshes.pattern).area;
    expect(added).toBeLessThan(0.5);

    // What lies in both gating and pattern is the sunk roots, each inside its own place.
    kernel.scope(() => {
      const common = kernel.fromMesh(gatingMesh).intersect(kernel.fromMesh(meshes.pattern)).mesh();
      const roots = [
        ...gates.map((g) => ({ at: g.at, radius: g.outerDiameter / 2 + edgeMargin })),
        ...gating.vents.map((v) => ({ at: v.path[0]!, radius: v.diameter / 2 + edgeMargin })),
      ];
      for (let i = 0; i < common.positions.length; i += 3) {
        const [x, y, z] = [common.positions[i]!, common.positions[i + 1]!, common.positions[i + 2]!];
        const inside = roots.some(
          ({ at, radius }) =>
            Math.hypot(x - at[0], y - at[1]) <= radius && z >= at[2] - sink - 1e-3 && z <= at[2] + crown,
        );
        if (!inside)
          throw new Error(`gating and pattern meet at ${[x, y, z].map((c) => c.toFixed(2)).join(', ')}`);
      }
    });
  });
});
