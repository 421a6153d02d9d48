import { beforeAll, describe, expect, it } from 'vitest';
import { loadKernel } from '../../core/solid/index.js';
import type { Kernel } from '../../core/solid/types.js';
import { overlapsOf } from '../helpers/overlap-volume.js';
import { turnThroughPitch } from '../helpers/turned-pair.js';
import { faceWidth, type RunningPair, runningPairs } from './running-pairs.js';

/**
 * Pairs run as meshes: the program's figures for centre distance, thinning and backlash go in, and what is found comes
 * from triangles alone: first contacts of sections turned at the tooth ratio, and a boolean engine in space.
 */
let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const thorough = process.env.PATTERNWRIGHT_FIGURES !== undefined;
const positions = thorough ? 60 : 16;
/**
 * Each flank of a mesh may be off by its tolerance along its normal, and between two pairs of flanks lie four of them:
 * the play may be off by 4 t / (cos α_wt cos β_b), within 5 µm + t where t is as small as this.
 */
const fine = 0.00125;
const usual = 0.01;

const µm = (value: number): string => (1000 * value).toFixed(1);

/** Heights in a face: not on the mesh's own layers, close to both ends. */
const heightsOf = (pair: RunningPair): number[] => {
  const count = !pair.helical ? 2 : thorough ? 25 : 7;
  const all = Array.from({ length: count }, (_, i) => 0.0137 + (i / (count - 1)) * (faceWidth - 0.0271));
  return all.filter(pair.toothed);
};

function expectToRun(title: string, pair: RunningPair, tolerance: number): void {
  const found = turnThroughPitch(pair.inSections(pair.build(kernel, tolerance), heightsOf(pair)), positions);
  const play = pair.backlash.circumferential;
  if (thorough) {
    console.log(
      `${title}: play ${µm(play)} asked, ${µm(found.leastPlay)} to ${µm(found.mostPlay)}; transmission error ` +
        `${µm(found.transmissionError)}, ${µm(found.sectionError)} in one section; µm, tolerance ${µm(tolerance)}`,
    );
  }
  expect(found.overlaps).toBe(0);
  expect(found.leastGap).toBeGreaterThan(0);
  const within = 0.005 + (tolerance <= fine ? tolerance : 4 * tolerance);
  expect(Math.abs(found.leastPlay - play)).toBeLessThan(within);
  expect(Math.abs(found.mostPlay - play)).toBeLessThan(within);
  // One flank of each member, each off by its tolerance at most.
  expect(found.transmissionError).toBeLessThan(2 * tolerance);
}

describe('sections turned through a pitch never overlap, show the backlash asked for and keep the ratio', () => {
  it.each(Object.entries(runningPairs))('%s', (title, pair) => {
    expectToRun(title, pair, fine);
  });
  const some = Object.entries(runningPairs).filter(([, pair], i) => thorough || !pair.helical || i % 2 === 0);
  it.each(some)('of the usual tolerance: %s', (title, pair) => {
    expectToRun(title, pair, usual);
  });
});

describe('in space, by a boolean engine of its own', () => {
  const tolerance = 0.0025;
  // The first of each kind, unless all are asked for.
  const kinds = ['spur', 'helical', 'double-helical', 'ring: helical', 'ring', 'rack: helical', 'rack'];
  const chosen = kinds.map((kind) => Object.keys(runningPairs).find((title) => title.startsWith(kind)));
  const some = Object.entries(runningPairs).filter(
    ([title]) => thorough || chosen.includes(title) || title.endsWith('staggered'),
  );
  it.each(some)('%s', async (title, { build, poses, backlash }) => {
    const overlaps = await overlapsOf(...build(kernel, tolerance));
    const half = backlash.circumferential / 2;
    const margin = 0.0025 + 2.5 * tolerance;
    let worst = 0;
    for (const share of thorough ? [0, 0.12, 0.21, 0.37, 0.5, 0.66, 0.83, 0.9] : [0, 0.21, 0.66]) {
      expect(overlaps.at(...poses(share, 0))).toBe(0);
      // Twice what a feeler gauge finds, the teeth standing midway.
      const off = 2 * overlaps.gap(...poses(share, 0), 1) - backlash.normal;
      if (Math.abs(off) > Math.abs(worst)) worst = off;
      for (const side of [1, -1]) {
        expect(overlaps.at(...poses(share, side * (half - margin)))).toBe(0);
        expect(overlaps.at(...poses(share, side * (half + margin)))).toBeGreaterThan(0);
      }
    }
    overlaps.free();
    if (thorough) console.log(`${title}: normal play in space off by ${µm(worst)} µm`);
    expect(Math.abs(worst)).toBeLessThan(0.005 + 4 * tolerance);
  });
});
