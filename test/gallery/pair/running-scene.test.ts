import { beforeAll, describe, expect, it } from 'vitest';
import { loadKernel } from '../../../core/solid/index.js';
import type { Kernel } from '../../../core/solid/types.js';
import { frameTurn, runningScene } from '../../../gallery/page/pair/running-scene.js';
import type { Standing } from '../../../gallery/page/view/content.js';
import { runningCases } from '../../core/gear/running/running-cases.js';
import { buildMesh } from '../../helpers/built-states.js';
import { overlapsOf } from '../../helpers/overlap-volume.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const tolerance = 0.004;
const pose = ({ turn, at }: Standing) => ({ turn, by: [...at] as [number, number, number] });
const chosen = [
  'spur 24/40',
  'double-helical 17/41 on 64 mm',
  'ring: helical 20 in 52',
  'rack: helical 17, left',
];

describe('in space, by a boolean engine of its own: clear of each other midway, touching where they should', () => {
  it.each(chosen)('%s', async (title) => {
    const { pair, gearPart, matePart } = runningCases[title]!;
    const overlaps = await overlapsOf(
      buildMesh(kernel, ...gearPart, tolerance),
      buildMesh(kernel, ...matePart, tolerance),
    );
    const couple = { pair, chosenFirst: true, faceWidth: 12 };
    for (const angle of [0.05, -0.7]) {
      const midway = runningScene(couple, angle, 'midway').standings;
      expect(overlaps.at(pose(midway.gear), pose(midway.mate))).toBe(0);
      // Turned on a little more than half the backlash the gear is in the metal of its mate.
      const on = (pair.backlash / 2 + 0.02) / pair.pitchRadius;
      for (const way of [1, -1]) {
        const gear = { ...midway.gear, turn: midway.gear.turn + way * on };
        expect(overlaps.at(pose(gear), pose(midway.mate))).toBeGreaterThan(0);
      }
    }
    overlaps.free();
  });
});

describe('what the view is given', () => {
  it('the chosen part is `gear`, whichever of the pair it is', () => {
    const { pair } = runningCases['ring: 20 in 60']!;
    const asPinion = runningScene({ pair, chosenFirst: true, faceWidth: 12 }, 0.3, 'leading').standings;
    const asRing = runningScene({ pair, chosenFirst: false, faceWidth: 12 }, 0.3, 'leading').standings;
    expect(asRing.gear).toEqual(asPinion.mate);
    expect(asRing.mate).toEqual(asPinion.gear);
  });

  it('marks lie on the line of action’s plane and over the face, none while midway', () => {
    const { pair } = runningCases['helical 18/29, right']!;
    const couple = { pair, chosenFirst: true, faceWidth: 12 };
    const { marks, rays } = runningScene(couple, 0.1, 'leading');
    expect(marks.length).toBeGreaterThanOrEqual(6);
    const action = rays.find((r) => r.kind === 'action')!;
    const [dx, dy] = [action.to[0] - action.from[0], action.to[1] - action.from[1]];
    for (const { at } of marks) {
      const across = dx * (at[1] - action.from[1]) - dy * (at[0] - action.from[0]);
      expect(Math.abs(across)).toBeLessThan(1e-9);
      expect(at[2]).toBeGreaterThanOrEqual(0);
      expect(at[2]).toBeLessThanOrEqual(12);
    }
    const still = runningScene(couple, 0.1, 'midway');
    expect(still.marks).toEqual([]);
    expect(still.rays.map((r) => r.kind)).toEqual(['axis', 'axis']);
  });

  it('a rack lies under its pinion, lengthwise along X', () => {
    const { pair } = runningCases['rack: 24 teeth']!;
    expect(frameTurn(pair)).toBe(-Math.PI / 2);
    const { mate } = runningScene({ pair, chosenFirst: true, faceWidth: 12 }, 0, 'midway').standings;
    expect(mate.turn).toBeCloseTo(0, 12);
    expect(mate.at[1]).toBeCloseTo(-24, 12);
  });
});
