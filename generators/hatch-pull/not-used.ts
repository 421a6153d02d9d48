import { type Finding, note } from '../../core/part/finding.js';
import type { HatchPullParameters } from './parameters.js';
import { isScrewed } from './screwed-tab.js';
import { isPlain } from './sizes.js';

/** Sizes that were given and that the chosen section and tab have no use for. */
export function notUsed(p: HatchPullParameters): readonly Finding[] {
  const oval = p.section === 'oval';
  const screwed = isScrewed(p.tab);
  const idle: readonly (keyof HatchPullParameters)[] = [
    ...(isPlain(p) ? [] : (['lipLength'] as const)),
    ...(oval ? (['bevel'] as const) : (['tabThickness'] as const)),
    ...(screwed ? (['pinDiameter', 'pinDistance', 'pinToEnd'] as const) : (['tabLength'] as const)),
  ];
  const given = idle.filter((name) => p[name] !== undefined);
  if (given.length === 0) return [];
  return [
    note(
      'size-not-used',
      `the ${p.section} section with the ${p.tab} tab has no use for ${given.length === 1 ? 'a size' : 'sizes'} that ${given.length === 1 ? 'was' : 'were'} given`,
      'leave out what is named here, or choose another section or tab',
      ...given,
    ),
  ];
}
