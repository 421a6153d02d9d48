import { describe, expect, it } from 'vitest';
import { centreDistance, profileShiftSum } from '../../../core/gear/pair.js';
import { appraise } from '../../../core/gear/pair-appraisal.js';
import type { AnyRankedPair } from '../../../core/gear/pair-ranking.js';
import { findMates, type MateSearch } from '../../../core/pair/mate/find-mates.js';
import { mateEntry } from '../../../core/pair/mate/mate-entry.js';
import type { MateWish, ToothedMember } from '../../../core/pair/mate/member.js';
import { runningMate } from '../../../core/pair/mate/running-mate.js';
import { gear } from '../gear/gear-cases.js';
import { member } from './member-cases.js';

const found = (chosen: ToothedMember, wish: MateWish): AnyRankedPair => {
  const { candidates, findings } = findMates(chosen, wish);
  if (!candidates[0]) throw new Error(findings.map((f) => f.message).join(' '));
  return candidates[0];
};
const codes = ({ findings }: MateSearch): readonly string[] => findings.map((f) => f.code);

describe('the chosen part stays as it is', () => {
  const chosen = member(gear(2, 24, 0.2, 0, { thinning: 0.04 }));
  const play = { kind: 'circumferential', value: 0.15 } as const;

  it('24 and 40 of module 2: its shift and thinning kept, the rest of the backlash off its mate', () => {
    const pair = found(chosen, { kind: 'gear', teeth: 40, backlash: play });
    expect(pair.gear).toEqual(chosen.spec);
    expect(pair.facts.backlash.circumferential).toBeCloseTo(0.15, 9);
    expect(pair.mate.thinning).toBeGreaterThan(0.05);
    // Free axes: where the two shifts mesh without play but for thinning.
    expect(appraise(pair).distance).toBeCloseTo(centreDistance(pair.gear, pair.mate), 9);
  });

  it('a centre distance is met exactly by the mate’s shift alone', () => {
    const pair = found(chosen, { kind: 'gear', teeth: 40, centreDistance: 65 });
    expect(appraise(pair).distance).toBe(65);
    const sum = profileShiftSum(pair.gear, pair.mate, 65);
    expect(pair.gear.profileShift).toBe(0.2);
    expect(pair.mate.profileShift).toBeCloseTo(sum - 0.2, 9);
  });

  it.each([
    ['ring', { kind: 'ring', teeth: 60, backlash: play }],
    ['rack', { kind: 'rack', backlash: play }],
  ] as const)('%s', (_, wish) => {
    const pair = found(chosen, wish);
    expect(pair.gear).toEqual(chosen.spec);
    expect(pair.facts.backlash.circumferential).toBeCloseTo(0.15, 9);
    expect(pair.findings.filter((f) => f.severity === 'stop')).toEqual([]);
  });

  it.each([
    ['ring', member(gear(2, 60, 0, 0, { addendum: 0.8 }), { kind: 'ring' })],
    ['rack', member(gear(2, 12), { kind: 'rack' })],
  ] as const)('a pinion for a %s', (_, whole) => {
    const pair = found(whole, { kind: 'gear', teeth: 20, backlash: play });
    expect(pair.mate).toEqual(whole.spec);
    expect(pair.gear.teeth).toBe(20);
    expect(pair.facts.backlash.circumferential).toBeCloseTo(0.15, 9);
    expect(runningMate(whole, pair).ok).toBe(true);
  });
});

describe('what it says', () => {
  it('when the chosen part is thinned more than the backlash asks for', () => {
    const chosen = member(gear(2, 24, 0, 0, { thinning: 0.3 }));
    const pair = found(chosen, {
      kind: 'gear',
      teeth: 40,
      backlash: { kind: 'circumferential', value: 0.1 },
    });
    expect(pair.facts.backlash.circumferential).toBeCloseTo(0.3, 9);
    expect(pair.mate.thinning).toBe(0);
    const finding = pair.findings.find((f) => f.code === 'more-backlash');
    expect(finding?.severity).toBe('warn');
    expect(finding?.message).toContain('0.3 mm of backlash');
    expect(finding?.remedy).toContain('no more than 0.1 mm');
  });

  it('when its shift leaves no room for the centre distance: the reach, and what would be right', () => {
    const search = findMates(member(gear(2, 24, 0.8)), { kind: 'gear', teeth: 40, centreDistance: 60 });
    expect(codes(search)).toEqual(['centre-distance-not-met']);
    const [reach] = search.findings[0]!.message.match(/reaches ([\d.]+) mm to/)!.slice(1);
    // At that distance there is a mate.
    expect(
      findMates(member(gear(2, 24, 0.8)), { kind: 'gear', teeth: 40, centreDistance: Number(reach) })
        .candidates,
    ).not.toEqual([]);
  });

  it('and how far its own shift would have to go, where that is little', () => {
    // 24 + 40 of module 2 and x 0.8: the mate may take −0.5, so that the axes come to 64.6 mm at the nearest.
    const chosen = member(gear(2, 24, 0.8));
    const { findings } = findMates(chosen, { kind: 'gear', teeth: 40, centreDistance: 64.3 });
    const by = Number(
      findings[0]!.remedy.match(/lower the profile shift of the chosen part by (\d+\.\d+)/)![1],
    );
    const lowered = member(gear(2, 24, 0.8 - by));
    expect(findMates(lowered, { kind: 'gear', teeth: 40, centreDistance: 64.3 }).candidates).not.toEqual([]);
  });

  it.each([13, 25])('in a ring too: %d mm is out of reach, the distance named is in it', (wanted) => {
    const chosen = member(gear(2, 20));
    const search = findMates(chosen, { kind: 'ring', teeth: 60, centreDistance: wanted * 2 });
    expect(codes(search)).toEqual(['centre-distance-not-met']);
    const [low, high] = search.findings[0]!.message.match(/reaches ([\d.]+) mm to ([\d.]+) mm/)!
      .slice(1)
      .map(Number);
    expect(low).toBeLessThan(40);
    expect(high).toBeGreaterThan(40);
  });

  it('when its tips are not shortened for the shift of both', () => {
    const pair = found(member(gear(2, 14, 0.6)), { kind: 'gear', teeth: 24, centreDistance: 40.2 });
    expect(pair.findings.map((f) => f.code)).toContain('chosen-tips-long');
  });

  it.each([
    ['neither teeth nor ratio nor distance', member(gear(2, 24)), { kind: 'gear' }, 'too-free'],
    [
      'a ring for a double helix',
      member(gear(2, 24, 0, 25), { gearType: 'double-helical' }),
      { kind: 'ring', teeth: 60 },
      'no-such-mesh',
    ],
    ['a rack for a ring', member(gear(2, 60), { kind: 'ring' }), { kind: 'rack' }, 'no-such-mesh'],
    ['a ring no larger than its pinion', member(gear(2, 60)), { kind: 'ring', teeth: 60 }, 'ring-too-small'],
    ['no whole number of teeth', member(gear(2, 6)), { kind: 'gear', ratio: 0.01 }, 'no-such-teeth'],
    ['too few teeth', member(gear(2, 24)), { kind: 'gear', teeth: 3 }, 'no-such-teeth'],
  ] as const)('%s', (_, chosen, wish, code) => {
    const search = findMates(chosen, wish);
    expect(search.candidates).toEqual([]);
    expect(codes(search)).toEqual([code]);
    expect(search.findings[0]!.remedy).not.toBe('');
  });
});

describe('a chosen part that serves badly', () => {
  it('eight teeth without shift: what its own teeth lack, and what would be right', () => {
    const search = findMates(member(gear(2, 8)), { kind: 'gear', teeth: 13 });
    expect(search.candidates).toEqual([]);
    expect(codes(search)).toContain('undercut');
    const undercut = search.findings.find((f) => f.code === 'undercut');
    // x_min = h_FfP* − z sin² α / 2, h_FfP* = 1.25 − 0.38 (1 − sin 20°), upwards to three places.
    expect(undercut?.remedy).toContain('at least 0.533');
    expect(findMates(member(gear(2, 8, 0.533)), { kind: 'gear', teeth: 13 }).candidates).not.toEqual([]);
  });

  it('tips that would cut into the fillets of a ring: its fillets are made smaller', () => {
    const chosen = member(gear(2, 60));
    const pair = found(chosen, { kind: 'ring', teeth: 180 });
    expect(pair.gear).toEqual(chosen.spec);
    expect(pair.mate.rootRadius).toBeLessThan(chosen.spec.rootRadius);
    expect(mateEntry(chosen, 'ring', pair, { name: 'ring' }).parameters.rootRadius).toBeCloseTo(
      pair.mate.rootRadius,
      8,
    );
  });
});

describe('what is left free is found', () => {
  it('a ratio of 2.4 to 17 teeth: 41, the nearest', () => {
    const pairs = findMates(member(gear(2, 17)), { kind: 'gear', ratio: 2.4 }).candidates;
    expect(pairs.map((p) => p.mate.teeth)).toContain(41);
    for (const p of pairs) expect(Math.abs(p.mate.teeth / 17 / 2.4 - 1)).toBeLessThanOrEqual(0.02);
  });

  it('64 mm from 17 teeth of 25°: every candidate runs at 64 mm', () => {
    const chosen = member(gear(2, 17, 0.2, 25), { gearType: 'double-helical' });
    const pairs = findMates(chosen, { kind: 'gear', centreDistance: 64 }).candidates;
    expect(pairs.length).toBeGreaterThan(1);
    for (const p of pairs) expect(appraise(p).distance).toBe(64);
    expect(pairs.map((p) => p.mate.teeth)).toContain(41);
  });
});

describe('its entry in a job', () => {
  it('has what mates share, the other hand, and only its own differences', () => {
    const chosen = member(gear(2, 17, 0, 25), {
      gearType: 'double-helical',
      apex: { shape: 'gap', width: 4 },
      faceWidth: 24,
    });
    const pair = found(chosen, {
      kind: 'gear',
      teeth: 41,
      backlash: { kind: 'as-cast', toothGrade: 7, centreTolerance: 0.1, runout: 0 },
    });
    const entry = mateEntry(chosen, 'gear', pair, { name: 'wheel' });
    expect(entry).toMatchObject({
      name: 'wheel',
      part: 'double-helical-gear',
      stock: { flank: 0, tip: 0 },
      parameters: {
        module: '2mm',
        teeth: 41,
        helixAngle: '25deg',
        lowerHand: 'right',
        faceWidth: '24mm',
        apex: 'gap',
        apexWidth: '4mm',
      },
    });
    expect(entry.parameters).not.toHaveProperty('addendum');
  });

  it('a ring has its pinion’s hand, and a tooth height that is not its profile’s', () => {
    const chosen = member(gear(2, 20, 0, 15, { addendum: 0.9 }), { gearType: 'helical', hand: 'right' });
    const pair = found(chosen, { kind: 'ring', teeth: 52 });
    const { part, parameters } = mateEntry(chosen, 'ring', pair, { name: 'ring' });
    expect(part).toBe('ring-gear');
    expect(parameters).toMatchObject({ hand: 'right', addendum: 0.9, teeth: 52 });
    expect(parameters).toHaveProperty('rimThickness');
  });
});
