/** `list alloys NAME`: all that is known of one alloy, each value with its source. */
import type { Alloy, Range, ValueGroup } from '../core/foundry/alloys/index.js';
import { wrap } from '../core/report/wrap.js';
import {
  formatLength,
  formatNumber,
  formatTemperature,
  type LengthUnit,
  type TemperatureUnit,
} from '../core/units/index.js';

interface View {
  readonly unit: LengthUnit;
  readonly degrees: TemperatureUnit;
}

const labelWidth = 22;

/** For a terminal of 80 columns; ends with a line break. */
export function formatAlloyCard(alloy: Alloy, view: View): string {
  const { uns, en, other } = alloy.designation;
  const lines = [
    `${alloy.title} (${alloy.name})`,
    [uns && `UNS ${uns}`, en && `nearest EN ${en}`, other].filter(Boolean).join(', '),
    '',
    ...rowsOf(alloy, view).flatMap(([label, value, group]) => [
      wrap(value, label.padEnd(labelWidth), ' '.repeat(labelWidth)),
      ...(group === null
        ? []
        : [wrap(`[${alloy.sources[group]}]`, ' '.repeat(labelWidth), ' '.repeat(labelWidth))]),
    ]),
  ];
  return `${lines.filter((l, i) => l !== '' || i !== 1).join('\n')}\n`;
}

/** What, its value, and whose source; null where the value is a word for the cautions. */
function rowsOf(
  a: Alloy,
  { unit, degrees }: View,
): readonly (readonly [string, string, ValueGroup | null])[] {
  const temperature = (c: number): string => formatTemperature(c, degrees);
  const range = ([low, high]: Range): string =>
    `${temperature(low).replace(/ .*/, '')} to ${temperature(high)}`;
  const percent = (x: number, digits = 2): string => `${formatNumber(100 * x, { digits })} %`;
  const metric = unit === 'mm';
  const density = (d: number): string =>
    metric
      ? `${formatNumber(d * 1000, { digits: 2 })} g/cm³`
      : `${formatNumber((d * 25.4 ** 3) / 453.59237, { digits: 3 })} lb/in³`;
  const heat = (x: number): string => `${formatNumber(x, { digits: 1 })} kJ/kg`;
  const capacity = (x: number): string => `${formatNumber(x * 1000, { digits: 0 })} J/(kg·K)`;
  const stress = (x: number): string =>
    metric ? `${formatNumber(x, { digits: 0 })} MPa` : `${formatNumber(x / 6.894757, { digits: 1 })} ksi`;
  return [
    ['composition', compositionText(a), 'composition'],
    ['melts', `solidus ${temperature(a.solidus)}, liquidus ${temperature(a.liquidus)}`, 'melting'],
    ['pour', `thin ${range(a.pourRange.light)}, heavy ${range(a.pourRange.heavy)}`, 'pour'],
    ['investment mould', `thin ${range(a.flaskRange.thin)}, thick ${range(a.flaskRange.thick)}`, 'flask'],
    ['density', `${density(a.density)} at ${temperature(20)}`, 'density'],
    ['density, liquid', density(a.liquidDensity), 'liquidDensity'],
    ['lost on freezing', `${percent(a.freezingShrinkage, 1)} of the volume`, 'freezingShrinkage'],
    [
      'contraction',
      `${percent(a.contraction.usual)} (${percent(a.contraction.low)} to ${percent(a.contraction.high)})`,
      'contraction',
    ],
    ['latent heat', heat(a.latentHeat), 'latentHeat'],
    [
      'specific heat',
      `solid ${capacity(a.specificHeat.solid)}, liquid ${capacity(a.specificHeat.liquid)}`,
      'specificHeat',
    ],
    [
      'conductivity',
      `${formatNumber(a.conductivity * 1000, { digits: 1 })} W/(m·K) at ${temperature(20)}`,
      'conductivity',
    ],
    [
      'strength, as cast',
      `${stress(a.strength.tensile)} tensile${a.strength.yield === null ? '' : `, ${stress(a.strength.yield)} yield`}`,
      'strength',
    ],
    [
      'melt loss',
      `${percent(a.meltLoss.usual, 1)} (${percent(a.meltLoss.low, 1)} to ${percent(a.meltLoss.high, 1)})`,
      'meltLoss',
    ],
    ['thinnest wall', `${formatLength(a.minimumSection, unit)} in a hot investment mould`, 'minimumSection'],
    ['hazards', a.hazards.map((h) => h.replaceAll('-', ' ')).join(', '), null],
  ];
}

const compositionText = (a: Alloy): string =>
  Object.entries(a.composition)
    .map(([element, { nominal, min, max }]) => {
      const limits =
        min !== undefined && max !== undefined
          ? ` (${min} to ${max})`
          : min !== undefined
            ? ` (at least ${min})`
            : max !== undefined
              ? ` (at most ${max})`
              : '';
      return `${element} ${nominal}${limits}`;
    })
    .join(', ')
    .concat(' mass %');
