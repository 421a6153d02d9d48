import { describe, expect, test } from 'vitest';
import {
  chokeArea,
  circleArea,
  circleDiameter,
  copperPourFactors,
  copperPourTime,
  criticalVelocity,
  effectiveHead,
  fallHeight,
  fallVelocity,
  flowThrough,
  freezingFactor,
  freezingTime,
  ironPourTime,
  modulus,
  ringModulus,
  taperRatio,
} from '../../core/foundry/gating/index.js';
import { pipeLoss } from '../../core/foundry/gating/vents.js';

/** What most textbooks calculate with, mm/s². */
const g = 9810;

/** Equal within half of the last printed digit. */
const agrees = (value: number, printed: number, lastDigit: number): void =>
  expect(Math.abs(value - printed)).toBeLessThanOrEqual(lastDigit / 2 + 1e-9);

describe('sprue and choke', () => {
  test('Groover, Fundamentals of Modern Manufacturing, ch. 10: sprue 20 cm, base 2.5 cm², cavity 1560 cm³', () => {
    const flow = flowThrough(250, 1, 200, g);
    agrees(fallVelocity(200, g), 1981, 1);
    agrees(flow / 1000, 495, 1);
    agrees(1560e3 / flow, 3.15, 0.01); // printed as 3.2 s
  });
  test('worked solution after Groover: sprue 175 mm, base 444 mm², cavity 1376 cm³', () => {
    const flow = flowThrough(444, 1, 175, g);
    agrees(fallVelocity(175, g) / 1000, 1.853, 0.001);
    agrees(flow / 1000, 823, 1);
    agrees(1376e3 / flow, 1.67, 0.01);
  });
  test('examination solution: sprue 250 mm, base ø10 mm, 100 mm cube', () => {
    const flow = flowThrough(circleArea(10), 1, 250, g);
    agrees(fallVelocity(250, g) / 1000, 2.2147, 0.0001);
    // The solution multiplies rounded values: 2214.7 mm/s × 78.54 mm².
    expect(Math.abs(flow - 173_944)).toBeLessThan(5);
    agrees(1e6 / flow, 5.75, 0.01);
  });
  test('worked solution after Groover: 500 cm³/s at a drop of 15 cm needs a base of 2.91 cm²', () => {
    agrees(500e3 / fallVelocity(150, g) / 100, 2.91, 0.01);
  });
  test('effective head, lecture notes on gating system design: H 200, c 100', () => {
    expect(effectiveHead(200, 0, 100)).toBe(200); // top
    expect(effectiveHead(200, 100, 100)).toBe(150); // bottom, H − c/2
    expect(effectiveHead(200, 50, 100)).toBe(187.5); // parting line, H − c/8
  });
  test('choke A = W/(ρ t C √(2 g h)) of the same notes, recomputed', () => {
    const copper = chokeArea(2000, 8e-3, 2, 0.8, 150, g);
    agrees(copper, 91.08, 0.01);
    agrees(circleDiameter(copper), 10.77, 0.01);
    agrees(chokeArea(500, 2.4e-3, 2.5, 0.8, 120, g), 67.89, 0.01);
  });
  test('taper A_top/A_bottom = √(h_bottom/h_top): 50 and 200 mm under the surface gives 2 (Rao)', () => {
    expect(taperRatio(50, 200)).toBeCloseTo(2, 12);
    // Continuity itself: velocity times area is the same at both depths.
    const areas = [taperRatio(37, 161), 1] as const;
    expect(areas[0] * fallVelocity(37)).toBeCloseTo(areas[1] * fallVelocity(161), 9);
  });
});

describe('pouring time, Rao (from memory, recomputed)', () => {
  test.each([
    [8000, copperPourFactors.brass, 3.8],
    [8000, copperPourFactors.tinBronze, 5.6],
    [27_000, copperPourFactors.topGate, 3.9],
  ])('copper alloy, %d g, K %d', (mass, factor, seconds) => {
    agrees(copperPourTime(mass, factor), seconds, 0.01);
  });
  test.each([
    [20_000, 12, 9.98],
    [100_000, 25, 31.24],
  ])('grey iron, %d g, section %d mm', (mass, section, seconds) => {
    agrees(ironPourTime(mass, section), seconds, 0.01);
  });
});

describe('velocity at the gate, Campbell (surface tension N/m, density kg/m³ from memory, recomputed)', () => {
  test.each([
    ['aluminium', 0.9, 2370, 0.494],
    ['copper', 1.3, 8000, 0.4],
    ['zinc', 0.78, 6570, 0.369],
    ['iron', 1.85, 7000, 0.451],
  ])('%s', (_, tension, density, metresPerSecond) => {
    agrees(criticalVelocity(tension, density * 1e-6) / 1000, metresPerSecond, 0.001);
  });
  test('0.5 m/s is reached in a free fall of 12.7 mm', () => agrees(fallHeight(500), 12.7, 0.1));
});

describe('moduli and freezing', () => {
  test('plate 80 × 120 × 20 mm freezing in 2 min, feeder H = D in 3 min (GATE 2018, ME)', () => {
    const plate = modulus(80 * 120 * 20, 2 * (80 * 120 + 80 * 20 + 120 * 20));
    agrees(plate, 7.0588, 0.0001);
    const perSquare = 2 / plate ** 2;
    agrees(perSquare, 0.040139, 0.000001);
    // Cylinder H = D: V/A = D/6.
    agrees(6 * Math.sqrt(3 / perSquare), 51.87, 0.01);
    expect(freezingTime(perSquare, plate)).toBeCloseTo(2, 12);
  });
  test('bar 3:1 and round bar of ø0.3 m, equal section and length 0.5 m, freeze as 0.658 to 1 (test solution)', () => {
    const area = circleArea(300);
    const side = Math.sqrt(area / 3);
    const rectangle = modulus(area * 500, 2 * area + 8 * side * 500);
    const round = modulus(area * 500, 2 * area + Math.PI * 300 * 500);
    agrees((rectangle / round) ** 2, 0.658, 0.001);
  });
  test('Kalpakjian, plate 4 in thick, 5 in square, and cylinder r 4, h 2 in: 0.59 C and 0.444 C', () => {
    agrees(modulus(4 * 25, 2 * 25 + 4 * 20) ** 2, 0.59, 0.01);
    agrees(modulus(Math.PI * 16 * 2, Math.PI * (2 * 16 + 2 * 4 * 2)) ** 2, 0.444, 0.001);
  });
  test('ring OD 80, ID 20, 20 wide: 6.0 (recomputed)', () => {
    const [volume, side] = [(Math.PI / 4) * (80 ** 2 - 20 ** 2) * 20, Math.PI * (80 + 20) * 20];
    expect(modulus(volume, side + (Math.PI / 2) * (80 ** 2 - 20 ** 2))).toBeCloseTo(6, 12);
  });
  test('a long ring-shaped bar has the V/A of its section', () => {
    const [inner, outer] = [12, 28];
    const perLength = (circleArea(outer) - circleArea(inner)) / (Math.PI * (inner + outer));
    expect(ringModulus(inner, outer)).toBeCloseTo(perLength, 12);
  });
  test('copper alloy in plaster investment at 400 °C: about 15.6 s/mm² (same formula, assumed properties)', () => {
    const b = freezingFactor({
      density: 7800,
      latentHeat: 190e3,
      liquidHeat: 450,
      superheat: 0,
      freezingTemperature: 999,
      mouldTemperature: 400,
      mouldConductivity: 0.35,
      mouldDensity: 1100,
      mouldHeat: 840,
    });
    // An order-of-magnitude figure: one part in ten is close.
    expect(Math.abs(b / 15.6 - 1)).toBeLessThan(0.1);
  });
  test('steel in silica sand: about 2.1 min/cm² (Flemings’ formula, L 270 kJ/kg, k 0.6, ρ 1500, c 1160)', () => {
    const b = freezingFactor({
      density: 7200,
      latentHeat: 270e3,
      liquidHeat: 0,
      superheat: 0,
      freezingTemperature: 1520,
      mouldTemperature: 20,
      mouldConductivity: 0.6,
      mouldDensity: 1500,
      mouldHeat: 1160,
    });
    agrees((b * 100) / 60, 2.1, 0.1);
  });
});

test('Hagen–Poiseuille: at this loss the mean velocity is Δp d²/(32 μ L) (White, Fluid Mechanics, ch. 6)', () => {
  const [viscosity, length, flow, diameter] = [0.001, 2, 1e-6, 0.004];
  const mean = flow / ((Math.PI / 4) * diameter ** 2);
  expect(pipeLoss(viscosity, length, flow, diameter)).toBeCloseTo(
    (32 * viscosity * length * mean) / diameter ** 2,
    9,
  );
});
