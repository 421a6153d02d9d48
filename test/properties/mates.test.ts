import fc from 'fast-check';
import { expect, it } from 'vitest';
import { basicRackProfiles } from '../../core/gear/basic-rack.js';
import { appraise } from '../../core/gear/pair-appraisal.js';
import { findMates } from '../../core/pair/mate/find-mates.js';
import { isFirst, type MateWish, memberKinds, meshOf } from '../../core/pair/mate/member.js';
import { runningMate } from '../../core/pair/mate/running-mate.js';
import { member } from '../core/pair/member-cases.js';

const runs = Number(process.env.PATTERNWRIGHT_PAIR_RUNS ?? 60);
const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const seldom = <T>(of: fc.Arbitrary<T>) => fc.option(of, { nil: undefined, freq: 1 });

/** Toothed parts as their parameters may have them, sound or not. */
const anyMember = fc
  .record({
    kind: fc.constantFrom(...memberKinds),
    gearType: fc.constantFrom('spur' as const, 'helical' as const, 'double-helical' as const),
    profile: fc.constantFrom('A' as const, 'B' as const, 'C' as const, 'D' as const),
    normalModule: real(0.5, 12),
    teeth: fc.integer({ min: 6, max: 200 }),
    beta: real(0.02, 0.78),
    profileShift: real(-0.8, 1),
    thinning: fc.oneof(fc.constant(0), real(0, 2)),
    tipShortening: fc.oneof(fc.constant(0), real(0, 1)),
    tipRounding: fc.oneof(fc.constant(0), real(0, 1)),
    faceWidth: real(3, 150),
    hand: fc.constantFrom('left' as const, 'right' as const),
  })
  .map(({ kind, gearType: type, profile, beta, ...m }) => {
    const gearType = kind !== 'gear' && type === 'double-helical' ? 'helical' : type;
    const spec = {
      ...basicRackProfiles[profile],
      normalModule: m.normalModule,
      teeth: m.teeth,
      helixAngle: gearType === 'spur' ? 0 : beta,
      profileShift: kind === 'rack' ? 0 : m.profileShift,
      thinning: m.thinning,
      tipShortening: m.tipShortening,
    };
    const { hand, faceWidth, tipRounding } = m;
    return member(spec, { kind, gearType, rackProfile: profile, hand, faceWidth, tipRounding });
  });

const anyWish: fc.Arbitrary<MateWish> = fc
  .record({
    kind: fc.constantFrom(...memberKinds),
    teeth: seldom(fc.integer({ min: 3, max: 200 })),
    ratio: seldom(real(0.05, 20)),
    centreDistance: seldom(real(5, 1000)),
    backlash: seldom(
      fc.record({
        kind: fc.constantFrom('circumferential' as const, 'normal' as const, 'centre-distance' as const),
        value: real(0, 3),
      }),
    ),
  })
  .map(
    (wish) =>
      Object.fromEntries(Object.entries(wish).filter(([, v]) => v !== undefined)) as unknown as MateWish,
  );

it('a mate is found that leaves the chosen part alone, or it is said why not', () => {
  let seen = 0;
  fc.assert(
    fc.property(anyMember, anyWish, (chosen, wish) => {
      const { candidates, findings } = findMates(chosen, wish);
      if (candidates.length === 0) {
        expect(findings.length).toBeGreaterThan(0);
        for (const f of findings) expect(f.remedy.length * f.message.length).toBeGreaterThan(0);
        return;
      }
      for (const pair of candidates) {
        seen++;
        expect(isFirst(chosen) ? pair.gear : pair.mate).toEqual(chosen.spec);
        expect(pair.mesh).toBe(meshOf(chosen.kind, wish.kind));
        expect(pair.findings.filter((f) => f.severity === 'stop')).toEqual([]);
        if (wish.centreDistance !== undefined) expect(appraise(pair).distance).toBe(wish.centreDistance);
        expect(pair.facts.backlash.circumferential).toBeGreaterThan(-1e-6);
        expect(runningMate(chosen, pair).ok).toBe(true);
      }
    }),
    { numRuns: runs, seed: 20 },
  );
  expect(seen).toBeGreaterThan(0);
});
