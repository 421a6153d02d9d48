import { coreLimit } from '../../core/foundry/holes.js';
import { type Finding, note, warn } from '../../core/part/finding.js';
import type { PullState } from './levels.js';
import type { HatchPullParameters } from './parameters.js';

/** What stands for the cross hole in a state: the hole, dimples to start a drill in, or nothing. */
export type HoleForm = 'hole' | 'dimples' | 'solid';

export interface HolePlan {
  readonly form: HoleForm;
  readonly findings: readonly Finding[];
}

/** A core thinner than this cannot be printed or cast whatever is asked, mm. */
const leastCore = 0.5;

/** How deep drill dimples go under the finished side, mm, so that facing the tab leaves them to be seen. */
const dimpleUnderSide = 0.8;

/** Depth, and radius on the tab's side, of the 90° dimples, mm; always inside the hole to be drilled. */
export const dimpleDepth = ({ mating, sizes }: PullState): number =>
  Math.min(mating + dimpleUnderSide, 0.4 * sizes.holeDiameter);

/** Dimples need the flat of the tab's sides: not where the fillets, or the step before them, begin. */
const dimplesFit = (state: PullState): boolean =>
  state.pinX - dimpleDepth(state) - 1 > state.plan.filletX + Math.abs(state.sideStep);

/**
 * Whether the cross hole is in this state. The finished part has it; the casting has it where the mould can carry
 * the core, or where it is asked for.
 */
export function planHole(state: PullState, wish: HatchPullParameters['hole'], finished: boolean): HolePlan {
  if (finished) return { form: 'hole', findings: [] };
  const diameter = 2 * state.holeRadius;
  const depth = state.sizes.tabWidth + 2 * state.mating;
  const without = dimplesFit(state) ? 'dimples' : 'solid';
  const start =
    without === 'dimples' ? 'from the dimples in both sides of the tab' : 'after marking out both sides';
  const drill = `drill ${Number(state.sizes.holeDiameter.toFixed(2))} mm ${start}`;
  if (wish === 'drilled') {
    return {
      form: without,
      findings: [note('pin-hole-drilled', 'the pin hole is left solid', drill, 'hole')],
    };
  }
  if (diameter < leastCore) {
    return {
      form: without,
      findings: [
        note(
          'pin-hole-drilled',
          'the bore stock all but closes the pin hole: it is left solid',
          drill,
          'pinDiameter',
        ),
      ],
    };
  }
  const limit = coreLimit(diameter, 'through');
  if (limit.castable && depth <= limit.maxDepth) return { form: 'hole', findings: [] };
  const seen = `a core ${diameter.toFixed(1)} mm thick and ${depth.toFixed(1)} mm long`;
  const rule = `the mould carries ${limit.maxDepth.toFixed(1)} mm at that thickness`;
  if (wish === 'cored') {
    return {
      form: 'hole',
      findings: [
        warn(
          'pin-hole-core-long',
          `the pin hole needs ${seen}; ${rule}`,
          'let it be left solid and drill it: hole auto or drilled',
          'hole',
          'pinDiameter',
          'tabWidth',
        ),
      ],
    };
  }
  return {
    form: without,
    findings: [
      note(
        'pin-hole-drilled',
        `the pin hole is left solid, since it would need ${seen}; ${rule}`,
        drill,
        'pinDiameter',
        'tabWidth',
      ),
    ],
  };
}
