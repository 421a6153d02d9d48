import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { alloyNames } from '../../core/foundry/alloys/index.js';
import type { Job } from '../../core/job/job.js';
import { type MadePart, makePart, meshStates } from '../../core/job/make-part.js';
import { defaultShop } from '../../core/job/read-shop.js';
import type { PartDefinition } from '../../core/part/contract.js';
import { inspectMesh, loadKernel } from '../../core/solid/index.js';
import type { Kernel } from '../../core/solid/types.js';
import { parts } from '../../generators/index.js';
import { givenSeed } from './given-seed.js';
import { legalParameters, propertyRuns } from './legal-parameters.js';

/** A job of no parts, for making one at a tolerance. */
export const plainJob = (tolerance: number): Job => ({
  name: 'property',
  title: 'property',
  notes: [],
  units: 'mm',
  degrees: 'C',
  investment: 'gypsum-bonded',
  shop: defaultShop,
  tolerance,
  layerHeight: 0.15,
  bed: { shape: 'rectangle', width: 220, depth: 220, height: 250, margin: 5, gap: 5, brim: 0, keepOuts: [] },
  printerCorrection: { xy: 1, z: 1 },
  flasks: null,
  prices: null,
  parts: [],
});

/** Fails with everything that is wrong with a part taken through its states. */
function expectSound(made: MadePart): void {
  for (const state of meshStates) {
    const report = inspectMesh(made.meshes[state]);
    expect({ state, problems: report.problems }).toEqual({ state, problems: [] });
    expect(report.volume).toBeGreaterThan(0);
    expect(report.components).toBe(1);
  }
  const { part, casting, pattern, gated } = made.facts;
  expect(casting.volume).toBeGreaterThan(0.5 * part.volume);
  expect(pattern.volume).toBeGreaterThan(casting.volume);
  expect(gated.volume).toBeGreaterThan(pattern.volume);
}

/** Kinds of parts that have a test file of their own, so that the files run side by side. */
const kinds = {
  gears: ['spur-gear', 'helical-gear', 'double-helical-gear', 'ring-gear', 'rack'],
  pulls: ['hatch-pull', 'ring-pull', 'bow-pull', 'flush-pull', 'knob'],
  cleats: ['horn-cleat', 'jam-cleat', 'deck-eye', 'fairlead'],
} as const;

type Kind = keyof typeof kinds | 'others';

const isOfKind = (name: string, kind: Kind): boolean =>
  kind === 'others'
    ? !Object.values(kinds).some((names) => names.some((known) => known === name))
    : kinds[kind].some((known) => known === name);

/** Tries the parts of a kind over their whole legal space: every casting there is a pattern for. */
export function tryParts(kind: Kind): void {
  let kernel: Kernel;
  beforeAll(async () => {
    kernel = await loadKernel();
  });
  const castings = parts
    .filter(({ name }) => isOfKind(name, kind))
    .flatMap((part) =>
      (part.pieces ?? [undefined]).map(
        (piece) => [piece ? `${part.name}, ${piece.name}` : part.name, part, piece?.name] as const,
      ),
    );
  describe.each(castings)('%s over its whole legal space', (_, part, piece) => {
    tryCasting(part, piece, () => kernel);
  });
}

function tryCasting(part: PartDefinition, piece: string | undefined, kernel: () => Kernel): void {
  // The castings of one part share its sets.
  const runs = Math.ceil(propertyRuns / (part.pieces?.length ?? 1));
  const seed = givenSeed(20261125);
  it(`is sound in every state or refused with a reason (${runs} sets, seed ${seed})`, {
    timeout: 3_000_000,
  }, () => {
    let madeSets = 0;
    fc.assert(
      fc.property(
        legalParameters(part),
        fc.constantFrom(...alloyNames),
        fc.constantFrom(0.02, 0.05, 0.1),
        (parameters, alloy, tolerance) => {
          const request = {
            name: 'set',
            part: part.name,
            ...(piece === undefined ? {} : { piece }),
            quantity: 1,
            alloy,
            stock: {},
            parameters: parameters as never,
          };
          const outcome = makePart(request, part, plainJob(tolerance), kernel());
          if (outcome.ok) {
            madeSets++;
            expectSound(outcome.made);
          } else {
            const stops = outcome.findings.filter((f) => f.severity === 'stop');
            expect(stops.length).toBeGreaterThan(0);
            // Shapes the kernel cannot carry are bugs, however politely they are refused.
            expect(stops.filter((f) => f.code === 'shape-not-sound')).toEqual([]);
            for (const f of stops) expect(f.message + f.remedy).not.toMatch(/NaN|undefined|Infinity/);
          }
        },
      ),
      { numRuns: runs, seed, endOnFailure: true },
    );
    // A space that is nearly always refused would prove nothing.
    expect(madeSets).toBeGreaterThan(runs / 10);
  });
}
