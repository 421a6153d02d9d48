/** An alloy of the shop's own: a row of the table with some values set otherwise. */
import { type Finding, warn } from '../../part/finding.js';
import type { Alloy, ElementShare, ElementSymbol, HazardCode, Range, ValueGroup } from './alloy.js';
import { mixtureDensity } from './mixture.js';

/** What a shop may set; the units of `Alloy`. */
export interface AlloyOverrides {
  readonly composition?: Readonly<Partial<Record<ElementSymbol, ElementShare>>> | undefined;
  readonly density?: number | undefined;
  readonly liquidDensity?: number | undefined;
  readonly solidus?: number | undefined;
  readonly liquidus?: number | undefined;
  readonly pourLow?: number | undefined;
  readonly pourHigh?: number | undefined;
  readonly flaskLow?: number | undefined;
  readonly flaskHigh?: number | undefined;
  readonly contraction?: number | undefined;
  readonly freezingShrinkage?: number | undefined;
  readonly latentHeat?: number | undefined;
  readonly tensile?: number | undefined;
  readonly yield?: number | undefined;
  readonly meltLoss?: number | undefined;
  readonly minimumSection?: number | undefined;
}

export const ownSource = 'set in the shop profile';

/**
 * The row with the shop's values in place of its own, each group of them with the source "set in the shop profile".
 * Where only the composition changes, the densities are scaled by the rule of mixtures. Hazards that the composition
 * brings (zinc, lead, antimony, manganese) are added; none is taken away.
 */
export function makeOwnAlloy(name: string, title: string, base: Alloy, own: AlloyOverrides): Alloy {
  const sources: Record<ValueGroup, string> = { ...base.sources };
  const set = (group: ValueGroup, ...values: readonly unknown[]): void => {
    if (values.some((v) => v !== undefined)) sources[group] = ownSource;
  };
  set('composition', own.composition);
  set('density', own.density);
  set('liquidDensity', own.liquidDensity);
  set('melting', own.solidus, own.liquidus);
  set('pour', own.pourLow, own.pourHigh);
  set('flask', own.flaskLow, own.flaskHigh);
  set('contraction', own.contraction);
  set('freezingShrinkage', own.freezingShrinkage);
  set('latentHeat', own.latentHeat);
  set('strength', own.tensile, own.yield);
  set('meltLoss', own.meltLoss);
  set('minimumSection', own.minimumSection);
  const composition = own.composition ?? base.composition;
  const scale = mixtureDensity(composition) / mixtureDensity(base.composition);
  if (own.composition !== undefined) {
    const scaled = `${base.title}, scaled by the rule of mixtures to the shop's composition`;
    if (own.density === undefined) sources.density = scaled;
    if (own.liquidDensity === undefined) sources.liquidDensity = scaled;
  }
  const density = own.density ?? base.density * scale;
  const pour = halves(base.pourRange.heavy, base.pourRange.light, own.pourLow, own.pourHigh);
  const flask = halves(base.flaskRange.thick, base.flaskRange.thin, own.flaskLow, own.flaskHigh);
  const { contraction: a, meltLoss: loss } = own;
  return {
    basedOn: base.name,
    ...base,
    name,
    title,
    designation: { uns: null, en: null, other: `based on ${base.title}` },
    composition,
    density,
    // A density set by hand moves the liquid's too, unless that is set.
    liquidDensity: own.liquidDensity ?? base.liquidDensity * (density / base.density),
    solidus: own.solidus ?? base.solidus,
    liquidus: own.liquidus ?? base.liquidus,
    pourRange: { heavy: pour[0], light: pour[1] },
    flaskRange: { thick: flask[0], thin: flask[1] },
    contraction: a === undefined ? base.contraction : { low: a, usual: a, high: a },
    freezingShrinkage: own.freezingShrinkage ?? base.freezingShrinkage,
    latentHeat: own.latentHeat ?? base.latentHeat,
    strength: {
      tensile: own.tensile ?? base.strength.tensile,
      yield: own.yield ?? (own.tensile === undefined ? base.strength.yield : null),
    },
    meltLoss: loss === undefined ? base.meltLoss : { low: loss, usual: loss, high: loss },
    minimumSection: own.minimumSection ?? base.minimumSection,
    hazards: [...new Set([...base.hazards, ...hazardsOf(composition)])],
    sources,
  };
}

/** A range set as a whole is halved by section, as the table's own are; otherwise the base's two stay. */
function halves(low: Range, high: Range, from?: number, to?: number): readonly [Range, Range] {
  if (from === undefined && to === undefined) return [low, high];
  const [a, b] = [from ?? low[0], to ?? high[1]];
  return [
    [a, (a + b) / 2],
    [(a + b) / 2, b],
  ];
}

/** From these mass % up, an element brings its hazard. Lead counts from 0.1 %, the least that is called unleaded. */
const hazardShares: readonly (readonly [ElementSymbol, number, HazardCode])[] = [
  ['Zn', 1, 'zinc-fume'],
  ['Pb', 0.1, 'lead'],
  ['Cu', 50, 'copper-fume'],
  ['Sb', 0.5, 'antimony'],
  ['Mn', 0.5, 'manganese-fume'],
];

const hazardsOf = (composition: Alloy['composition']): readonly HazardCode[] =>
  hazardShares.flatMap(([element, least, hazard]) =>
    (composition[element]?.max ?? composition[element]?.nominal ?? 0) >= least ? [hazard] : [],
  );

/** Departure of density over mixture from that of the base row, beyond which the density is doubted. */
const mostDeparture = 0.03;

/** Doubts about an own alloy, by the row it is based on: a density its composition does not explain. */
export function checkOwnAlloy(own: Alloy, base: Alloy): readonly Finding[] {
  const expected = base.density * (mixtureDensity(own.composition) / mixtureDensity(base.composition));
  if (Math.abs(own.density / expected - 1) <= mostDeparture) return [];
  const shown = (d: number): string => (d * 1000).toFixed(2);
  return [
    warn(
      'own-alloy-density',
      `${own.title} is given ${shown(own.density)} g/cm³; by its composition, ${base.title} for a yardstick, about ${shown(expected)} is likely.`,
      'Weigh a sound piece in air and in water, or correct density or composition.',
    ),
  ];
}
