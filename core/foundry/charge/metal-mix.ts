/** What to weigh of each metal on the shelf for the heats of an alloy. Mass in g, shares in mass %. */
import { type Finding, warn } from '../../part/finding.js';
import { formatNumber } from '../../units/index.js';
import type { Alloy, ElementSymbol } from '../alloys/index.js';
import type { Basis } from '../plans.js';
import { stepDown } from '../scale.js';
import { mixOfGrams, planAlloying } from './alloying.js';
import type { ElementOut, StockMetal } from './alloying-programme.js';
import { chargingOrder } from './charging-order.js';
import { elementNames } from './elements.js';
import { noMixFinding } from './no-mix-finding.js';
import { elementLosses, mostOf, type Specification, specificationOf } from './specification.js';
import { type WeighedMix, weighMix } from './weigh-mix.js';

export interface MixedMetal {
  readonly name: string;
  /** To weigh out in all, g, whole steps of the scale, and before they were rounded. */
  readonly mass: number;
  readonly unrounded: number;
  /** In each heat, g, whole steps. */
  readonly heats: readonly number[];
  /** At its price per kg. */
  readonly pricePerKg: number;
  readonly cost: number;
  /** g left on the shelf; missing where it is not said how much there is. */
  readonly left?: number;
}

/** An element of the melt, its losses off, and its limits. */
export interface MixedElement {
  readonly element: ElementSymbol;
  readonly share: number;
  readonly min?: number;
  readonly max?: number;
}

export interface MadeMix {
  readonly ok: true;
  /** In the order they go into the pot. */
  readonly metals: readonly MixedMetal[];
  readonly composition: readonly MixedElement[];
  /** What the metals' compositions leave unsaid. */
  readonly unknown: number;
  readonly cost: number;
  /** How to charge the pot, step by step. */
  readonly order: readonly string[];
  readonly findings: readonly Finding[];
  readonly bases: Readonly<Record<string, Basis>>;
}

/** What keeps the metals from making the alloy, as `AlloyingPlan` says it. */
export interface NoMix {
  readonly ok: false;
  readonly short: number;
  readonly out: readonly ElementOut[];
  readonly help: readonly { readonly element: ElementSymbol; readonly mass: number }[];
  readonly findings: readonly Finding[];
}

export type MetalMix = MadeMix | NoMix;

export interface MetalMixInput {
  readonly alloy: Alloy;
  /** One metal at least. */
  readonly metals: readonly StockMetal[];
  /** The charge of each heat, g, whole steps of the scale. */
  readonly heats: readonly number[];
  /** g */
  readonly scaleStep: number;
}

/**
 * The cheapest mix in specification within what is on hand, shared out among the heats in proportion and rounded to
 * the scale's steps. Metals that are mostly an element foreign to the alloy are left on the shelf.
 */
export function planMetalMix(input: MetalMixInput): MetalMix {
  const { alloy, heats, scaleStep } = input;
  const target = specificationOf(alloy);
  const losses = elementLosses(alloy);
  // A metal of an element that the alloy does not have is no filler, however cheap and little.
  const useful = input.metals.filter((m) => target[mostOf(m)] !== undefined);
  const metals = useful.flatMap((m) => {
    const there = m.available === undefined ? undefined : stepDown(m.available, scaleStep);
    if (there === 0) return [];
    return [
      { ...m, meltLoss: { ...losses, ...m.meltLoss }, ...(there === undefined ? {} : { available: there }) },
    ];
  });
  const charge = heats.reduce((a, b) => a + b, 0);
  if (metals.length === 0) return refused(alloy, charge, { short: charge, out: [], help: [] }, useful);
  const plan = planAlloying({ stock: metals, target, charge });
  if (!plan.ok) return refused(alloy, charge, plan, metals);

  const weighed = weighMix({ stock: metals, target }, plan.mix, heats, scaleStep);
  return described(input, metals, target, weighed);
}

function described(
  { alloy, metals: shelf, scaleStep }: MetalMixInput,
  metals: readonly StockMetal[],
  target: Specification,
  { exact, heats, out }: WeighedMix,
): MetalMix {
  const grams = metals.map((_, i) => Number(heats.reduce((sum, h) => sum + h[i]!, 0).toFixed(9)));
  const mix = mixOfGrams(metals, grams);
  const used = metals.flatMap((m, i) => (grams[i]! > 0 ? [{ ...m, mass: grams[i]!, at: i }] : []));
  const { metals: inOrder, steps } = chargingOrder(alloy, used);
  const elements = [...new Set([...Object.keys(target), ...Object.keys(mix.composition)])] as ElementSymbol[];
  return {
    ok: true,
    metals: inOrder.map(({ name, mass, at, pricePerKg }) => {
      const there = shelf.find((m) => m.name === name)?.available;
      return {
        name,
        mass,
        unrounded: exact[at]!,
        heats: heats.map((h) => h[at]!),
        pricePerKg,
        cost: (mass / 1000) * pricePerKg,
        ...(there === undefined ? {} : { left: Number((there - mass).toFixed(9)) }),
      };
    }),
    composition: elements
      .map((element) => ({ element, share: mix.composition[element] ?? 0, ...target[element] }))
      .sort((a, b) => b.share - a.share),
    unknown: mix.unknown,
    cost: mix.cost,
    order: steps,
    findings: out.length === 0 ? [] : [coarseScale(alloy, scaleStep, out)],
    bases,
  };
}

function coarseScale(alloy: Alloy, step: number, out: readonly ElementOut[]): Finding {
  const { element, got, limit, side } = out.reduce((a, b) => (b.by > a.by ? b : a));
  return warn(
    'scale-too-coarse',
    `Weighed to ${formatNumber(step, { digits: 2 })} g, a heat of ${alloy.title} comes to ${formatNumber(got, { digits: 3 })} % ${elementNames[element]}; the limit is ${side === 'over' ? 'at most' : 'at least'} ${formatNumber(limit, { digits: 2 })} %.`,
    'Weigh on a finer scale, or melt more at once.',
  );
}

/** The shelf when the mix is off it. */
export const shelfAfter = (metals: readonly StockMetal[], mix: MetalMix | undefined): readonly StockMetal[] =>
  metals.map((m) => {
    const used = mix?.ok ? mix.metals.find((x) => x.name === m.name) : undefined;
    return used?.left === undefined ? m : { ...m, available: used.left };
  });

const refused = (
  alloy: Alloy,
  charge: number,
  { short, out, help }: Pick<NoMix, 'short' | 'out' | 'help'>,
  metals: readonly StockMetal[],
): MetalMix => ({
  ok: false,
  short,
  out,
  help,
  findings: [noMixFinding(alloy, charge, { short, out, help }, metals)],
});

const bases: Readonly<Record<string, Basis>> = {
  mix: {
    rule: 'least cost with every element of the melt within its limits, losses off, no more than is on hand; a linear programme',
    source:
      'Simplex method (G. Dantzig, 1947); limits of the alloy’s specification, where it sets none nominal ± a tenth or half a point; each other element at most 0.3 %: common practice, no source',
  },
  elementLosses: {
    rule: 'share of each element lost in the melt: zinc 5 %, magnesium, manganese and phosphorus 10 %, others 0.5 to 5 %; the main element no more than the alloy',
    source: 'from memory',
  },
  order: {
    rule: 'the base first, what is hard to melt dissolved in it, what burns off last',
    source: 'common practice, no source',
  },
};
