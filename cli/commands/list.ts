import { type Alloy, alloyNames, alloys, findAlloy } from '../../core/foundry/alloys/index.js';
import { flasks } from '../../core/foundry/flasks.js';
import { investments } from '../../core/foundry/investment.js';
import { plastics } from '../../core/foundry/material.js';
import { showText } from '../../core/part/input-problem.js';
import { suggest } from '../../core/part/suggest.js';
import {
  formatLength,
  formatTemperature,
  type LengthUnit,
  type TemperatureUnit,
} from '../../core/units/index.js';
import { allParts } from '../../generators/index.js';
import { formatAlloyCard } from '../alloy-card.js';
import { listOptions } from '../common-options.js';
import { usageFailure } from '../failure.js';
import { formatHelpPage, optionEntries } from '../help-page.js';
import type { ExitCode, Io } from '../io.js';
import { parseOptions, wantsHelp } from '../parse-options.js';

interface View {
  readonly unit: LengthUnit;
  readonly degrees: TemperatureUnit;
}

interface Listing {
  readonly data: readonly object[];
  readonly heads: readonly string[];
  readonly rows: (view: View) => readonly (readonly string[])[];
}

const listings: Readonly<Record<string, Listing>> = {
  parts: {
    data: allParts.map((p) => ({ name: p.name, summary: p.summary })),
    heads: ['name', 'what it is'],
    rows: () => allParts.map((p) => [p.name, p.summary]),
  },
  alloys: {
    data: alloys,
    heads: ['name', 'alloy', 'g/cm³', 'melts', 'contracts'],
    rows: ({ degrees }) =>
      alloys.map((a) => [
        a.name,
        a.title,
        (a.density * 1000).toFixed(2),
        `${formatTemperature(a.solidus, degrees).replace(/ .*/, '')}–${formatTemperature(a.liquidus, degrees)}`,
        `${(a.contraction.usual * 100).toFixed(2)} %`,
      ]),
  },
  investments: {
    data: investments,
    heads: ['name', 'what it is', 'water : powder', 'top of burnout'],
    rows: ({ degrees }) =>
      investments.map((i) => [
        i.name,
        i.title,
        i.coats ? 'laid in coats' : `${Math.round(i.waterRatio * 100)} : 100`,
        formatTemperature(i.burnoutPeak, degrees),
      ]),
  },
  flasks: {
    data: flasks,
    heads: ['name', 'what it is', 'inside diameter', 'inside height'],
    rows: ({ unit }) =>
      flasks.map((f) => [
        f.name,
        f.title,
        formatLength(f.insideDiameter, unit),
        formatLength(f.insideHeight, unit),
      ]),
  },
  plastics: {
    data: plastics,
    heads: ['name', 'what it is', 'g/cm³', 'softens'],
    rows: ({ degrees }) =>
      plastics.map((p) => [
        p.name,
        p.title,
        (p.density * 1000).toFixed(2),
        formatTemperature(p.softens, degrees),
      ]),
  },
};

/** `list [what]` */
export async function run(argv: readonly string[], io: Io): Promise<ExitCode> {
  const names = Object.keys(listings);
  if (wantsHelp(argv)) {
    const usage = `patternwright list [${names.join('|')}] [ALLOY]`;
    io.out(formatHelpPage(usage, 'Lists what jobs can name; parts if not said', optionEntries(listOptions)));
    return 0;
  }
  const { positional, values } = await parseOptions('list', argv, listOptions);
  const [word = 'parts', ...more] = positional;
  const listing = Object.hasOwn(listings, word) ? listings[word] : undefined;
  const view: View = {
    unit: values.units === 'in' ? 'in' : 'mm',
    degrees: values.degrees === 'F' ? 'F' : 'C',
  };
  if (word === 'alloys' && more.length === 1) {
    const alloy = alloyCalled(more[0] as string);
    io.out(values.json === true ? `${JSON.stringify(alloy, null, 2)}\n` : formatAlloyCard(alloy, view));
    return 0;
  }
  if (!listing || more[0] !== undefined) {
    const wrong = showText(listing ? (more.at(-1) as string) : word);
    const near = listing ? undefined : suggest(word, names);
    const known = `one of ${names.join(', ')}`;
    throw usageFailure(
      listing ? 'too-many' : 'unknown-list',
      listing ? `"${wrong}" is one word too many` : `there is nothing called "${wrong}" to list`,
      near === undefined ? known : `did you mean ${near}? (${known})`,
    );
  }
  io.out(
    values.json === true
      ? `${JSON.stringify(listing.data, null, 2)}\n`
      : table(listing.heads, listing.rows(view)),
  );
  return 0;
}

function alloyCalled(name: string): Alloy {
  const alloy = findAlloy(name);
  if (alloy !== undefined) return alloy;
  const near = suggest(name, alloyNames);
  throw usageFailure(
    'unknown-alloy',
    `there is no alloy called "${showText(name)}"`,
    near === undefined ? 'see `patternwright list alloys`' : `did you mean ${near}?`,
  );
}

function table(heads: readonly string[], rows: readonly (readonly string[])[]): string {
  const widths = heads.map((head, i) => Math.max(head.length, ...rows.map((row) => (row[i] ?? '').length)));
  return [heads, ...rows]
    .map((row) =>
      row
        .map((cell, i) => cell.padEnd(widths[i] as number))
        .join('  ')
        .trimEnd(),
    )
    .join('\n')
    .concat('\n');
}
