/**
 * The fields of a plate job, group by group, made with the same helpers as a part's parameters: they validate,
 * and give the reference documentation through `listFields`. Words and names are read in `read-job.ts`.
 */
import { z } from 'zod';
import { widestFlask } from '../foundry/burnout.js';
import { mostGates, mostOnTree } from '../foundry/gating/index.js';
import { freezeLevels } from '../freeze/plans.js';
import { choice, count, duration, flag, length, number, numberOrWord } from '../part/fields.js';
import type { SurfaceClass } from '../part/stock.js';

const group = 'Job';
const freezing = 'Filling and freezing';

/** A job's choices and lengths outside its groups. */
export const settingsFields = z.object({
  units: choice(['mm', 'in'], {
    default: 'mm',
    group,
    help: 'How bare lengths are read and how the papers print',
  }),
  degrees: choice(['C', 'F'], { default: 'C', group, help: 'Scale of the temperatures on the papers' }),
  tolerance: length({
    min: 0.001,
    max: 0.2,
    derived: '0.01mm for gears, 0.02mm for free forms',
    group,
    help: 'Greatest distance of the mesh from the exact shape, on part and pattern',
  }),
  layerHeight: length({ min: 0.01, max: 1, default: 0.15, group, help: 'Layer height of the print' }),
  shellFiring: choice(['flash', 'ramp'], {
    default: 'flash',
    group,
    help: 'Ceramic shells go into the hot kiln, or are heated in it from cold',
  }),
  freeze: choice(freezeLevels, {
    default: 'coarse',
    group: freezing,
    help: 'How each mould fills and freezes: worked out in a second or so, finely in a minute or so, or not at all',
  }),
  pourDelay: duration({
    min: 0,
    max: 3600,
    default: 60,
    group: freezing,
    help: 'From the kiln to the pour: what a flask cools in',
  }),
  improve: flag({
    default: false,
    group: freezing,
    help: 'Where a casting would be left unsound, try other sprues, gates and vents and keep what measures better',
  }),
  packFlasks: flag({
    default: false,
    group,
    help: 'Put small patterns on trees together, so that as few flasks as can be are poured',
  }),
  freezeFields: flag({
    default: false,
    group: freezing,
    help: 'Write what was worked out of every cell as freeze.vtk, an open format',
  }),
});

const growthField = () =>
  numberOrWord(['handbook', 'causes', 'log'], {
    min: 1,
    max: 1.1,
    derived: 'handbook: the allowance of the alloy',
    group,
    help: 'Pattern size over casting size: a number, the handbook’s, composed from its causes, or as measured in the pour log',
  });

/** What may stand in the job for all parts, and in one part for itself. */
export const growthFields = z.object({ growth: growthField() });

const stockField = (surfaces: string) =>
  length({
    min: 0,
    max: 10,
    derived: 'from the surface class',
    group: 'Stock',
    help: `Stock per side on ${surfaces}`,
  });

export const stockFields = z.object({
  flank: stockField('tooth flanks'),
  tip: stockField('tooth tips'),
  face: stockField('gear sides and hub ends'),
  bore: stockField('bores'),
  skin: stockField('hand-finished outside surfaces'),
  mating: stockField('surfaces that run on another part'),
} satisfies Record<SurfaceClass, unknown>);

const correction = (help: string) =>
  number({ min: 0.9, max: 1.1, default: 1, group: 'Printer correction', help });

export const correctionFields = z.object({
  xy: correction('Factor on the printed size in X and Y, after growth'),
  z: correction('Factor on the printed size in Z, after growth'),
});

/** Sizes have no default: a flask that is listed is described. */
export const flaskFields = z.object({
  diameter: length({ min: 20, max: widestFlask, derived: '', group: 'Flask', help: 'Inside diameter' }),
  height: length({ min: 20, max: 1000, derived: '', group: 'Flask', help: 'Inside height' }),
  wall: length({
    min: 0,
    max: 20,
    default: 1.5,
    group: 'Flask',
    help: 'Thickness of its steel; 0 where the mould is stripped of it before the fire',
  }),
  base: choice(['plate', 'closed'], {
    default: 'plate',
    group: 'Flask',
    help: 'Open at both ends and filled on a base plate, or closed at one end like a can',
  }),
});

const price = (help: string) =>
  number({ min: 0, max: 1e6, derived: 'left out of the cost', group: 'Prices', help });

export const priceFields = z.object({
  metalPerKg: price('Metal, one price for all alloys or one by alloy'),
  investmentPerKg: price('Investment powder'),
  slurryPerKg: price('Slurry for ceramic shells, as mixed'),
  stuccoPerKg: price('Stucco for ceramic shells'),
  plasticPerKg: price('Printed plastic'),
  energyPerKwh: price('Electricity or gas, a kilowatt-hour'),
  consumablesPerMould: price('What each mould uses up beside these: wax, abrasives'),
});

export const partFields = z.object({
  quantity: count({ min: 1, max: 1000, default: 1, group: 'Part', help: 'How many to cast' }),
  patternsPerTree: count({
    min: 1,
    max: mostOnTree,
    default: 1,
    group: 'Part',
    help: 'Patterns round one sprue, in one mould',
  }),
  gates: count({
    min: 1,
    max: mostGates,
    derived: 'as many as the rules of filling and feeding ask for',
    group: 'Part',
    help: 'Places where metal enters each pattern',
  }),
  growth: growthField(),
});

/** What a tree of several kinds says beside its patterns. */
export const treeFields = z.object({
  quantity: count({ min: 1, max: 1000, default: 1, group: 'Tree', help: 'How many such trees to cast' }),
  growth: growthField(),
});

export const memberFields = z.object({
  count: count({
    min: 1,
    max: mostOnTree,
    default: 1,
    group: 'Tree',
    help: 'Patterns of it on each tree',
  }),
  growth: growthField(),
});

/** Used where the job names none. */
export const jobDefaults = { alloy: 'tin-bronze', investment: 'gypsum-bonded' } as const;

/** Keys read as words or as groups, beside the fields above. */
export const jobWords = [
  'job',
  'title',
  'notes',
  'shop',
  'alloy',
  'investment',
  'startAt',
  'pourAt',
] as const;
export const jobGroups = [
  'stock',
  'bed',
  'nesting',
  'printerCorrection',
  'flasks',
  'gating',
  'prices',
  'metals',
  'parts',
] as const;
export const partWords = [
  'name',
  'part',
  'piece',
  'preset',
  'alloy',
  'stock',
  'gating',
  'parameters',
] as const;

/** Keys read as words or as groups: of a tree of several kinds, and of each pattern that it lists. */
export const treeWords = ['name', 'tree', 'alloy', 'stock', 'gating'] as const;
export const memberWords = ['name', 'part', 'piece', 'preset', 'alloy', 'stock', 'parameters'] as const;

export const mostParts = 10_000;
export const mostFlasks = 100;
export const mostNotes = 100;
export const longestTitle = 200;
export const longestNote = 1000;
