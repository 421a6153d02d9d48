import { describe, expect, it } from 'vitest';
import { meetMate } from '../../../core/pair/mate/given-mate.js';
import type { ToothedMember } from '../../../core/pair/mate/member.js';
import { runningMate } from '../../../core/pair/mate/running-mate.js';
import { gear } from '../gear/gear-cases.js';
import { member } from './member-cases.js';

const codes = (chosen: ToothedMember, other: ToothedMember, distance?: number): readonly string[] =>
  meetMate(chosen, other, distance).findings.map((f) => f.code);

describe('two parts as they are', () => {
  it('20 and 40 of module 2, thinned by 0.1 in all: 60 mm, and that much along the pitch circle', () => {
    const [own, other] = [
      member(gear(2, 20, 0, 0, { thinning: 0.06 })),
      member(gear(2, 40, 0, 0, { thinning: 0.04 })),
    ];
    const { pair, findings } = meetMate(own, other);
    expect(findings).toEqual([]);
    expect(pair?.mesh === 'external' && pair.facts.centreDistance).toBeCloseTo(60, 9);
    expect(pair?.facts.backlash.circumferential).toBeCloseTo(0.1, 9);
    expect([pair?.gear, pair?.mate]).toEqual([own.spec, other.spec]);
  });

  it('where they jam they are shown all the same, with what is wrong', () => {
    const [own, other] = [member(gear(2, 20)), member(gear(2, 40))];
    const { pair, findings } = meetMate(own, other, 59.9);
    expect(findings.map((f) => f.code)).toContain('teeth-jam');
    expect(pair).not.toBeNull();
    expect(pair && runningMate(own, pair, other).ok).toBe(true);
  });

  it('a ring or a rack as the chosen part has the other as its pinion', () => {
    const pinion = member(gear(2, 20, 0.1, 0, { thinning: 0.05 }));
    const ring = member(gear(2, 60, 0, 0, { addendum: 0.8 }), { kind: 'ring' });
    const inRing = meetMate(ring, pinion).pair;
    expect([inRing?.gear.teeth, inRing?.mate.teeth]).toEqual([20, 60]);
    // d_f2 = 2 (60 + 2 × 1.25) = 125 mm, and 8 mm of rim either side.
    const rimmed = meetMate(pinion, { ...ring, rimThickness: 8 }).pair;
    expect(rimmed?.mesh === 'internal' && rimmed.outsideDiameter).toBeCloseTo(141, 9);
    const onRack = meetMate(member(gear(2, 12), { kind: 'rack' }), pinion).pair;
    // r + x m
    expect(onRack?.mesh === 'rack' && onRack.facts.mountingDistance).toBeCloseTo(20.2, 9);
    const fromGear = meetMate(pinion, member(gear(2, 12), { kind: 'rack' })).pair;
    expect(fromGear?.mesh === 'rack' && fromGear.facts.mountingDistance).toBeCloseTo(20.2, 9);
  });
});

describe('what keeps them apart', () => {
  const helical = (hand: 'left' | 'right', beta = 20) =>
    member(gear(2, 20, 0, beta), { gearType: 'helical', hand });
  const double = (more: Partial<ToothedMember>) =>
    member(gear(2, 20, 0, 20), { gearType: 'double-helical', ...more });

  it.each([
    ['another module', member(gear(2, 20)), member(gear(2.5, 20)), 'not-mates'],
    ['another helix', helical('left'), helical('right', 21), 'not-mates'],
    ['spur and helical', member(gear(2, 20)), helical('left'), 'not-mates'],
    ['one helix and two', helical('left'), double({ hand: 'right' }), 'not-mates'],
    ['the same hand', helical('left'), helical('left'), 'wrong-hand'],
    [
      'another hand in a ring',
      helical('left'),
      member(gear(2, 60, 0, 20), { kind: 'ring', gearType: 'helical', hand: 'right' }),
      'wrong-hand',
    ],
    ['apexes at two heights', double({}), double({ hand: 'right', faceWidth: 24 }), 'apexes-differ'],
    [
      'two racks',
      member(gear(2, 12), { kind: 'rack' }),
      member(gear(2, 12), { kind: 'rack' }),
      'no-such-mesh',
    ],
  ] as const)('%s', (_, chosen, other, code) => {
    const { pair, findings } = meetMate(chosen, other);
    expect(pair).toBeNull();
    expect(findings.map((f) => f.code)).toEqual([code]);
    expect(findings[0]?.remedy).not.toBe('');
  });

  it('axes so close that the base circles overlap', () => {
    expect(codes(member(gear(2, 20)), member(gear(2, 40)), 50)).toEqual(['base-circles-overlap']);
  });

  it('other hands and equal apexes are right', () => {
    expect(meetMate(helical('left'), helical('right')).pair).not.toBeNull();
    expect(meetMate(double({}), double({ hand: 'right' })).pair).not.toBeNull();
    expect(codes(helical('left'), { ...helical('right'), faceWidth: 16 })).toContain('widths-differ');
  });
});
