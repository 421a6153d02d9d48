import { describe, expect, it } from 'vitest';
import {
  diametralPitchFromModule,
  moduleFromDiametralPitch,
  moduleSeriesI,
  moduleSeriesII,
  moduleSeriesOf,
  nearestModule,
} from '../../../core/gear/module-series.js';

describe('module series (ISO 54:1996, from memory)', () => {
  it('18 modules in each series, rising, none in both', () => {
    for (const series of [moduleSeriesI, moduleSeriesII]) {
      expect(series).toHaveLength(18);
      expect([...series].sort((a, b) => a - b)).toEqual(series);
    }
    expect(moduleSeriesI.filter((m) => moduleSeriesII.includes(m))).toEqual([]);
  });
  it('finds a module’s series and the nearest preferred module', () => {
    expect(moduleSeriesOf(2.5)).toBe('I');
    expect(moduleSeriesOf(2.75)).toBe('II');
    expect(moduleSeriesOf(2.54)).toBeUndefined();
    expect(nearestModule(moduleFromDiametralPitch(10))).toBe(2.5);
    expect(nearestModule(3.6)).toBe(4);
    expect(nearestModule(3.6, 'II')).toBe(3.5);
  });
  it('refuses a pitch or module that is none', () => {
    for (const bad of [0, -4, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => moduleFromDiametralPitch(bad)).toThrow(/must be above 0/);
      expect(() => diametralPitchFromModule(bad)).toThrow(/must be above 0/);
    }
  });
});
