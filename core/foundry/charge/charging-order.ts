/** In which order metals go into the pot, and with what care. Common practice, no source. */
import { listed } from '../../part/listed.js';
import type { Alloy, ElementSymbol } from '../alloys/index.js';
import type { StockMetal } from './alloying-programme.js';
import { magnesiumBoils, meltingPoint, zincBoils } from './elements.js';
import { mainElement, mostOf } from './specification.js';

/** When a metal goes in: melted first, dissolved in that, to take the oxygen, melting below it, burning off. */
type Turn = 'base' | 'dissolved' | 'deoxidiser' | 'easy' | 'zinc' | 'magnesium';
const turns: readonly Turn[] = ['base', 'dissolved', 'deoxidiser', 'easy', 'zinc', 'magnesium'];

/** Mass % from which a metal is taken for what the element is: a base, zinc; a master alloy of P or Mg. */
const ruling = { main: 50, zinc: 50, phosphorus: 3, magnesium: 5 };

export interface ChargingOrder<T> {
  readonly metals: readonly T[];
  /** In words, with cautions. */
  readonly steps: readonly string[];
}

/** Sorts the metals of a mix into the order they are charged in, and says how. */
export function chargingOrder<T extends Pick<StockMetal, 'name' | 'composition'>>(
  alloy: Alloy,
  metals: readonly T[],
): ChargingOrder<T> {
  const main = mainElement(alloy);
  const ranked = metals
    .map((metal) => ({ metal, turn: turnOf(metal, main, alloy.liquidus) }))
    .sort(
      (a, b) =>
        turns.indexOf(a.turn) - turns.indexOf(b.turn) ||
        (a.turn === 'base'
          ? share(b.metal, main) - share(a.metal, main)
          : meltingPoint[mostOf(b.metal)] - meltingPoint[mostOf(a.metal)]),
    );
  const at = (turn: Turn): readonly string[] =>
    ranked.flatMap((r) => (r.turn === turn ? [r.metal.name] : []));
  const say = (turn: Turn, text: (names: string) => string): readonly string[] =>
    at(turn).length === 0 ? [] : [text(listed(at(turn)))];
  const zincTo =
    alloy.liquidus < zincBoils
      ? `with the melt under ${zincBoils} °C, where zinc boils`
      : `with the melt let down to just over its freezing point, ${Math.round(alloy.liquidus)} °C: zinc boils at ${zincBoils} °C`;
  const fumes = share({ composition: nominal(alloy) }, 'Zn') >= 1 && main !== 'Zn';
  return {
    metals: ranked.map((r) => r.metal),
    steps: [
      'Every piece clean, free of paint and oil, bone dry and warmed before it goes in: damp metal under a melt throws it out of the pot.',
      ...say('base', (names) => `First ${names}: bring to a melt under a dry cover.`),
      ...say(
        'dissolved',
        (names) =>
          `Then ${names}, in small pieces, stirred under until dissolved: melts higher than the alloy.`,
      ),
      ...say('deoxidiser', (names) => `Then ${names}, stirred under: it takes the oxygen.`),
      ...say('easy', (names) => `Then ${names}, stirred in; it melts at once.`),
      ...say(
        'zinc',
        (names) =>
          `Last ${names}, furnace off and ${zincTo}. Warm and dry, in small pieces, held under the surface with tongs; face away, fume drawn off.`,
      ),
      ...say(
        'magnesium',
        (names) =>
          `Last of all ${names}, plunged under with a dry bell and held down: magnesium boils at ${magnesiumBoils} °C and burns in air with a white glare.`,
      ),
      fumes
        ? 'Stir, skim, bring to the pour and do not wait: zinc goes on burning off. The reckoning holds for a prompt pour.'
        : 'Stir to the bottom, skim, bring to the pour.',
    ],
  };
}

const share = (m: Pick<StockMetal, 'composition'>, element: ElementSymbol): number =>
  m.composition[element] ?? 0;

const nominal = ({ composition }: Alloy): StockMetal['composition'] =>
  Object.fromEntries(Object.entries(composition).map(([element, s]) => [element, s.nominal]));

function turnOf(metal: Pick<StockMetal, 'composition'>, main: ElementSymbol, liquidus: number): Turn {
  if (share(metal, 'P') >= ruling.phosphorus) return 'deoxidiser';
  if (share(metal, 'Mg') >= ruling.magnesium) return 'magnesium';
  if (share(metal, main) >= ruling.main) return 'base';
  if (share(metal, 'Zn') >= ruling.zinc) return 'zinc';
  return meltingPoint[mostOf(metal)] > liquidus ? 'dissolved' : 'easy';
}
