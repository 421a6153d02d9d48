import { describe, expect, it } from 'vitest';
import { meshBacklash } from '../../../../core/gear/mesh-backlash.js';
import { pairSection, sectionStands } from '../../../../core/gear/running/outlines.js';
import type { RunningPair } from '../../../../core/gear/running/running-pair.js';
import { lineOfAction, sectionSizes } from '../../../../core/gear/running/section-lines.js';
import type { FlankSide } from '../../../../core/gear/running/stand.js';
import {
  crossing,
  freeTurn,
  leastGap,
  placed,
  type Sides,
  sidesNear,
} from '../../../helpers/first-contact.js';
import { areaOf } from '../../../helpers/sections.js';
import { factsOf, heights, runningCases } from './running-cases.js';

const tolerance = 2e-4;
const cases = Object.entries(runningCases);

/** Both drawn sections in place, what of them is near the other. */
function drawn(pair: RunningPair, angle: number, z: number, side: FlankSide, back = 0): [Sides, Sides] {
  const section = pairSection(pair, 12, tolerance);
  const { gear, mate } = sectionStands(pair, angle, z, side);
  const turning = placed(section.gear.outline, gear.turn - back / pair.pitchRadius, gear.at);
  const fixed = sidesNear(placed(section.mate.outline, mate.turn, mate.at), turning, 0.5);
  return [sidesNear(turning, fixed, 0.5), fixed];
}

describe('drawn sections neither overlap nor part', () => {
  it.each(cases)('%s', (_, { pair }) => {
    for (const angle of [0, 0.4, 7.77, -2.1])
      for (const z of [heights[0]!, heights[2]!]) {
        const [gear, mate] = drawn(pair, angle, z, 'leading', 0.01);
        expect(crossing(gear, mate)).toBe(false);
        const free = freeTurn(mate, gear, [0, 0]);
        expect(Math.abs(free.forward * pair.pitchRadius - 0.01)).toBeLessThan(3 * tolerance);
        expect(Math.abs(free.backward * pair.pitchRadius - (pair.backlash - 0.01))).toBeLessThan(
          3 * tolerance,
        );
      }
  });

  it.each(cases)('%s: their outlines are closed, and wind round their metal', (_, { pair }) => {
    const { gear, mate } = pairSection(pair, 12);
    expect(areaOf(gear.outline)).toBeGreaterThan(0);
    expect(Math.abs(areaOf(mate.outline))).toBeGreaterThan(1);
    expect(gear.edge).toBeLessThan(gear.outline.length);
  });
});

describe('sizes in the section', () => {
  it.each(cases)(
    '%s: the gap between the open flanks is the least distance of the outlines there',
    (_, { pair }) => {
      const size = sectionSizes(pair, 0.05, heights[1]!, 'midway').backlash;
      const normal = meshBacklash(pair.mesh).circumferential * Math.cos(pair.pressureAngle);
      expect(size.value).toBeCloseTo(normal / 2, 12);
      expect(Math.hypot(size.to[0] - size.from[0], size.to[1] - size.from[1])).toBeCloseTo(size.value, 12);
      const [gear, mate] = drawn(pair, 0.05, heights[1]!, 'midway');
      expect(Math.abs(leastGap(gear, mate) - size.value)).toBeLessThan(2 * tolerance);
      // Both ends lie on outlines.
      for (const [[x, y], sides] of [
        [size.from, gear],
        [size.to, mate],
      ] as const)
        expect(leastGap(Float64Array.from([x, y, x, y]), sides)).toBeLessThan(2 * tolerance);
    },
  );

  it.each(cases)('%s: tip clearances are those of the check', (_, { pair }) => {
    const sizes = sectionSizes(pair, 0, 1, 'leading');
    const facts = factsOf(pair);
    const [own, other] =
      'gear' in facts
        ? [facts.gear.tipClearance, facts.mate.tipClearance]
        : 'ringTipClearance' in facts
          ? [facts.pinionTipClearance, facts.ringTipClearance]
          : [facts.pinionTipClearance, facts.rackTipClearance];
    expect(sizes.gearClearance.value).toBeCloseTo(own, 9);
    expect(sizes.mateClearance.value).toBeCloseTo(other, 9);
  });

  it('the line of action touches both base circles and crosses the line of centres at the pitch point', () => {
    const { pair } = runningCases['spur 13/24, shifted']!;
    const { tangent, pitchPoint } = lineOfAction(pair, 'leading');
    const [t1, t2] = tangent;
    expect(Math.hypot(...t1)).toBeCloseTo(13 * Math.cos(Math.PI / 9), 9);
    expect(Math.hypot(t2[0] - pair.mesh.distance, t2[1])).toBeCloseTo(24 * Math.cos(Math.PI / 9), 9);
    const across = (t2[0] - t1[0]) * (pitchPoint[1] - t1[1]) - (t2[1] - t1[1]) * (pitchPoint[0] - t1[0]);
    expect(across).toBeCloseTo(0, 9);
  });
});
