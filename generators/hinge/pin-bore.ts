import { coreLimit } from '../../core/foundry/holes.js';
import type { BuildKit } from '../../core/part/contract.js';
import { choice } from '../../core/part/fields.js';
import { type Finding, note, warn } from '../../core/part/finding.js';
import type { Solid } from '../../core/solid/types.js';
import type { Span } from './knuckles.js';

/** Whether the knuckles' bore is in the casting. */
export const boreField = choice(['auto', 'cored', 'drilled'], {
  group: 'Casting',
  help: "Knuckles' bore in the casting: cored where the mould allows it, always, or never (marked for the drill)",
  default: 'auto',
});
export type BoreWish = 'auto' | 'cored' | 'drilled';

/** The bore in one state: cored, a cone in each end to start a drill in, or nothing. */
export interface BorePlan {
  readonly form: 'hole' | 'dimples' | 'solid';
  /** mm; 0 where it is left for the drill. */
  readonly diameter: number;
  readonly findings: readonly Finding[];
}

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

/** How the findings speak of what the bore goes through. */
export interface BoreWords {
  /** `the knuckles are left solid` */
  readonly solid: string;
  /** `the knuckles need`, to go on with the cores. */
  readonly need: string;
  /** How it is held to be drilled. */
  readonly held: string;
  readonly pinParameter: string;
}

const knuckleWords: BoreWords = {
  solid: 'the knuckles are left solid',
  need: 'the knuckles need',
  held: 'both leaves pinned or clamped together in line',
  pinParameter: 'pinDiameter',
};

/** A core thinner than this cannot be printed or cast whatever is asked, mm. */
const leastCore = 0.5;
/** How deep drill dimples go under the finished end, mm, so that facing leaves them to be seen. */
const dimpleUnderEnd = 0.8;

/**
 * Whether a round bore of `holeDiameter` along the pin is in this state: the finished part has it, the casting where
 * the mould carries its cores. Each core runs through one of the `knuckles`, `ends` longer by the stock of its ends.
 */
export function planBore(
  holeDiameter: number,
  knuckles: readonly Span[],
  stock: { readonly bore: number; readonly ends: number },
  wish: BoreWish,
  finished: boolean,
  words: BoreWords = knuckleWords,
): BorePlan {
  if (finished) return { form: 'hole', diameter: holeDiameter, findings: [] };
  const diameter = holeDiameter - 2 * stock.bore;
  const length = Math.max(...knuckles.map(([from, to]) => to - from)) + 2 * stock.ends;
  const remedy = `drill ${mm(holeDiameter)} from the cast centres, ${words.held}`;
  const left = (why: string): BorePlan => ({
    form: 'dimples',
    diameter: 0,
    findings: [note('bore-drilled', why, remedy, 'bore', words.pinParameter)],
  });
  if (wish === 'drilled') return left(words.solid);
  if (diameter < leastCore) return left(`the bore stock all but closes the bore: ${words.solid}`);
  const limit = coreLimit(diameter, 'through');
  if (limit.castable && length <= limit.maxDepth) return { form: 'hole', diameter, findings: [] };
  const seen = `cores ${mm(diameter)} thick and ${mm(length)} long`;
  const rule = limit.castable
    ? `the mould carries ${mm(limit.maxDepth)} at that thickness`
    : 'too thin to hold in the mould';
  if (wish === 'auto') return left(`${words.solid}, for it would take ${seen}: ${rule}`);
  return {
    form: 'hole',
    diameter,
    findings: [
      warn(
        'bore-core-long',
        `${words.need} ${seen}: ${rule}`,
        'leave it to the drill: bore auto or drilled',
        'bore',
        words.pinParameter,
      ),
    ],
  };
}

/** A countersink at both outer ends, for the heads of a riveted pin, mm. */
export interface RivetSeat {
  readonly mouthDiameter: number;
}

/**
 * What the bore takes away from a row of knuckles about the X axis through the origin turned to Y: along Y at x = 0,
 * z = 0. `ends` is the stock of the outermost ends.
 */
export function boreTools(
  plan: BorePlan,
  holeDiameter: number,
  knuckles: readonly Span[],
  stock: { readonly bore: number; readonly ends: number },
  { kernel, tolerance }: BuildKit,
  rivet?: RivetSeat,
): readonly Solid[] {
  const first = knuckles[0]![0] - stock.ends;
  const last = knuckles[knuckles.length - 1]![1] + stock.ends;
  /** From about Z to about Y. */
  const along = (tool: Solid): Solid => tool.rotate('x', -Math.PI / 2);
  const overhang = 0.5;
  // A cone at each end, 90°: its radius at a place is its distance from the tip.
  const cones = (tipUnder: number): readonly Solid[] => {
    if (tipUnder <= 0.05) return [];
    const wide = tipUnder + overhang;
    return [
      along(kernel.frustum([0, 0], last - tipUnder, 0, last + overhang, wide, tolerance)),
      along(kernel.frustum([0, 0], first - overhang, wide, first + tipUnder, 0, tolerance)),
    ];
  };
  if (plan.form === 'solid') return [];
  if (plan.form === 'dimples') return cones(Math.min(stock.ends + dimpleUnderEnd, 0.4 * holeDiameter));
  const r = plan.diameter / 2;
  const hole = along(kernel.frustum([0, 0], first - overhang, r, last + overhang, r, tolerance));
  if (!rivet) return [hole];
  // The seat's cone moves in by the bore's stock along its normal, and the end by its own.
  return [hole, ...cones(rivet.mouthDiameter / 2 - Math.SQRT2 * stock.bore + stock.ends)];
}
