/**
 * Own parts turned at random: the search finds the way they are made to stand, or one that is as good by its measures.
 * Some stand otherwise, for what a mesh does not tell: see `otherwise`.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { readFacts } from '../../../../core/mesh/stand/facts.js';
import { rankDirections } from '../../../../core/mesh/stand/index.js';
import { measureStand } from '../../../../core/mesh/stand/measure.js';
import { scoreStand } from '../../../../core/mesh/stand/score.js';
import type { PartDefinition } from '../../../../core/part/contract.js';
import { readParameters } from '../../../../core/part/parameters.js';
import { noStock } from '../../../../core/part/stock.js';
import { loadKernel } from '../../../../core/solid/index.js';
import type { Kernel, Mesh, Vec3 } from '../../../../core/solid/types.js';
import bowPull from '../../../../generators/bow-pull.js';
import buttHinge from '../../../../generators/butt-hinge.js';
import doubleHelicalGear from '../../../../generators/double-helical-gear.js';
import fairlead from '../../../../generators/fairlead.js';
import flushPull from '../../../../generators/flush-pull.js';
import gudgeonPintle from '../../../../generators/gudgeon-pintle.js';
import hatchPull from '../../../../generators/hatch-pull.js';
import helicalGear from '../../../../generators/helical-gear.js';
import jamCleat from '../../../../generators/jam-cleat.js';
import knob from '../../../../generators/knob.js';
import rack from '../../../../generators/rack.js';
import ringGear from '../../../../generators/ring-gear.js';
import ringPull from '../../../../generators/ring-pull.js';
import spurGear from '../../../../generators/spur-gear.js';
import { angleBetween, apply, degree, turned, turnFrom } from './shapes.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const meshOf = (part: PartDefinition, piece?: string): Mesh => {
  const reading = readParameters(part, {}, { lengthUnit: 'mm' });
  if (!reading.ok) throw new Error(`${part.name} is refused`);
  return kernel.scope(() => {
    const kit = { kernel, tolerance: 0.1, ...(piece === undefined ? {} : { piece }) };
    const { solid } = part.build(reading.parameters as never, noStock, kit);
    if (solid === null) throw new Error(`${part.name} is refused`);
    return solid.mesh();
  });
};

const turn = turnFrom([0.3, 0.5, -0.4, 0.7]);

/** As they stand, or upside down where that is as good by the score. */
const alike: readonly { readonly part: PartDefinition; readonly piece?: string }[] = [
  { part: spurGear },
  { part: helicalGear },
  { part: doubleHelicalGear },
  { part: ringGear },
  { part: rack },
  { part: hatchPull },
  { part: ringPull, piece: 'ring' },
  { part: flushPull },
  { part: jamCleat },
  { part: buttHinge, piece: 'inner-leaf' },
  { part: gudgeonPintle, piece: 'gudgeon' },
];

describe.each(alike)('$part.name $piece', ({ part, piece }) => {
  it('stands as it is made to', () => {
    const [best] = rankDirections(turned(meshOf(part, piece), turn));
    const up = apply(turn, [0, 0, 1]);
    const off = angleBetween(best!.direction, up);
    expect(Math.min(off, Math.PI - off)).toBeLessThan(1.5 * degree);
  });
});

/**
 * Made to stand base up, so that the gate is on a face nobody sees: a mesh does not say which that is, and base down
 * they stand by themselves and need less support. Marked faces tell it.
 */
const otherwise: readonly { readonly part: PartDefinition; readonly piece?: string }[] = [
  { part: bowPull },
  { part: knob },
  { part: fairlead },
];

describe.each(otherwise)('$part.name', ({ part, piece }) => {
  it('stands on its base, which is better by what can be measured', () => {
    const mesh = meshOf(part, piece);
    const [best] = rankDirections(mesh);
    expect(best!.direction).toEqual([0, 0, -1]);
    const facts = readFacts(mesh);
    const own = measureStand(facts, [0, 0, 1], {});
    const found = measureStand(facts, [0, 0, -1] as Vec3, {});
    expect(found.support).toBeLessThan(own.support);
    expect(found.foot).toBeGreaterThan(5 * own.foot);
    expect(scoreStand(found, facts, 100)).toBeGreaterThan(scoreStand(own, facts, 100));
  });
});
