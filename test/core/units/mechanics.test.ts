/** NIST SP 811 (2008), appendix B.8, figures from memory: lbf 4.448 222 N, lbf·in 0.112 984 8 N·m, lbf·ft 1.355 818 N·m, hp 745.6999 W, psi 6.894 757 kPa. */
import { describe, expect, it, test } from 'vitest';
import {
  formatForce,
  formatPower,
  formatStress,
  formatTorque,
  formatTurns,
  formatVelocity,
  newtonsPerPound,
  parsePower,
  parseTorque,
  parseTurns,
  wattsPerHorsepower,
} from '../../../core/units/index.js';

const value = (reading: ReturnType<typeof parseTorque>): number => {
  if (!reading.ok) throw new Error(reading.problem);
  return reading.value;
};

describe('factors', () => {
  it('pound-force, horsepower, torque', () => {
    expect(newtonsPerPound).toBeCloseTo(4.448222, 6);
    expect(wattsPerHorsepower).toBeCloseTo(745.6999, 4);
    expect(value(parseTorque('1lbf·in', 'mm')) / 1000).toBeCloseTo(0.1129848, 7);
    expect(value(parseTorque('1 lbf ft', 'mm')) / 1000).toBeCloseTo(1.355818, 6);
  });
});

describe('reading', () => {
  test.each([
    ['12Nm', 12_000],
    ['12 N·m', 12_000],
    ['350 N.mm', 350],
    ['1.2e1 N m', 12_000],
    ['12', 12_000],
  ])('%s', (text, torque) => expect(value(parseTorque(text, 'mm'))).toBeCloseTo(torque, 9));
  it('bare numbers follow the length unit', () => {
    expect(value(parseTorque('100', 'in'))).toBe(value(parseTorque('100lb-in', 'mm')));
    expect(value(parsePower('1/4', 'in'))).toBeCloseTo(186.425, 3);
    expect(value(parsePower('0.25kW', 'in'))).toBe(250);
    expect(value(parseTurns('60rpm'))).toBeCloseTo(2 * Math.PI, 12);
    expect(value(parseTurns('60'))).toBeCloseTo(2 * Math.PI, 12);
    expect(value(parseTurns('2 rad/s'))).toBe(2);
  });
  test.each([
    [parseTorque('12kg', 'mm'), /no torque/],
    [parseTorque('12mNm', 'mm'), /millinewton/],
    [parsePower('3mW', 'mm'), /megawatts/],
    [parseTurns('60Hz'), /no speed of rotation/],
    [parsePower('', 'mm'), /empty/],
  ])('refused %#', (reading, problem) => {
    expect(reading.ok ? '' : reading.problem).toMatch(problem);
  });
});

describe('printing, three figures', () => {
  it('metric and inch', () => {
    expect(formatForce(1234.5, 'mm')).toBe('1230 N');
    expect(formatForce(4.4482, 'in')).toBe('1 lbf');
    expect(formatTorque(14_630, 'mm')).toBe('14.6 N·m');
    expect(formatTorque(14_630, 'in')).toBe('129 lbf·in');
    expect(formatTorque(2e6, 'in')).toBe('1480 lbf·ft');
    expect(formatPower(58.5, 'mm')).toBe('58.5 W');
    expect(formatPower(1500, 'mm')).toBe('1.5 kW');
    expect(formatPower(745.7, 'in')).toBe('1 hp');
    expect(formatVelocity(508, 'in')).toBe('100 ft/min');
    expect(formatVelocity(508, 'mm')).toBe('0.508 m/s');
    expect(formatTurns(2 * Math.PI)).toBe('60 rev/min');
    expect(formatStress(69, 'mm')).toBe('69 MPa');
    expect(formatStress(68.94757, 'in')).toBe('10000 psi');
    expect(formatForce(0, 'mm')).toBe('0 N');
  });
});
