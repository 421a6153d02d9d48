import { beforeAll, describe, expect, it } from 'vitest';
import { turnAt } from '../../../../core/gear/running/running-pair.js';
import { type FlankSide, matePitch, standsAt, turnLimits } from '../../../../core/gear/running/stand.js';
import { loadKernel } from '../../../../core/solid/index.js';
import type { Kernel, Mesh } from '../../../../core/solid/types.js';
import { buildMesh } from '../../../helpers/built-states.js';
import { weldedFrom } from '../../../helpers/expect-sound.js';
import { freeTurn, placed, type Sides, sidesNear } from '../../../helpers/first-contact.js';
import { areaOf, horizontal, type Loop, section } from '../../../helpers/sections.js';
import { heights, type RunningCase, runningCases } from './running-cases.js';

/** The built meshes are the judge: their sections, placed as told, are turned until they touch. */
let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const tolerance = 0.002;
/** Each flank may be off by the tolerance along its normal; along the pitch circle that is more by 1 / cos α. */
const within = 5 * tolerance;

const cut = (mesh: Mesh, z: number, isRing: boolean): Loop =>
  section(weldedFrom(mesh), horizontal(z)).reduce((a, b) => (areaOf(b) > areaOf(a) !== isRing ? b : a));

/** How far the gear may turn either way, mm at its pitch circle, the mate held. */
function freedom(
  { pair }: RunningCase,
  [gearLoop, mateLoop]: readonly [Loop, Loop],
  angle: number,
  side: FlankSide,
  back = 0,
) {
  const { gear, mate } = standsAt(pair, angle, side);
  const turning = placed(gearLoop, gear.turn - back / pair.pitchRadius, gear.at);
  const fixed = placed(mateLoop, mate.turn, mate.at);
  const near: Sides = sidesNear(fixed, turning, 1);
  const { forward, backward } = freeTurn(near, sidesNear(turning, near, 1), [0, 0]);
  return [forward * pair.pitchRadius, backward * pair.pitchRadius] as const;
}

describe('built members stand in mesh', () => {
  it.each(Object.entries(runningCases))('%s', (_, one) => {
    const { pair, gearPart, matePart } = one;
    const [gear, mate] = [
      buildMesh(kernel, ...gearPart, tolerance),
      buildMesh(kernel, ...matePart, tolerance),
    ];
    const half = pair.backlash / 2;
    expect(half).toBeGreaterThan(0.02);
    for (const z of heights) {
      const loops = [cut(gear, z, false), cut(mate, z, pair.mesh.kind === 'internal')] as const;
      for (const angle of [0, 0.113, -0.21]) {
        // Midway there is half the backlash either way.
        const midway = freedom(one, loops, angle, 'midway');
        expect(Math.abs(midway[0] - half)).toBeLessThan(within);
        expect(Math.abs(midway[1] - half)).toBeLessThan(within);
        // Leading flanks touch at once as the gear turns on: brought back by 0.02 mm it may turn by just that.
        const leading = freedom(one, loops, angle, 'leading', 0.02);
        expect(Math.abs(leading[0] - 0.02)).toBeLessThan(within);
        expect(Math.abs(leading[1] - (2 * half - 0.02))).toBeLessThan(within);
        const trailing = freedom(one, loops, angle, 'trailing', -0.02);
        expect(Math.abs(trailing[1] - 0.02)).toBeLessThan(within);
      }
    }
  });
});

describe('turning on', () => {
  it.each(Object.entries(runningCases))('%s: a pitch of the gear is a pitch of its mate', (_, { pair }) => {
    const pitch = (2 * Math.PI) / pair.mesh.gear.teeth;
    const [before, after] = [0.3, 0.3 + pitch].map((angle) => standsAt(pair, angle, 'leading').mate);
    const moved = pair.mesh.kind === 'rack' ? after!.at[1] - before!.at[1] : after!.turn - before!.turn;
    expect(Math.abs(moved)).toBeCloseTo(matePitch(pair), 12);
    // Outside each other they turn opposite ways; a ring and a rack go with the pinion.
    expect(Math.sign(moved)).toBe(pair.mesh.kind === 'external' ? -1 : 1);
  });

  it('both are back where they were after z₂ turns of the gear', () => {
    const { pair } = runningCases['spur 24/40'] as RunningCase;
    const { gear, mate } = standsAt(pair, 5 * 2 * Math.PI, 'leading');
    const start = standsAt(pair, 0, 'leading');
    const full = 2 * Math.PI;
    // 24 and 40: the least common multiple is 120 teeth, five turns of the one and three of the other.
    expect((gear.turn - start.gear.turn) / full).toBeCloseTo(5, 12);
    expect((mate.turn - start.mate.turn) / full).toBeCloseTo(-3, 12);
  });

  it('a rack may go until its ends reach the line of centres', () => {
    const { pair } = runningCases['rack: 24 teeth'] as RunningCase;
    const [least, most] = turnLimits(pair);
    const length = (most - least) * pair.pitchRadius;
    expect(length).toBeCloseTo(11 * 2 * Math.PI, 9);
    const ends = [least, most].map((angle) => standsAt(pair, angle, 'midway').mate.at[1]);
    expect(ends[0]).toBeCloseTo(-length, 9);
    expect(ends[1]).toBeCloseTo(0, 9);
  });
});

it('a section turns as its helix does, and not at all at the apex', () => {
  const { pair } = runningCases['double-helical 17/41 on 64 mm'] as RunningCase;
  // tan β / r, r = 17 × 2 / cos 25° / 2; left-hand below the apex.
  const rate = Math.tan((25 * Math.PI) / 180) / (17 / Math.cos((25 * Math.PI) / 180));
  expect(turnAt(pair, 6)).toBeCloseTo(0, 12);
  expect(turnAt(pair, 1)).toBeCloseTo(5 * rate, 12);
  expect(turnAt(pair, 11)).toBeCloseTo(5 * rate, 12);
});
