import { coreLimit } from '../../core/foundry/holes.js';
import { type Finding, note, warn } from '../../core/part/finding.js';
import type { HoleForm } from './body.js';
import type { PullState } from './levels.js';
import type { HatchPullParameters } from './parameters.js';

export interface HolePlan {
  readonly form: HoleForm;
  readonly findings: readonly Finding[];
}

/**
 * Whether the cross hole is in this state. The finished part has it; the casting has it where the mould can carry
 * the core, or where it is asked for.
 */
export function planHole(state: PullState, wish: HatchPullParameters['hole'], finished: boolean): HolePlan {
  if (finished) return { form: 'hole', findings: [] };
  const diameter = 2 * state.holeRadius;
  const depth = state.sizes.tabWidth + 2 * state.mating;
  const drill = `drill ${state.sizes.holeDiameter.toFixed(1)} mm from the dimples in both sides of the tab`;
  if (wish === 'drilled') {
    return {
      form: 'dimples',
      findings: [note('pin-hole-drilled', 'the pin hole is left solid', drill, 'hole')],
    };
  }
  if (diameter <= 0) {
    return {
      form: 'dimples',
      findings: [
        note(
          'pin-hole-drilled',
          'the bore stock closes the pin hole: it is left solid',
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
    form: 'dimples',
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
