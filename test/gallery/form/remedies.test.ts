import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import type { PartDefinition } from '../../../core/part/contract.js';
import { type Field, listSchemaFields } from '../../../core/part/field-list.js';
import { type Finding, warn } from '../../../core/part/finding.js';
import { readParameters } from '../../../core/part/parameters.js';
import { noStock, type Stock } from '../../../core/part/stock.js';
import { loadKernel } from '../../../core/solid/index.js';
import type { Kernel } from '../../../core/solid/types.js';
import { mechanicalRemedy } from '../../../gallery/page/form/mechanical-remedy.js';
import { findPart } from '../../../generators/index.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

type Given = Readonly<Record<string, unknown>>;

/** Findings of the part's castings with these parameters, mm, radians …; coarse, since no shape is looked at. */
const findingsOf = (part: PartDefinition, given: Given, stock: Stock = noStock): readonly Finding[] =>
  kernel.scope(() =>
    (part.pieces ?? [undefined]).flatMap((piece) => [
      ...part.build(part.parameters.parse(given), stock, {
        kernel,
        tolerance: 4,
        ...(piece === undefined ? {} : { piece: piece.name }),
      }).findings,
    ]),
  );

const codes = (findings: readonly Finding[]): readonly string[] => findings.map(({ code }) => code);
const stops = (findings: readonly Finding[]): readonly string[] =>
  codes(findings.filter(({ severity }) => severity === 'stop'));

/**
 * Does what the button would do, by way of the job's text, and looks again: this finding is gone and there is no stop
 * that was not there before. Gives whether there was a button.
 */
function tryRemedy(
  part: PartDefinition,
  given: Given,
  finding: Finding,
  before: readonly Finding[],
  stopsHide: 'nothing' | 'others' = 'nothing',
): boolean {
  const fields = listSchemaFields(part.parameters);
  const remedy = mechanicalRemedy(finding, fields, 'mm');
  if (remedy === null) return false;
  const raw = Object.fromEntries(remedy.changes.map(({ parameter, value }) => [parameter, value]));
  const read = readParameters(part, raw, { lengthUnit: 'mm' });
  if (!read.ok) throw new Error(`${remedy.label} is not accepted`);
  const changed = Object.fromEntries(Object.keys(raw).map((key) => [key, read.parameters[key]]));
  const after = findingsOf(part, { ...given, ...changed });
  const context = { given, label: remedy.label };
  expect({ ...context, still: codes(after).includes(finding.code) }).toEqual({ ...context, still: false });
  // Checks that come after a stop are not reached before it is mended: one of theirs may come to light.
  const only = stops(before).length === 0 || stopsHide === 'nothing';
  const fresh = only ? stops(after).filter((code) => !stops(before).includes(code)) : [];
  expect({ ...context, fresh }).toEqual({ ...context, fresh: [] });
  return true;
}

/** One field moved off its default, over its whole range. */
function oneMoved(fields: readonly Field[]): readonly Given[] {
  return fields.flatMap(({ name, info }): readonly Given[] => {
    const { kind, min, max, choices = [] } = info;
    if (kind === 'choice') return choices.map((word) => ({ [name]: word }));
    if (min === undefined || max === undefined) return [];
    const at = (share: number): number => min + share * (max - min);
    return [0, 0.05, 0.15, 0.4, 0.7, 1].map((share) => ({
      [name]: kind === 'count' ? Math.round(at(share)) : at(share),
    }));
  });
}

/** Two or three fields anywhere in the lower half of their ranges, where shapes get tight. */
const severalMoved = (fields: readonly Field[]): fc.Arbitrary<Given> =>
  fc
    .subarray([...fields], { minLength: 2, maxLength: 3 })
    .chain((chosen) => fc.record(Object.fromEntries(chosen.map((field) => [field.name, anyValue(field)]))));

function anyValue({ info }: Field): fc.Arbitrary<unknown> {
  const { kind, min = 0, max = 1, choices = [] } = info;
  if (kind === 'choice') return fc.constantFrom(...choices);
  if (kind === 'flag') return fc.boolean();
  if (kind === 'count') return fc.integer({ min, max });
  return fc.double({ min, max: (min + max) / 2, noNaN: true });
}

describe('a remedy that is a button', () => {
  // The others are told below by example: their free forms take a second a shape.
  const quick: Readonly<Record<string, number>> = {
    'spur-gear': 5,
    'helical-gear': 5,
    'double-helical-gear': 5,
    'ring-gear': 1,
    rack: 2,
    knob: 5,
    'flush-pull': 7,
    'jam-cleat': 6,
  };

  it.each(Object.entries(quick))(
    'mends what it says, wherever one size of %s makes trouble',
    (name, least) => {
      const part = findPart(name)!;
      const mended = new Set<string>();
      for (const given of oneMoved(listSchemaFields(part.parameters))) {
        const before = findingsOf(part, given);
        for (const finding of before) {
          if (finding.change && tryRemedy(part, given, finding, before)) mended.add(finding.code);
        }
      }
      expect(mended.size).toBeGreaterThanOrEqual(least);
    },
  );

  it.each(['rack', 'knob', 'jam-cleat'])(
    'mends what it says, where several sizes of %s make trouble',
    (name) => {
      const part = findPart(name)!;
      let tried = 0;
      fc.assert(
        fc.property(severalMoved(listSchemaFields(part.parameters)), (given) => {
          const before = findingsOf(part, given);
          for (const finding of before) {
            if (finding.change && tryRemedy(part, given, finding, before, 'others')) tried++;
          }
        }),
        { numRuns: 60, seed: 3 },
      );
      expect(tried).toBeGreaterThan(5);
    },
  );

  it.each([
    ['base-longer-than-horns', 'horn-cleat', { length: 60 }],
    ['base-small-for-legs', 'horn-cleat', { baseLength: 20 }],
    ['cleat-short-for-line', 'horn-cleat', { length: 111 }],
    ['fillets-meet', 'horn-cleat', { hornHeight: 21 }],
    ['horns-thicken', 'horn-cleat', { tipHeight: 17.8 }],
    ['sweep-steep', 'horn-cleat', { sweep: 60 }],
    ['opening-narrow', 'horn-cleat', { opening: 11, fillet: 4 }],
    ['no-room-under-horns', 'horn-cleat', { clearance: 12 }],
    ['countersink-through-plate', 'deck-eye', { baseThickness: 2 }],
    ['eye-tight-for-line', 'deck-eye', { opening: 6 }],
    ['fillet-fills-eye', 'deck-eye', { fillet: 10.6 }],
    ['fillet-small', 'deck-eye', { bar: 40 }],
    ['lug-hole-through-edge', 'deck-eye', { eye: 'lug', lugRadius: 6, pin: 10 }],
    ['wall-at-pin-thin', 'deck-eye', { eye: 'lug', lugRadius: 9, pin: 12 }],
    ['lug-thick-for-shackle', 'deck-eye', { eye: 'lug', lugThickness: 25 }],
    ['fillet-fills-opening', 'fairlead', { fillet: 10.6 }],
    ['lip-sharp-for-line', 'fairlead', { depth: 8.8 }],
    ['opening-tight-for-line', 'fairlead', { openingWidth: 11.7 }],
    ['gap-tight-for-line', 'fairlead', { style: 'open', gap: 7 }],
    ['gap-wide', 'fairlead', { style: 'open', gap: 30 }],
    ['edges-meet', 'ring-pull', { edgeRadius: 5.9 }],
    ['ring-touches-eyes', 'ring-pull', { pinDistance: 8 }],
    ['tab-narrow', 'ring-pull', { tabWidth: 6 }],
    ['well-shallow', 'ring-pull', { style: 'flush', wellDepth: 10 }],
    ['flange-thick', 'ring-pull', { style: 'flush', plateThickness: 12 }],
    ['foot-narrow', 'bow-pull', { gripWidth: 4 }],
    ['foot-narrow-for-screw', 'bow-pull', { footWidth: 6 }],
    ['grip-close-to-door', 'bow-pull', { depth: 12 }],
    ['lip-cuts-rim', 'hatch-pull', { rimWidth: 16, lipLength: 11, lipAngle: 0.6 }],
    ['knuckle-wall-thin', 'butt-hinge', { knuckleWall: 1 }],
    ['leaf-outside-barrel', 'butt-hinge', { closedGap: 6.4 }],
    ['fillet-small', 'strap-hinge', { fillet: 0.8 }],
  ] as const)('mends %s of %s', (code, name, given) => {
    const part = findPart(name)!;
    const before = findingsOf(part, given);
    const finding = before.find((found) => found.code === code);
    expect(finding?.change, `${codes(before)}`).toBeDefined();
    expect(tryRemedy(part, given, finding!, before)).toBe(true);
  });

  it.each([
    ['fillet-filled-by-stock', 'horn-cleat', 'fillet', { fillet: 1 }],
    ['fillet-filled-by-stock', 'fairlead', 'fillet', { fillet: 1 }],
    ['fillet-filled-by-stock', 'deck-eye', 'fillet', { fillet: 1 }],
    ['fillet-filled-by-stock', 'ring-pull', 'filletRadius', { filletRadius: 1 }],
    ['throat-closed-by-stock', 'jam-cleat', 'end', { end: 1.9 }],
  ] as const)('mends %s of %s in the casting', (code, name, parameter, given) => {
    const part = findPart(name)!;
    const stock = { flank: 0.3, tip: 0.3, face: 1, bore: 1, skin: 0.85, mating: 0.85 };
    const finding = findingsOf(part, given, stock).find((found) => found.code === code);
    expect(finding?.change).toHaveProperty(parameter);
    expect(codes(findingsOf(part, { ...given, ...finding?.change }, stock))).not.toContain(code);
  });

  it('is called by what it sets, and writes what the job in inches can read', () => {
    const gear = findPart('spur-gear')!;
    const fields = listSchemaFields(gear.parameters);
    const [finding] = findingsOf(gear, { bore: 60 });
    expect(finding?.code).toBe('bore-through-root');
    expect(mechanicalRemedy(finding!, fields, 'mm')).toEqual({
      label: 'Set bore to 40 mm',
      changes: [{ parameter: 'bore', value: 40 }],
    });
    expect(mechanicalRemedy(finding!, fields, 'in')).toEqual({
      label: 'Set bore to 1.5748 in',
      changes: [{ parameter: 'bore', value: '40mm' }],
    });
  });

  it('is none where nothing is known to be right, or where it would be refused', () => {
    const fields = listSchemaFields(findPart('spur-gear')!.parameters);
    expect(mechanicalRemedy(warn('a', 'b', 'c', 'bore'), fields, 'mm')).toBeNull();
    expect(mechanicalRemedy(warn('a', 'b', 'c', { bore: 2000 }), fields, 'mm')).toBeNull();
    expect(mechanicalRemedy(warn('a', 'b', 'c', { lipLength: 2 }), fields, 'mm')).toBeNull();
  });
});
