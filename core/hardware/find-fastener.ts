import { suggestRemedy } from '../part/suggest.js';
import { plainText } from '../units/number-text.js';
import { type Parsed, parsed, unparsed } from '../units/parsed.js';
import type { Bolt, Fastener, FastenerSeries, WoodScrew } from './fastener.js';
import { inchBolts } from './inch-bolts.js';
import { metricBolts } from './metric-bolts.js';
import { gaugeScrews, metricWoodScrews } from './wood-screws.js';

/** Every fastener in the tables, by kind and series, thinnest first in each. */
export const bolts: Readonly<Record<FastenerSeries, readonly Bolt[]>> = {
  metric: metricBolts,
  inch: inchBolts,
};
export const woodScrews: Readonly<Record<FastenerSeries, readonly WoodScrew[]>> = {
  metric: metricWoodScrews,
  inch: gaugeScrews,
};
export const fasteners: readonly Fastener[] = [
  ...metricBolts,
  ...inchBolts,
  ...gaugeScrews,
  ...metricWoodScrews,
];
export const fastenerNames: readonly string[] = fasteners.map((f) => f.name);

/** One spelling of the many: `no. 8` → `#8`, `1/4"` and `1/4-20 UNC` → `1/4in`, `M 5 x 0.8` → `m5`. */
function plainName(text: string): string {
  return plainText(text)
    .toLowerCase()
    .replace(/\s+/g, '')
    .replace(/^(no\.?|nr\.?|gauge|size|№)(?=\d)/, '#')
    .replace(/("|inch|inches)$/, 'in')
    .replace(/unc$/, '')
    .replace(/^m(\d+(?:\.\d+)?)[x×*]\d+(?:\.\d+)?$/, 'm$1')
    .replace(/^(\d+\/\d+)-\d+$/, '$1in')
    .replace(/^(\d+\/\d+)$/, '$1in')
    .replace(/^(\d+)g(auge|a)?$/, '#$1');
}

const byName = new Map(fasteners.map((f) => [f.name.toLowerCase(), f]));

/**
 * Reads a fastener as the trade writes it: `M5`, `1/4in`, `1/4-20`, `#8-32` (bolts and machine screws), `#8`,
 * `No. 8` (wood screws by gauge), `4mm` (metric wood screws). Case and spaces do not count.
 */
export function parseFastener(text: string): Parsed<Fastener> {
  if (text.trim() === '') return unparsed('is empty', 'write it like M5, 1/4in, #8-32 or #8');
  const wanted = plainName(text.slice(0, 40));
  const found = byName.get(wanted);
  if (found !== undefined) return parsed(found);
  if (/^\d+(\.\d+)?$/.test(wanted)) {
    return unparsed(
      'does not say which kind of screw it is',
      `write M${wanted} for a bolt, #${wanted} for a wood screw by gauge or ${wanted}mm for a metric one`,
    );
  }
  return unparsed('is no fastener of the tables', suggestFastener(wanted));
}

/** The nearest by size among its kin (`M7` → `M6 or M8`), else by spelling. */
function suggestFastener(wanted: string): string {
  const metric = /^m(\d+(?:\.\d+)?)$/.exec(wanted);
  if (metric !== null) return nearestOf(metricBolts, Number(metric[1]));
  const gauge = /^#(\d+)$/.exec(wanted);
  if (gauge !== null) return nearestOf(gaugeScrews, (0.06 + 0.013 * Number(gauge[1])) * 25.4);
  const inches = /^(\d+)\/(\d+)in$/.exec(wanted);
  if (inches !== null && Number(inches[2]) > 0) {
    return nearestOf(inchBolts, (25.4 * Number(inches[1])) / Number(inches[2]));
  }
  const shank = /^(\d+(?:\.\d+)?)mm$/.exec(wanted);
  if (shank !== null) return nearestOf(metricWoodScrews, Number(shank[1]));
  return suggestRemedy(wanted, fastenerNames);
}

function nearestOf(row: readonly Fastener[], diameter: number): string {
  const below = row.filter((f) => f.diameter <= diameter).at(-1)?.name;
  const above = row.find((f) => f.diameter >= diameter)?.name;
  const near = [...new Set([below, above].filter((n) => n !== undefined))];
  return `the nearest ${near.length === 1 ? 'is' : 'are'} ${near.join(' and ')}`;
}

/** The fastener of this name, which the tables have. RangeError for another: for names that are known good. */
export function fastener(name: string): Fastener {
  const found = parseFastener(name);
  if (!found.ok) throw new RangeError(`${name} ${found.problem}; ${found.remedy}`);
  return found.value;
}

/** The thinnest fastener of a kind at least this thick, or the thickest there is. @param diameter mm */
export function fastenerAtLeast(kind: 'bolt', series: FastenerSeries, diameter: number): Bolt;
export function fastenerAtLeast(kind: 'wood-screw', series: FastenerSeries, diameter: number): WoodScrew;
export function fastenerAtLeast(kind: Fastener['kind'], series: FastenerSeries, diameter: number): Fastener;
export function fastenerAtLeast(kind: Fastener['kind'], series: FastenerSeries, diameter: number): Fastener {
  const row: readonly Fastener[] = kind === 'bolt' ? bolts[series] : woodScrews[series];
  return row.find((f) => f.diameter >= diameter - 1e-9) ?? row[row.length - 1]!;
}
