/** What a job or a shop may set of the gating; the rest is worked out. */
import { z } from 'zod';
import { defaultGatingSettings, type GatingSettings, mostGates } from '../foundry/gating/index.js';
import { angle, count, duration, length, number } from '../part/fields.js';

const group = 'Gating';
const usual = (key: keyof GatingSettings, unit = ''): string => `${defaultGatingSettings[key]}${unit}`;

const size = (key: keyof GatingSettings, min: number, max: number, help: string) =>
  length({ min, max, derived: usual(key, 'mm'), group, help });

const share = (key: keyof GatingSettings, min: number, max: number, help: string) =>
  number({ min, max, derived: usual(key), group, help });

export const gatingFields = z.object({
  gates: count({
    min: 1,
    max: mostGates,
    derived: 'as many as the rules of filling and feeding ask for',
    group,
    help: 'Places where metal enters each pattern',
  }),
  pourTime: duration({
    min: 0.2,
    max: 120,
    derived: "the handbook's, or within the freezing time",
    group,
    help: 'Longest pour of a mould',
  }),
  velocityLimit: number({
    min: 0.02,
    max: 5,
    derived: 'by metal',
    group,
    help: 'Fastest metal in the gates, m/s',
  }),
  dischargeCoefficient: share('dischargeCoefficient', 0.3, 1, 'Discharge coefficient of sprue and gates'),
  freezingShare: share(
    'freezingShare',
    0.01,
    1,
    "Fill within this share of the thinnest wall's freezing time",
  ),
  modulusRatio: share('modulusRatio', 0.5, 3, "Modulus of sprue or runner over the casting's"),
  feederEfficiency: share('feederEfficiency', 0.01, 1, 'Share of sprue and cup that can feed the casting'),
  leastHead: size('leastHead', 5, 300, "Metal over the casting's highest point"),
  leastSprueLength: size('leastSprueLength', 2, 200, 'Sprue between foot and cup, to saw through'),
  leastSprueDiameter: size('leastSprueDiameter', 1.5, 50, 'Thinnest sprue or runner'),
  cupSeconds: duration({ min: 0, max: 60, derived: '2s', group, help: 'Flow that the cup holds' }),
  cupShare: share('cupShare', 0, 10, 'The cup need hold no more than this share of the casting for the flow'),
  cupWallAngle: angle({
    min: Math.PI / 4,
    max: (80 * Math.PI) / 180,
    derived: '60deg',
    group,
    help: "Cup's wall above the horizontal",
  }),
  cupLeastDiameter: size('cupLeastDiameter', 5, 200, 'Narrowest cup'),
  cupLargestDiameter: length({
    min: 10,
    max: 500,
    derived: 'as wide as the casting, at least 50mm',
    group,
    help: 'Widest cup; beyond it the cup gets deeper',
  }),
  ventLeastDiameter: size('ventLeastDiameter', 0.5, 20, 'Thinnest vent'),
  ventLargestDiameter: size('ventLargestDiameter', 0.5, 20, 'Thickest vent'),
  clearance: size('clearance', 1, 50, 'Mould between vents, sprue and cup'),
  patternGap: size('patternGap', 2, 100, 'Mould between the patterns of a tree'),
} satisfies Record<keyof GatingSettings, unknown>);
