/** The fields of a shop profile that a job does not have: `mixing`, `kiln` and `furnace`. */
import { z } from 'zod';
import { usualBag } from '../foundry/investment.js';
import { usualScaleStep } from '../foundry/scale.js';
import { count, flag, length, mass, number, power, temperature, temperatureRate } from '../part/fields.js';

export const shopFields = z.object({
  printShrinkage: number({
    min: 0,
    max: 0.02,
    derived: "the plastic's usual",
    group: 'Shop',
    help: 'Fraction by which prints come out small, uncorrected: 0.003 for 0.3 %',
  }),
  scale: mass({
    min: 0.01,
    max: 100,
    default: usualScaleStep,
    group: 'Shop',
    help: 'Smallest step of the scale: what is told to be weighed comes in whole steps',
  }),
});

export const mixingFields = z.object({
  waterRatio: number({
    min: 0.1,
    max: 0.6,
    derived: "the investment's",
    group: 'Mixing',
    help: 'Water to powder by mass: 0.4 for 40 to 100',
  }),
  waste: number({
    min: 0,
    max: 1,
    derived: '0.125',
    group: 'Mixing',
    help: 'Fraction mixed beyond what the flasks hold',
  }),
  bag: mass({
    min: 500,
    max: 50_000,
    default: usualBag,
    group: 'Mixing',
    help: 'Powder in a bag as bought',
  }),
  vacuum: flag({
    default: false,
    group: 'Mixing',
    help: 'Air is drawn out under a bell jar, not by vibration',
  }),
});

const inside = (help: string) =>
  length({ min: 50, max: 3000, derived: 'whether flasks fit is not checked', group: 'Kiln', help });

export const kilnFields = z.object({
  width: inside('Inside width'),
  depth: inside('Inside depth'),
  height: inside('Inside height'),
  topTemperature: temperature({
    min: 300,
    max: 1400,
    derived: 'not checked',
    group: 'Kiln',
    help: 'Hottest it may be set to',
  }),
  rate: temperatureRate({
    min: 20,
    max: 2000,
    derived: 'as fast as the mould allows',
    group: 'Kiln',
    help: 'Fastest it heats near its top temperature',
  }),
  segments: count({
    min: 1,
    max: 99,
    derived: 'as many as the programme has',
    group: 'Kiln',
    help: 'Ramp-and-soak segments the controller takes',
  }),
  power: power({
    min: 100,
    max: 100_000,
    derived: 'energy not worked out',
    group: 'Kiln',
    help: 'Rated power',
  }),
});

export const furnaceFields = z.object({
  power: power({
    min: 100,
    max: 500_000,
    derived: 'melting time not worked out',
    group: 'Furnace',
    help: 'Rated power',
  }),
  efficiency: number({
    min: 0.02,
    max: 1,
    default: 0.5,
    group: 'Furnace',
    help: 'Share of its energy that reaches the metal; small gas furnaces 0.05 to 0.15',
  }),
});

/** Used where no profile names one. */
export const shopDefaults = { plastic: 'PLA' } as const;

/** Keys of a profile beside the groups it shares with a job. */
export const shopWords = [
  'title',
  'units',
  'plastic',
  'printShrinkage',
  'scale',
  'investment',
  'layerHeight',
] as const;
export const shopGroups = ['mixing', 'kiln', 'furnace', 'crucibles', 'alloys', 'metals'] as const;
/** Groups that a profile and a job may both have; the job's come first, each as a whole. */
export const sharedGroups = ['bed', 'nesting', 'printerCorrection', 'flasks', 'gating', 'prices'] as const;
