/** Why no mix of the metals on the shelf is the alloy, and what would mend it. */
import { type Finding, warn } from '../../part/finding.js';
import { listed } from '../../part/listed.js';
import { formatNumber } from '../../units/index.js';
import type { Alloy } from '../alloys/index.js';
import type { ElementOut, StockMetal } from './alloying-programme.js';
import { elementNames } from './elements.js';
import type { NoMix } from './metal-mix.js';
import { mainElement } from './specification.js';

/** One finding: the elements that are out, the farthest first, or the metal that is short. */
export function noMixFinding(
  alloy: Alloy,
  charge: number,
  { short, out, help }: Pick<NoMix, 'short' | 'out' | 'help'>,
  metals: readonly StockMetal[],
): Finding {
  const main = mainElement(alloy);
  const list = `List ingot of ${alloy.title} among the shop's metals, or weigh out bought ingot of known analysis`;
  if (metals.some((m) => (m.composition[main] ?? 0) >= leastBase) && short >= charge)
    return warn('no-mix', `The shop's metals are all used up: ${alloy.title} takes ${grams(charge)}`, list);
  if (!metals.some((m) => (m.composition[main] ?? 0) >= leastBase))
    return warn(
      'no-mix',
      `None of the shop's metals is mainly ${elementNames[main]}, of which ${alloy.title} is made`,
      list,
    );
  const wanting = short > 0 ? [`${grams(short)} of metal are short of the ${grams(charge)} charge`] : [];
  const strays = [...out]
    .sort((a, b) => b.by - a.by)
    .map(
      ({ element, got, limit, side }) =>
        `${elementNames[element]} comes to ${percent(got)}, ${side === 'over' ? 'at most' : 'at least'} ${percent(limit)} is in specification`,
    );
  return warn(
    'no-mix',
    `The shop's metals do not make ${alloy.title}: ${[...wanting, ...strays].join('; ')}`,
    help.length === 0
      ? remedyWithout(out)
      : `It could be made with ${listed(help.map((h) => `${grams(h.mass)} of pure ${elementNames[h.element]}`))} beside what is listed`,
  );
}

/** Mass % of the alloy's main element from which a metal is a base to alloy to. */
const leastBase = 50;

const remedyWithout = (out: readonly ElementOut[]): string =>
  `Take metal with less ${listed(out.filter((o) => o.side === 'over').map((o) => elementNames[o.element])) || 'of everything else'}`;

/** Up, so that it is enough. */
const grams = (g: number): string => `${g < 10 ? Math.ceil(g * 10 - 1e-6) / 10 : Math.ceil(g - 1e-6)} g`;
const percent = (share: number): string => `${formatNumber(share, { digits: 2 })} %`;
