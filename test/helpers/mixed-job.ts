/** Batch work for benches and fault tests: plate jobs of many small, different parts of every kind there is. */

import { seeded } from './seeded.js';

type Parameters = Readonly<Record<string, number | string>>;
interface Draw {
  /** In steps of a nanometre: no two draws are alike. */
  readonly between: (least: number, most: number) => number;
  readonly count: (least: number, most: number) => number;
  readonly oneOf: <T>(choices: readonly T[]) => T;
}
interface Recipe {
  readonly part: string;
  readonly piece?: string;
  readonly parameters: (draw: Draw) => Parameters;
}

export interface MixedJobOptions {
  /** Left out: 1. */
  readonly seed?: number;
  /** mm; left out: 0.1, which is coarse. */
  readonly tolerance?: number;
  /** Left out: `off`. */
  readonly freeze?: 'off' | 'coarse' | 'fine';
  /** How many of each; left out: 1. */
  readonly quantity?: number;
}

/** Teeth that need no thought: enough of them, and a bore that leaves a rim. */
const teeth = ({ between, count }: Draw) => ({
  module: between(1.4, 2),
  teeth: count(14, 22),
  faceWidth: between(6, 12),
  bore: between(5, 7),
});

const pull = ({ between }: Draw) => ({ size: between(18, 26) });
const line = ({ between }: Draw) => ({ line: between(6, 9) });
const leaf = ({ between }: Draw) => ({ size: between(40, 60) });

/** One a casting. Sizes stay well inside what can be made, so that a job of any length has no part refused. */
const recipes: readonly Recipe[] = [
  { part: 'spur-gear', parameters: teeth },
  { part: 'hatch-pull', parameters: pull },
  { part: 'horn-cleat', parameters: line },
  {
    part: 'helical-gear',
    parameters: (draw) => ({
      ...teeth(draw),
      helixAngle: draw.between(10, 25),
      hand: draw.oneOf(['left', 'right']),
    }),
  },
  { part: 'ring-pull', piece: 'ring', parameters: pull },
  { part: 'jam-cleat', parameters: line },
  {
    part: 'double-helical-gear',
    parameters: (draw) => ({
      ...teeth(draw),
      faceWidth: draw.between(10, 16),
      helixAngle: draw.between(15, 28),
    }),
  },
  { part: 'ring-pull', piece: 'plate', parameters: pull },
  { part: 'deck-eye', parameters: line },
  {
    part: 'ring-gear',
    parameters: ({ between, count }) => ({
      module: between(1.4, 1.8),
      teeth: count(36, 44),
      faceWidth: between(6, 10),
      rimThickness: between(6.5, 8),
    }),
  },
  { part: 'bow-pull', parameters: ({ between }) => ({ fingers: 1, width: between(45, 60) }) },
  { part: 'fairlead', parameters: line },
  {
    part: 'rack',
    parameters: ({ between, count }) => ({
      module: between(1.4, 2),
      teeth: count(6, 10),
      faceWidth: between(6, 12),
    }),
  },
  { part: 'flush-pull', parameters: ({ between }) => ({ fingers: 1, recessLength: between(36, 46) }) },
  { part: 'butt-hinge', piece: 'outer-leaf', parameters: leaf },
  { part: 'ring-pull', piece: 'pin', parameters: pull },
  { part: 'knob', parameters: ({ between }) => ({ size: between(22, 32) }) },
  { part: 'butt-hinge', piece: 'inner-leaf', parameters: leaf },
  { part: 'strap-hinge', piece: 'strap', parameters: ({ between }) => ({ size: between(90, 120) }) },
  { part: 'strap-hinge', piece: 'plate', parameters: ({ between }) => ({ size: between(90, 120) }) },
  { part: 'gudgeon-pintle', piece: 'pintle', parameters: ({ between }) => ({ size: between(250, 350) }) },
  { part: 'gudgeon-pintle', piece: 'gudgeon', parameters: ({ between }) => ({ size: between(250, 350) }) },
];

const alloys = ['tin-bronze', 'yellow-brass', 'silicon-bronze'] as const;

/**
 * A plate job of `parts` small castings as data (write it with `JSON.stringify`: every JSON is YAML). The kinds take
 * turns; sizes and alloys are drawn, so that no two parts are alike. The same for the same seed.
 */
export function mixedJob(parts: number, options: MixedJobOptions = {}): Record<string, unknown> {
  const { seed = 1, tolerance = 0.1, freeze = 'off', quantity } = options;
  const random = seeded(seed);
  const draw: Draw = {
    between: (least, most) => Number((least + random() * (most - least)).toFixed(6)),
    count: (least, most) => least + Math.floor(random() * (most - least + 1)),
    oneOf: (choices) => choices[Math.floor(random() * choices.length)] as (typeof choices)[number],
  };
  return {
    job: 'mixed',
    tolerance: `${tolerance}mm`,
    freeze,
    parts: Array.from({ length: parts }, (_, i) => {
      const { part, piece, parameters } = recipes[i % recipes.length] as Recipe;
      return {
        name: `${piece ?? part}-${String(i + 1).padStart(String(parts).length, '0')}`,
        part,
        ...(piece === undefined ? {} : { piece }),
        ...(quantity === undefined ? {} : { quantity }),
        alloy: draw.oneOf(alloys),
        parameters: parameters(draw),
      };
    }),
  };
}

/** Castings there are recipes of, after which the kinds come round again. */
export const mixedKinds = recipes.length;
