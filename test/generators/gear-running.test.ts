import { beforeAll, describe, expect, it } from 'vitest';
import { backlashSizes } from '../../core/gear/backlash.js';
import { internalBacklash, internalCentreDistance } from '../../core/gear/internal.js';
import { centreDistance, profileShiftSum, withPairTipShortening } from '../../core/gear/pair.js';
import { checkRackPair } from '../../core/gear/rack-pair.js';
import type { GearSpec } from '../../core/gear/spec.js';
import { loadKernel } from '../../core/solid/index.js';
import type { Kernel, Mesh } from '../../core/solid/types.js';
import { deg, gear } from '../core/gear/gear-cases.js';
import { type AskedPair, askPair, parametersOf } from '../helpers/asked-pairs.js';
import { buildMesh } from '../helpers/built-states.js';
import { overlapsOf, type Pose } from '../helpers/overlap-volume.js';
import {
  externalPair,
  internalPair,
  type MeshPair,
  rackPair,
  turnThroughPitch,
} from '../helpers/turned-pair.js';

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
const faceWidth = 11;
/**
 * Each flank of a mesh may be off by its tolerance along its normal, and between two pairs of flanks lie four of them:
 * the play may be off by 4 t / (cos α_wt cos β_b), within 5 µm + t where t is as small as this.
 */
const fine = 0.00125;
const usual = 0.01;

/** Heights in a face: not on the mesh's own layers, close to both ends and to the middle. */
const heightsOf = (helical: boolean): number[] => {
  const count = !helical ? 2 : thorough ? 25 : 7;
  return Array.from({ length: count }, (_, i) => 0.0137 + (i / (count - 1)) * (faceWidth - 0.0271));
};

function expectToRun(title: string, pair: MeshPair, play: number, tolerance: number): void {
  const found = turnThroughPitch(pair, positions);
  if (thorough) {
    const µm = (v: number) => (1000 * v).toFixed(1);
    console.log(
      `${title}: play ${µm(play)} asked, ${µm(found.leastPlay)} to ${µm(found.mostPlay)}, transmission error ` +
        `${µm(found.transmissionError)} (${µm(found.sectionError)} in one section) µm at tolerance ${µm(tolerance)}`,
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

interface RunningCase extends AskedPair {
  readonly part: 'spur-gear' | 'helical-gear' | 'double-helical-gear';
  readonly extra?: readonly [Record<string, unknown>, Record<string, unknown>];
}

const shortened = (first: GearSpec, second: GearSpec) => withPairTipShortening(first, second);
const own = (
  first: GearSpec,
  second: GearSpec,
  ...asked: ['circumferential' | 'normal', number]
): AskedPair => {
  const pair = shortened(first, second);
  return askPair(pair, centreDistance(...pair), ...asked);
};
/** Shifts that make the pair mesh at a centre distance, `share` of their sum on the first. */
const shiftedTo = (distance: number, first: GearSpec, second: GearSpec, share: number) => {
  const sum = profileShiftSum(first, second, distance);
  return shortened({ ...first, profileShift: share * sum }, { ...second, profileShift: (1 - share) * sum });
};
const hands = (key: 'hand' | 'lowerHand', first: 'left' | 'right', more: Record<string, unknown> = {}) =>
  [
    { [key]: first, ...more },
    { [key]: first === 'left' ? 'right' : 'left', ...more },
  ] as const;

const spur20 = [gear(2, 20, 0, 0, { normalPressureAngle: 25 * deg, rootRadius: 0.2 }), 30] as const;
const opened = [spur20[0], { ...spur20[0], teeth: spur20[1] }] as const;

const external: Record<string, RunningCase> = {
  'spur 17/31 at the reference distance': {
    part: 'spur-gear',
    ...askPair([gear(2, 17), gear(2, 31)], 48, 'circumferential', 0.1),
  },
  'spur 13/24, x 0.5 and 0.3': {
    part: 'spur-gear',
    ...own(gear(2, 13, 0.5), gear(2, 24, 0.3), 'normal', 0.08),
  },
  'spur 19/28 shifted to 48 mm, thinning on the wheel': {
    part: 'spur-gear',
    ...askPair(shiftedTo(48, gear(2, 19), gear(2, 28), 0.6), 48, 'circumferential', 0.15, 'wheel'),
  },
  'spur 20/30 of 25°, axes opened by 0.12 mm, no thinning': {
    part: 'spur-gear',
    ...askPair(opened, 50.12, 'centre-distance', 0.12),
  },
  'helical 18/29 of 18°, x 0.25 and 0.15': {
    part: 'helical-gear',
    ...own(gear(2, 18, 0.25, 18), gear(2, 29, 0.15, 18), 'normal', 0.06),
    extra: hands('hand', 'right'),
  },
  'helical 14/37 of 30°, closed to 58.7 mm': {
    part: 'helical-gear',
    ...askPair(shiftedTo(58.7, gear(2, 14, 0, 30), gear(2, 37, 0, 30), 0.1), 58.7, 'circumferential', 0.2),
    extra: hands('hand', 'left'),
  },
  'double-helical 18/30 of 28°, sharp': {
    part: 'double-helical-gear',
    ...own(gear(2, 18, 0.2, 28), gear(2, 30, 0, 28), 'circumferential', 0.12),
    extra: hands('lowerHand', 'left'),
  },
  'double-helical 21/26 of 25°, rounded': {
    part: 'double-helical-gear',
    ...own(gear(2, 21, 0.1, 25), gear(2, 26, 0.1, 25), 'circumferential', 0.1),
    extra: hands('lowerHand', 'right', { apex: 'rounded', apexWidth: 4 }),
  },
  'double-helical 21/26 of 25°, with a gap': {
    part: 'double-helical-gear',
    ...own(gear(2, 21, 0.1, 25), gear(2, 26, 0.1, 25), 'circumferential', 0.1),
    extra: hands('lowerHand', 'left', { apex: 'gap', apexWidth: 3 }),
  },
  'double-helical 21/26 of 25°, staggered': {
    part: 'double-helical-gear',
    ...own(gear(2, 21, 0.1, 25), gear(2, 26, 0.1, 25), 'circumferential', 0.1),
    extra: hands('lowerHand', 'right', { apex: 'staggered', apexWidth: 3 }),
  },
};

/** Within the groove there are no teeth. */
const toothed = (extra: Record<string, unknown> | undefined, heights: readonly number[]): number[] => {
  const half = extra?.apex === 'gap' || extra?.apex === 'staggered' ? (extra.apexWidth as number) / 2 : 0;
  return heights.filter((z) => Math.abs(z - faceWidth / 2) > half);
};

const meshesOf = ({ part, gears, extra }: RunningCase, tolerance: number): [Mesh, Mesh] =>
  gears.map((spec, i) =>
    buildMesh(kernel, part, { ...parametersOf(spec), faceWidth, bore: 0, ...extra?.[i] }, tolerance),
  ) as [Mesh, Mesh];

const externalOf = (c: RunningCase, tolerance: number): MeshPair => {
  const [first, second] = meshesOf(c, tolerance);
  const [one, other] = c.gears;
  const heights = toothed(c.extra?.[0], heightsOf(c.part !== 'spur-gear'));
  return externalPair(
    { mesh: first, teeth: one.teeth },
    { mesh: second, teeth: other.teeth },
    c.distance,
    heights,
  );
};

describe('external pairs turned through a pitch', () => {
  it.each(Object.entries(external))('%s', (title, c) => {
    expect(c.gears[0].thinning + c.gears[1].thinning).toBeGreaterThan(-1e-9);
    expectToRun(title, externalOf(c, fine), c.play, fine);
  });
  it.each(['spur-gear', 'helical-gear', 'double-helical-gear'] as const)(
    '%s of the usual tolerance',
    (part) => {
      for (const [title, c] of Object.entries(external)
        .filter(([, one]) => one.part === part)
        .slice(0, 2)) {
        expectToRun(title, externalOf(c, usual), c.play, usual);
      }
    },
  );
});

const ringTeeth = { addendum: 0.8, rootRadius: 0.2 };
const thin = (value: number) => ({ thinning: value });

const internal: readonly (readonly [string, GearSpec, GearSpec, ('left' | 'right')?])[] = [
  ['20 in 60', gear(2, 20, 0, 0, thin(0.05)), gear(2, 60, 0, 0, { ...ringTeeth, ...thin(0.05) })],
  [
    '18 in 51, x 0.3 and −0.1',
    gear(2, 18, 0.3, 0, thin(0.03)),
    gear(2, 51, -0.1, 0, { ...ringTeeth, ...thin(0.09) }),
  ],
  [
    'helical 20 in 52 of 20°',
    gear(2, 20, 0, 20, thin(0.06)),
    gear(2, 52, 0.1, 20, { ...ringTeeth, ...thin(0.06) }),
    'right',
  ],
  [
    'helical 23 in 60 of 12°, left',
    gear(1.5, 23, 0.2, 12, thin(0.05)),
    gear(1.5, 60, 0, 12, { ...ringTeeth, ...thin(0.05) }),
    'left',
  ],
];

const internalOf = (
  pinion: GearSpec,
  ring: GearSpec,
  hand: 'left' | 'right' | undefined,
  tolerance: number,
) => {
  const more = { faceWidth, ...(hand ? { hand } : {}) };
  const meshes = [
    buildMesh(
      kernel,
      hand ? 'helical-gear' : 'spur-gear',
      { ...parametersOf(pinion), bore: 0, ...more },
      tolerance,
    ),
    buildMesh(kernel, 'ring-gear', { ...parametersOf(ring), ...more }, tolerance),
  ] as const;
  return { meshes, distance: internalCentreDistance(pinion, ring) };
};

describe('pinions turned in rings', () => {
  it.each(internal)('%s', (title, pinion, ring, hand) => {
    const play = internalBacklash(pinion, ring).circumferential;
    for (const tolerance of [fine, usual]) {
      const { meshes, distance } = internalOf(pinion, ring, hand, tolerance);
      const [one, other] = [
        { mesh: meshes[0], teeth: pinion.teeth },
        { mesh: meshes[1], teeth: ring.teeth },
      ];
      const pair = internalPair(one, other, distance, heightsOf(hand !== undefined));
      expectToRun(title, pair, play, tolerance);
    }
  });
});

const racks: readonly (readonly [string, GearSpec, ('left' | 'right')?])[] = [
  ['24 teeth', gear(2, 24, 0, 0, thin(0.05))],
  ['12 teeth, x 0.6', gear(2, 12, 0.6, 0, thin(0.04))],
  ['helical 20 of 20°, x 0.1', gear(2, 20, 0.1, 20, thin(0.06)), 'right'],
  ['helical 17 of 30°, left', gear(2, 17, 0.2, 30, thin(0.05)), 'left'],
];

const rackOf = (pinion: GearSpec, hand: 'left' | 'right' | undefined, tolerance: number) => {
  const { facts } = checkRackPair(pinion, pinion);
  if (!facts) throw new Error('refused');
  const other = hand === 'left' ? 'right' : 'left';
  const { teeth: _, profileShift: __, ...rack } = parametersOf(pinion);
  const meshes = [
    buildMesh(
      kernel,
      hand ? 'helical-gear' : 'spur-gear',
      { ...parametersOf(pinion), faceWidth, bore: 0, ...(hand ? { hand } : {}) },
      tolerance,
    ),
    buildMesh(kernel, 'rack', { ...rack, teeth: 10, faceWidth, hand: other }, tolerance),
  ] as const;
  return { meshes, facts };
};

describe('pinions rolled on racks, the hands opposite', () => {
  it.each(racks)('%s', (title, pinion, hand) => {
    for (const tolerance of [fine, usual]) {
      const { meshes, facts } = rackOf(pinion, hand, tolerance);
      const [one, other] = [
        { mesh: meshes[0], teeth: pinion.teeth },
        { mesh: meshes[1], teeth: 10 },
      ];
      const pair = rackPair(one, other, facts.mountingDistance, heightsOf(hand !== undefined));
      expectToRun(title, pair, facts.backlash.circumferential, tolerance);
    }
  });
});

describe('in space, by a boolean engine of its own', () => {
  /** `at(share, arc)`: where both stand at a share of a pitch, the second turned on by an arc at its pitch circle. */
  async function expectFree(
    title: string,
    meshes: readonly [Mesh, Mesh],
    at: (share: number, arc: number) => readonly [Pose, Pose],
    backlash: { readonly circumferential: number; readonly normal: number },
    tolerance: number,
  ): Promise<void> {
    const overlaps = await overlapsOf(...meshes);
    const half = backlash.circumferential / 2;
    const margin = 0.0025 + 2.5 * tolerance;
    let worst = 0;
    for (const share of [0, 0.21, 0.5, 0.83]) {
      expect(overlaps.at(...at(share, 0))).toBe(0);
      // Twice what a feeler gauge finds, the teeth standing midway.
      const found = 2 * overlaps.gap(...at(share, 0), 1) - backlash.normal;
      if (Math.abs(found) > Math.abs(worst)) worst = found;
      for (const side of [1, -1]) {
        expect(overlaps.at(...at(share, side * (half - margin)))).toBe(0);
        expect(overlaps.at(...at(share, side * (half + margin)))).toBeGreaterThan(0);
      }
    }
    if (thorough) console.log(`${title}: normal play in space ${(1000 * worst).toFixed(1)} µm off`);
    expect(Math.abs(worst)).toBeLessThan(0.005 + 4 * tolerance);
    overlaps.free();
  }
  const tolerance = 0.0025;

  it.each(Object.entries(external))('%s', async (title, c) => {
    const [z1, z2] = c.gears.map((g) => g.teeth) as [number, number];
    const radius = (c.distance * z2) / (z1 + z2);
    await expectFree(
      title,
      meshesOf(c, tolerance),
      (share, arc) => [
        { turn: (share * 2 * Math.PI) / z1, by: [0, 0, 0] },
        { turn: Math.PI - Math.PI / z2 - (share * 2 * Math.PI) / z2 + arc / radius, by: [c.distance, 0, 0] },
      ],
      backlashSizes(...c.gears, c.distance),
      tolerance,
    );
  });

  it.each(internal)('%s', async (title, pinion, ring, hand) => {
    const { meshes, distance } = internalOf(pinion, ring, hand, tolerance);
    const radius = (distance * ring.teeth) / (ring.teeth - pinion.teeth);
    await expectFree(
      title,
      meshes,
      (share, arc) => [
        { turn: (share * 2 * Math.PI) / pinion.teeth, by: [distance, 0, 0] },
        { turn: (share * 2 * Math.PI) / ring.teeth + arc / radius, by: [0, 0, 0] },
      ],
      internalBacklash(pinion, ring),
      tolerance,
    );
  });

  it.each(racks)('rack: %s', async (title, pinion, hand) => {
    const { meshes, facts } = rackOf(pinion, hand, tolerance);
    const pitch = facts.travelPerTurn / pinion.teeth;
    await expectFree(
      title,
      meshes,
      (share, arc) => [
        { turn: (share * 2 * Math.PI) / pinion.teeth - Math.PI / 2, by: [0, facts.mountingDistance, 0] },
        { turn: 0, by: [share * pitch - 5 * pitch + arc, 0, 0] },
      ],
      facts.backlash,
      tolerance,
    );
  });
});
