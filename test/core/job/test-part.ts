import { z } from 'zod';
import type { JobContext } from '../../../core/job/job-context.js';
import { definePart, type PartDefinition, refuse } from '../../../core/part/contract.js';
import { angle, choice, count, flag, length, number } from '../../../core/part/fields.js';

const group = 'Shape';

/** A part with one field of each kind. It is only described, never built. */
export const testBracket = definePart({
  name: 'test-bracket',
  summary: 'A bracket that is only described',
  parameters: z.object({
    width: length({ min: 5, max: 400, default: 40, group, symbol: 'b', help: 'Overall width' }),
    boreDiameter: length({ min: 0, max: 100, derived: 'a third of the width', group, help: 'Bore' }),
    tilt: angle({ min: 0, max: Math.PI / 4, default: Math.PI / 6, group, symbol: 'β', help: 'Tilt' }),
    shift: number({ min: -0.5, max: 0.8, default: 0, group, symbol: 'x', help: 'Shift' }),
    holes: count({ min: 1, max: 12, default: 2, group: 'Holes', help: 'Number of holes' }),
    hand: choice(['left', 'right'], { default: 'left', group: 'Holes', help: 'Hand' }),
    countersunk: flag({ default: false, group: 'Holes', help: 'Countersunk holes' }),
  }),
  presets: { small: { width: 12, holes: 1 } },
  build: () => refuse([]),
});

export const testOptions: JobContext = {
  fileName: 'job.yaml',
  knownParts: (name) => (name === testBracket.name ? (testBracket as unknown as PartDefinition) : undefined),
  partNames: [testBracket.name],
  knownAlloys: ['tin-bronze', 'yellow-brass', 'silicon-bronze'],
  knownInvestments: ['gypsum-bonded', 'phosphate-bonded'],
};
