import { describe, expect, test } from 'vitest';
import { circleArea, columnPressure } from '../../../../core/foundry/gating/choke.js';
import { ventBackPressure, ventOutflow } from '../../../../core/foundry/gating/vents.js';
import { type FlowProblem, floodingFlow, flowAt } from '../../../../core/freeze/fill/flow.js';
import {
  headsAt,
  kneeLoss,
  narrowingLoss,
  passageLoss,
  pipeFriction,
  wideningLoss,
} from '../../../../core/freeze/fill/losses.js';
import { rootOfFalling } from '../../../../core/freeze/fill/root.js';

/** What most textbooks calculate with, mm/s². */
const gravity = 9810;
const density = 8e-3;
const upright = (diameter: number, length: number) => ({
  name: 'vent',
  diameter,
  path: [
    [0, 0, 0],
    [0, 0, length],
  ] as const,
});
/** Vents so wide that air leaves freely. */
const wide = [upright(1000, 1)];

/** A gate of `area` mm² at z = 0 under `head` mm, nothing lost but its velocity head. */
const torricelli = (head: number, area: number, more: Partial<FlowProblem> = {}): FlowProblem => ({
  cupLevel: head,
  cupFloor: head,
  sprue: { drag: 0, pipes: [] },
  sprueDiameter: 20,
  branches: [{ outlet: 0, drag: headsAt(1, area), pipes: [] }],
  vents: wide,
  density,
  gravity,
  ...more,
});
const agrees = (value: number, printed: number, lastDigit: number): void =>
  expect(Math.abs(value - printed)).toBeLessThanOrEqual(lastDigit / 2 + 1e-9);

describe('without losses: Torricelli', () => {
  test.each([
    ['Groover, ch. 10: 20 cm, 2.5 cm²', 200, 250, 495, 1],
    ['worked solution after Groover: 175 mm, 444 mm²', 175, 444, 823, 1],
    ['examination solution: 250 mm, ø10', 250, circleArea(10), 173.944, 0.01],
  ])('%s', (_, head, area, printed, digit) => {
    agrees(flowAt(torricelli(head, area), -1).flow / 1000, printed, digit);
  });
  test('metal over the gate takes its own height from the head', () => {
    const at = (level: number): number => flowAt(torricelli(200, 100), level).flow;
    expect(at(150) / at(0)).toBeCloseTo(0.5, 6);
    expect(at(-80)).toBe(at(0));
    expect(at(200)).toBe(0);
    expect(at(230)).toBe(0);
  });
  test('two gates of different height: each under its own head', () => {
    const way = { drag: headsAt(1, 50), pipes: [] };
    const two = torricelli(200, 50, {
      branches: [
        { outlet: 0, ...way },
        { outlet: 100, ...way },
      ],
    });
    const alone = (head: number): number => 50 * Math.sqrt(2 * gravity * head);
    expect(flowAt(two, -1).flow).toBeCloseTo(alone(200) + alone(100), 1);
    expect(flowAt(two, 150).flow).toBeCloseTo(2 * alone(50), 1);
  });
});

describe('with losses', () => {
  test('heads in series: v = √(2 g h/(1 + Σζ)) (Bernoulli)', () => {
    const q = flowAt(torricelli(200, 100, { sprue: { drag: headsAt(1.25, 100), pipes: [] } }), -1).flow;
    expect(q).toBeCloseTo((100 * Math.sqrt(2 * gravity * 200)) / 1.5, 1);
  });
  test('a sprue common to two equal gates carries both their flow', () => {
    const branch = { outlet: 0, drag: headsAt(1, 50), pipes: [] };
    const q = flowAt(
      torricelli(200, 50, { sprue: { drag: headsAt(0.5, 100), pipes: [] }, branches: [branch, branch] }),
      -1,
    ).flow;
    expect(q).toBeCloseTo(100 * Math.sqrt((2 * gravity * 200) / 1.5), 1);
  });
  test('knees: Weisbach’s table 45° 0.18, 60° 0.36, 90° 0.98 (from memory)', () => {
    const degrees = (d: number): number => (d * Math.PI) / 180;
    agrees(kneeLoss(degrees(45)), 0.183, 0.01);
    agrees(kneeLoss(degrees(60)), 0.365, 0.01);
    agrees(kneeLoss(degrees(90)), 0.984, 0.01);
    expect(kneeLoss(0)).toBe(0);
  });
  test('a step from 1 to 2 loses a quarter of the head, from 2 to 1 a quarter (Borda and Carnot; White)', () => {
    expect([wideningLoss(1, 2), narrowingLoss(2, 1)]).toEqual([0.25, 0.25]);
    expect([wideningLoss(2, 1), narrowingLoss(1, 2)]).toEqual([0, 0]);
  });
  test('friction: laminar as Hagen and Poiseuille, turbulent as Blasius at Re 10⁴: λ = 0.0316', () => {
    // ν 0.5 mm²/s, D 10 mm: Re 1000 at 50 mm/s; Δp/ρ = 32 ν L v/D².
    const pipe = { length: 100, from: 10, to: 10 };
    expect(pipeFriction(pipe, circleArea(10) * 50)).toBeCloseTo((32 * 0.5 * 100 * 50) / 100, 6);
    agrees(pipeFriction(pipe, circleArea(10) * 500) / (10 * (500 ** 2 / 2)), 0.0316, 1e-4);
  });
  test('friction along a taper is that of many short pipes', () => {
    const flow = 5e4;
    let sum = 0;
    for (let i = 0; i < 1000; i++) {
      const d = 12 - (4 * (i + 0.5)) / 1000;
      sum += pipeFriction({ length: 0.1, from: d, to: d }, flow);
    }
    // λ is taken at the middle.
    expect(pipeFriction({ length: 100, from: 12, to: 8 }, flow) / sum).toBeCloseTo(1, 1);
    expect(pipeFriction({ length: 100, from: 12, to: 8 }, 0)).toBe(0);
  });
});

describe('air', () => {
  test('it leaves as fast as metal comes, and its pressure is what the head lacks', () => {
    const area = 100;
    for (const vents of [[upright(1.5, 60)], [upright(2, 30), upright(3, 80)]]) {
      const { flow, backPressure } = flowAt(torricelli(100, area, { vents }), -1);
      expect(ventOutflow(vents, backPressure) / flow).toBeCloseTo(1, 6);
      expect(ventBackPressure(vents, flow) / backPressure).toBeCloseTo(1, 6);
      const head = 1e6 * columnPressure(100, density) * (gravity / 9806.65);
      const used = (density * (flow / area) ** 2) / 2;
      expect((backPressure + used) / head).toBeCloseTo(1, 6);
    }
  });
  test('unlike vents in parallel: each carries what the same pressure drives through it alone', () => {
    const [a, b] = [upright(2, 30), upright(3, 80)];
    expect(ventOutflow([a, b], 200)).toBeCloseTo(ventOutflow([a], 200) + ventOutflow([b], 200), 6);
    // By hand, the first: 4 L μ 32/(π d⁴)…: a q + b q² = 200.
    const q = ventOutflow([a], 200) * 1e-9;
    const friction = (128 * 3.3e-5 * 0.03 * q) / (Math.PI * 0.002 ** 4);
    const heads = (0.75 * 0.52 * q * q) / (Math.PI * 1e-6) ** 2;
    expect(friction + heads).toBeCloseTo(200, 6);
  });
  test('without vents: metal and air pass one another as Wallis’ law has it', () => {
    const none = torricelli(200, 300, { vents: [] });
    const { flow, backPressure } = flowAt(none, -1);
    expect(flow / floodingFlow(20, density, gravity)).toBeCloseTo(1, 6);
    expect(backPressure).toBeGreaterThan(0);
    const speed = flow / circleArea(20);
    const star = (rho: number): number => speed * Math.sqrt(rho / (gravity * 20 * (density - 0.52e-6)));
    expect(Math.sqrt(star(density)) + Math.sqrt(star(0.52e-6))).toBeCloseTo(0.725, 6);
  });
  test('a bottle of water, neck ø22, 750 ml, takes about 7 to 15 s to run out (everyday measure, no source)', () => {
    // Air of the room is denser than a mould's; it hardly matters.
    const seconds = 750e3 / floodingFlow(22, 1e-3);
    expect(seconds).toBeGreaterThan(5);
    expect(seconds).toBeLessThan(20);
  });
});

test('roots: found within the bracket, at its ends, of a steep function', () => {
  expect(rootOfFalling((x) => 2 - x * x, 0, 2)).toBeCloseTo(Math.SQRT2, 8);
  expect(rootOfFalling((x) => 1e-3 - x ** 9, 0, 100)).toBeCloseTo(1e-3 ** (1 / 9), 6);
  expect(rootOfFalling((x) => -1 - x, 0, 1)).toBe(0);
  expect(rootOfFalling((x) => 3 - x, 0, 1)).toBe(1);
  expect(passageLoss({ drag: 2, pipes: [] }, 3)).toBe(18);
});
