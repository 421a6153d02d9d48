import { beforeAll, describe, expect, test } from 'vitest';
import { checkBuilt } from '../../../core/part/check-built.js';
import { checkDefinition } from '../../../core/part/check-definition.js';
import { checkPlaces } from '../../../core/part/check-places.js';
import type { BuiltPart } from '../../../core/part/contract.js';
import { readParameters } from '../../../core/part/parameters.js';
import { noStock, type Stock } from '../../../core/part/stock.js';
import { type Kernel, loadKernel } from '../../../core/solid/index.js';
import { parts } from '../../../generators/index.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const stock: Stock = { flank: 0.2, tip: 0.2, face: 0.5, bore: 0.5, skin: 0.3, mating: 0.5 };
const rules = { reserved: new Set<string>(), unsafeName: () => undefined };

describe.each(parts.map((part) => [part.name, part] as const))('%s', (_, part) => {
  test('is a part to the checks of part files', () => {
    expect(checkDefinition(part, rules)).toEqual({ ok: true, definition: part });
  });

  test.each([
    ['as finished', noStock],
    ['with stock', stock],
  ])('builds what the checks of part files pass, %s', (_, given) => {
    const reading = readParameters(part, {}, { lengthUnit: 'mm' });
    if (!reading.ok) throw new Error('defaults');
    for (const piece of part.pieces?.map(({ name }) => name) ?? [undefined])
      kernel.scope(() => {
        const kit = { kernel, tolerance: 0.05, ...(piece === undefined ? {} : { piece }) };
        const built = part.build(reading.parameters, given, kit) as BuiltPart;
        expect(checkBuilt(built)).toEqual({ ok: true, built });
        expect(checkPlaces(built, built.solid.mesh(), 0.05)).toEqual([]);
      });
  });
});

describe('a place off a plate 10 mm thick', () => {
  const gateAt = (x: number, z: number, more = {}): readonly string[] =>
    kernel.scope(() => {
      const mesh = kernel.box([-20, -20, 0], [20, 20, 10]).mesh();
      const gate = { name: 'top', at: [x, 0, z] as const, innerDiameter: 0, outerDiameter: 12, ...more };
      return checkPlaces({ gates: [gate], vents: [] }, mesh, 0.01).map(
        (f) => `${f.severity} ${f.code} ${f.message}`,
      );
    });

  test('passes on its face, also over a cored mouth', () => {
    expect(gateAt(0, 10)).toEqual([]);
    expect(gateAt(0, 10, { innerDiameter: 5 })).toEqual([]);
  });

  test.each([
    [0, 12.5, 'stop gate-off-part The gate place "top" hangs 2.50 mm above the surface.'],
    [0, 7, 'stop gate-off-part The gate place "top" lies inside the metal, 3.00 mm deep.'],
    [0, -3, 'stop gate-off-part The gate place "top" lies under the part.'],
    [40, 10, 'stop gate-off-part The gate place "top" lies beside the part.'],
  ])('at x %d, z %d is refused', (x, z, said) => {
    expect(gateAt(x, z)).toEqual([said]);
  });

  test('is warned of where it reaches over the edge, or bulges more than its seat', () => {
    expect(gateAt(17, 10)).toEqual([
      'warn gate-not-flat The surface at the gate place "top" is not flat as far as its outerDiameter of 12.0 mm reaches.',
    ]);
    expect(gateAt(0, 10.5)[0]).toContain('hangs 0.50 mm');
    expect(gateAt(0, 10.5, { seat: 0.6 })).toEqual([]);
  });
});
