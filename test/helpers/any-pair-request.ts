import fc from 'fast-check';
import type { BacklashRequest } from '../../core/gear/backlash-plan.js';
import type { PairRequest } from '../../core/gear/pair-request.js';
import { shiftSplits } from '../../core/gear/shift-split.js';

/** Random requests for pairs of gears, most of them sensible, some impossible. */

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const maybe = <T>(arb: fc.Arbitrary<T>) => fc.option(arb, { nil: undefined, freq: 2 });
const seldom = <T>(arb: fc.Arbitrary<T>) =>
  fc.oneof({ weight: 3, arbitrary: fc.constant(undefined) }, { weight: 1, arbitrary: arb });

const grade = fc.oneof(
  { weight: 5, arbitrary: fc.integer({ min: 3, max: 7 }) },
  { weight: 1, arbitrary: fc.integer({ min: 8, max: 12 }) },
);
const backlash: fc.Arbitrary<BacklashRequest> = fc.oneof(
  fc.record({
    kind: fc.constantFrom('circumferential', 'normal', 'centre-distance' as const),
    value: fc.oneof({ weight: 4, arbitrary: real(0, 0.5) }, { weight: 1, arbitrary: real(0, 3) }),
  }),
  fc
    .record({
      toothGrade: grade,
      centreGrade: maybe(grade),
      centreTolerance: maybe(real(0, 0.5)),
      runout: maybe(real(0, 0.3)),
    })
    .map((r) => ({ kind: 'as-cast' as const, ...given(r) }) as BacklashRequest),
);

const common = {
  gearType: fc.constantFrom('spur', 'helical', 'double-helical' as const),
  ratioTolerance: fc.constantFrom(0.005, 0.02, 0.05),
  module: maybe(fc.oneof(fc.constantFrom(1.5, 2, 2.5, 3, 4), fc.constant({ from: 1.5, to: 4 }))),
  helixAngle: maybe(real(0.15, 0.6)),
  faceWidth: maybe(real(10, 50)),
  largestDiameter: seldom(real(40, 500)),
  profileShift: fc.constantFrom(true, true, false),
  split: fc.constantFrom(...shiftSplits),
  backlash: maybe(backlash),
  thinningSplit: maybe(fc.constantFrom('equal', 'wheel' as const)),
  keepMate: seldom(fc.constant(true)),
};

/** Keys without a value left out, no helix on spur gears, no ratio beside both tooth numbers. */
function given<T extends object>(record: T): T {
  const kept = Object.fromEntries(Object.entries(record).filter(([, v]) => v !== undefined));
  if (kept.gearType === 'spur') delete kept.helixAngle;
  if (kept.teeth !== undefined) delete kept.ratio;
  return kept as T;
}
const request = (mesh: PairRequest['mesh'], fields: object): fc.Arbitrary<PairRequest> =>
  fc
    .record({ ...common, ...fields } as never)
    .map((r) => ({ ...given(r as PairRequest), mesh }) as PairRequest);

const teeth = (z1: readonly [number, number], z2: readonly [number, number]) =>
  maybe(fc.tuple(fc.integer({ min: z1[0], max: z1[1] }), fc.integer({ min: z2[0], max: z2[1] })));

export const anyPairRequest: fc.Arbitrary<PairRequest> = request('external', {
  ratio: real(1, 6),
  teeth: teeth([10, 40], [12, 90]),
  centreDistance: maybe(real(30, 160)),
});
export const anyInternalRequest: fc.Arbitrary<PairRequest> = request('internal', {
  ratio: real(1.3, 6),
  teeth: teeth([10, 30], [28, 120]),
  centreDistance: seldom(real(15, 90)),
  gearType: fc.constantFrom('spur', 'helical' as const),
});
export const anyRackRequest: fc.Arbitrary<PairRequest> = request('rack', {
  gearTeeth: maybe(fc.integer({ min: 8, max: 60 })),
  centreDistance: seldom(real(10, 60)),
  travelPerTurn: seldom(real(60, 300)),
  travel: maybe(real(20, 900)),
  gearType: fc.constantFrom('spur', 'helical' as const),
});
