import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { describe, expect, test } from 'vitest';
import type { Summary } from '../../../core/job/summary.js';
import { stop } from '../../../core/part/finding.js';
import type { View } from '../../../core/report/format.js';
import { tellingSizes } from '../../../core/report/traveller/check.js';
import { formatTraveller } from '../../../core/report/traveller.js';
import { hostileSummary, hostileTitle, longName, pictures, planSvgs, summary } from './fixture.js';

const views: readonly View[] = [
  { lengthUnit: 'mm', degrees: 'C' },
  { lengthUnit: 'in', degrees: 'F' },
  { lengthUnit: 'mm', degrees: 'F' },
];
const make = (s: Summary, v: View = views[0]!): string => formatTraveller(s, pictures, planSvgs, v);

const decode = (text: string): string =>
  text
    .replace(/&lt;/g, '<')
    .replace(/&gt;/g, '>')
    .replace(/&quot;/g, '"')
    .replace(/&#39;/g, "'")
    .replace(/&amp;/g, '&');

/** What a reader sees: tags gone, entities decoded, spaces plain and single. */
const visible = (page: string): string =>
  decode(page.replace(/<style>[\s\S]*?<\/style>/g, ' ').replace(/<[^>]*>/g, ' ')).replace(/\s+/g, ' ');

const section = (page: string, id: string): string => {
  const found = new RegExp(`<section class="\\w+" id="${id}">[\\s\\S]*?</section>`).exec(page);
  expect(found, `section ${id}`).not.toBeNull();
  return found![0];
};

const order = [
  'overview',
  'print',
  'check',
  'gate',
  'mix',
  'burnout',
  'melt',
  'pour',
  'quench',
  'finish',
  'measure',
  'record',
];

describe.each(views)('traveller in $lengthUnit and °$degrees', (view) => {
  const page = make(summary, view);
  const text = visible(page);
  const metric = view.lengthUnit === 'mm';
  // Worked here apart from core: 25.4 mm an inch, 28.349523125 g an ounce, °F = 1.8 °C + 32.
  const length = (x: number): string => (metric ? x.toFixed(2) : (x / 25.4).toFixed(3));
  const degrees = (c: number): string =>
    `${(view.degrees === 'C' ? c : c * 1.8 + 32).toFixed(0)} °${view.degrees}`;
  const mass = (g: number): string => {
    if (metric) return `${g.toFixed(g < 10 ? 1 : 0)} g`;
    const oz = g / 28.349523125;
    if (oz < 9.95) return `${oz.toFixed(2)} oz`;
    if (oz < 15.95) return `${oz.toFixed(1)} oz`;
    const pounds = Math.floor(Math.round(oz * 10) / 160);
    return `${pounds} lb ${(oz - 16 * pounds).toFixed(1)} oz`;
  };

  test('well-formed, every tag closed', () => {
    expect(XMLValidator.validate(page)).toBe(true);
  });

  test('no hole in it where a number should be', () => {
    expect(text).not.toMatch(/NaN|undefined|null|Infinity|\[object/);
  });

  test('sections in the order of the work, steps numbered', () => {
    const ids = [...page.matchAll(/<section class="\w+" id="(\w+)">/g)].map((m) => m[1]);
    expect(ids).toEqual(order);
    const numbers = [...page.matchAll(/<div class="number">(\d+)<\/div>/g)].map((m) => Number(m[1]));
    expect(numbers).toEqual(order.slice(1).map((_, i) => i + 1));
  });

  test('sizes in all three states: every one on the inspection sheets, the telling ones where patterns are checked', () => {
    for (const id of ['check', 'measure']) {
      const cells = [...section(page, id).matchAll(/<td class="n[^"]*">([^<]*)<\/td>/g)].map((m) => m[1]);
      for (const p of summary.parts)
        for (const d of (id === 'check' ? tellingSizes(p) : p.dimensions).filter((x) => x.unit === 'mm')) {
          expect(cells).toContain(length(d.part));
          expect(cells).toContain(length(d.casting));
          const correction = d.axis === 'z' ? p.printerCorrection.z : p.printerCorrection.xy;
          expect(cells).toContain(length(d.pattern / correction));
          if (id === 'check') expect(cells).toContain(length(d.pattern));
        }
    }
  });

  test('masses of every part, charges, powder, water', () => {
    for (const p of summary.parts)
      for (const g of [p.mass.part, p.mass.casting, p.mass.charge]) expect(text).toContain(mass(g));
    for (const c of summary.charge) {
      const melt = visible(section(page, 'melt'));
      expect(melt).toContain(mass(c.charge));
      expect(melt).toContain(mass(c.inMoulds));
      expect(melt).toContain(`${(c.meltLoss * 100).toFixed(1)} %`);
      expect(melt).toContain(`${(c.energy / 3.6e6).toFixed(2)} kWh`);
    }
    const mix = visible(section(page, 'mix'));
    for (const p of summary.parts) {
      expect(mix).toContain(mass(p.flask!.weigh.powder));
      expect(mix).toContain(mass(p.flask!.weigh.water));
    }
    expect(mix).toContain(mass(summary.investment!.weigh.powder));
    expect(mix).toContain(mass(summary.investment!.weigh.water));
    expect(mix).toContain('Working time 9 min');
    expect(mix).toContain('40 parts of water to 100 of powder');
  });

  test('the burnout programme, times and temperatures', () => {
    const burnout = visible(section(page, 'burnout'));
    for (const s of summary.burnout.segments) expect(burnout).toContain(degrees(s.to));
    for (const rate of view.degrees === 'C' ? ['60', '100', '120', '−100'] : ['108', '180', '216', '−180'])
      expect(section(page, 'burnout')).toContain(`<td class="n">${rate}</td>`);
    for (const time of [
      '2:10',
      '3:00',
      '2:12',
      '2:00',
      '4:00',
      '1:54',
      '1:30',
      '5:10',
      '9:22',
      '16:22',
      '19:46',
    ])
      expect(burnout).toContain(time);
    expect(section(page, 'burnout')).toContain('<svg class="chart"');
  });

  test('pour temperatures, order and times', () => {
    const pour = visible(section(page, 'pour'));
    for (const p of summary.pour)
      for (const c of [p.metalTemperature, p.flaskTemperature, p.liquidus])
        expect(pour).toContain(degrees(c));
    const places = summary.pour
      .flatMap((p) => p.order)
      .map((n) => pour.indexOf(n, pour.indexOf('pour in this order')));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    for (const p of summary.parts) expect(pour).toContain(`${p.gating.fill.pourTime.toFixed(1)} s`);
  });

  test('gate, vents, saw and stock', () => {
    const gate = visible(section(page, 'gate'));
    const quench = visible(section(page, 'quench'));
    const finish = visible(section(page, 'finish'));
    for (const p of summary.parts) {
      expect(gate).toContain(length(p.gating.sprue.bottomDiameter));
      expect(gate).toContain(length(p.gating.sprue.topDiameter));
      expect(gate).toContain(length(p.gating.gates[0]!.outerDiameter));
      expect(quench).toContain(length(p.gating.gates[0]!.outerDiameter / p.growth.value));
      expect(quench).toContain(mass(p.mass.gating));
      for (const s of p.surfaces) {
        expect(finish).toContain(s.name);
        const stock = p.stock.stock[s.surfaceClass];
        expect(finish).toContain(stock === 0 ? 'as cast' : `${length(stock)} ${view.lengthUnit}`);
      }
    }
  });

  test('the same bytes every time', () => {
    expect(make(summary, view)).toBe(page);
  });

  test('growth: every way that there is, the one taken, and the causes with their sources', () => {
    const [first] = summary.parts;
    const set = { ...first!.growth, value: 1.0321, way: 'set' as const };
    const parts = [{ ...first!, growth: set }, ...summary.parts.slice(1)];
    const changed = visible(section(make({ ...summary, parts }, view), 'overview'));
    expect(changed).toMatch(/set in the job × 1\.0321 – taken/);
    expect(visible(section(page, 'overview'))).not.toContain('set in the job ×');
    const sources = changed.slice(changed.indexOf('Where these numbers came from'));
    for (const { name, basis } of first!.growth.causes) {
      expect(sources).toContain(name);
      expect(sources).toContain(basis.rule);
    }
  });

  test('the bench copy holds what is weighed, set and poured, and lies on sheets of its own', () => {
    const bench = visible(page.slice(page.indexOf('id="bench"')));
    for (const p of summary.parts) {
      expect(bench).toContain(mass(p.flask!.weigh.powder));
      expect(bench).toContain(mass(p.flask!.weigh.water));
    }
    for (const s of summary.burnout.segments) expect(bench).toContain(degrees(s.to).split(' ')[0]!);
    for (const p of summary.pour) {
      expect(bench).toContain(`metal ${degrees(p.metalTemperature)}`);
      expect(bench).toContain(`flask ${degrees(p.flaskTemperature)}`);
    }
    // 5 mm letters from a metre: 0.716 of the type's size in capitals, 0.3528 mm a point.
    const size = Number(/\.bench\{[^}]*font-size:(\d+)pt/.exec(page)![1]);
    expect(size * 0.3528 * 0.716).toBeGreaterThan(5);
  });
});

describe('cautions', () => {
  const page = make(summary);

  test.each([
    ['print', ['Fumes and hot parts']],
    ['mix', ['Silica dust']],
    ['burnout', ['Burnout fume']],
    ['melt', ['Zinc fume', 'Lead']],
    ['pour', ['Molten metal and steam']],
    ['quench', ['Scalding steam', 'Metal and silica dust']],
    ['finish', ['Metal and silica dust']],
    ['measure', ['Loaded parts']],
  ])('at the head of %s, before anything is done there', (id, hazards) => {
    const part = section(page, id);
    const box = part.indexOf('<div class="caution"');
    expect(box).toBeGreaterThan(0);
    for (const work of ['class="checklist"', '<table']) {
      const at = part.indexOf(work);
      if (at >= 0) expect(box).toBeLessThan(at);
    }
    const words = visible(part.slice(box));
    for (const h of hazards) expect(words).toContain(h);
    expect(words).toMatch(/come(s)? before this sheet/);
  });

  test('the sheet says what it is worth', () => {
    expect(visible(page)).toContain('Computed advice, not a guarantee');
    expect(visible(page)).toMatch(/[Mm]akers’ datasheets, (safety sheets, )?local codes/);
  });
});

describe('findings', () => {
  test('all near the top, the stop first, with remedies; gating’s again at its step', () => {
    const page = make(summary);
    const top = visible(page.slice(0, page.indexOf('What this job makes')));
    const overview = visible(section(page, 'overview'));
    expect(top).toContain('Do not make this job as it stands');
    expect(top.indexOf('STOP')).toBeLessThan(top.indexOf('WARN'));
    for (const remedy of [
      'Set webThickness to 1.5 mm or more.',
      'Widen the hub to at least 24 mm',
      'Let the slicer support',
    ])
      expect(top).toContain(remedy);
    expect(top).not.toContain('More pulls would fit on it.');
    expect(top).toContain('2 notes below');
    expect(overview).toContain('More pulls would fit on it.');
    expect(visible(section(page, 'gate'))).toContain('Widen the hub to at least 24 mm');
    expect(visible(section(page, 'burnout'))).toContain(
      'Check the controller against a second thermocouple.',
    );
  });

  test('none: says so', () => {
    const parts = summary.parts.slice(4, 5);
    const quiet: Summary = {
      ...summary,
      parts,
      findings: [],
      burnout: { ...summary.burnout, findings: [] },
      pour: [],
      charge: [],
      cost: null,
      cautions: [],
    };
    const page = make(quiet);
    expect(visible(page)).toContain('None: every check passed.');
    expect(visible(page)).not.toContain('What it costs');
    expect(page).not.toContain('class="caution"');
    expect(XMLValidator.validate(page)).toBe(true);
  });

  test('a limit met exactly is met, one missed is marked', () => {
    const [first] = summary.parts;
    const { entry, fill } = first!.gating;
    const marked = (velocity: number, modulusRatio: number): string => {
      const gating = {
        ...first!.gating,
        entry: { ...entry, velocity },
        fill: { ...fill, modulusRatio, modulusRatioLimit: 1.2 },
      };
      return visible(section(make({ ...summary, parts: [{ ...first!, gating }] }), 'gate'));
    };
    expect(marked(500 * (1 + 1e-9), 1.2 * (1 - 1e-9))).not.toMatch(/, (over|short)/);
    expect(marked(515, 1.2)).toMatch(/at most 500 mm\/s, over/);
    expect(marked(500, 1.1)).toMatch(/at least 1\.20, short/);
  });

  test('a refused gating plan shows no zeros', () => {
    const [first, ...rest] = summary.parts;
    const refused: Summary = {
      ...summary,
      parts: [
        {
          ...first!,
          gating: { ...first!.gating, findings: [stop('no-gate-place', 'No place.', 'Give one.')] },
        },
        ...rest,
      ],
    };
    const gate = visible(section(make(refused), 'gate'));
    expect(gate).toContain('no gating could be planned');
    expect(gate).not.toContain(first!.gating.sprue.bottomDiameter.toFixed(2));
  });
});

describe('hostile text', () => {
  const page = make(hostileSummary);

  test('stays text', () => {
    expect(XMLValidator.validate(page)).toBe(true);
    expect(page).not.toMatch(/<script|<img src=x/i);
    expect(page.replaceAll('\n', '')).not.toMatch(/\p{Cc}|\p{Cs}/u);
    expect(page.match(/<\/style>/g)?.length).toBe(page.match(/<style>/g)?.length);
    expect(visible(page)).toContain(hostileTitle);
  });

  test('no element or attribute that loads or runs anything; pictures are inside', () => {
    const reader = new XMLParser({ ignoreAttributes: false, preserveOrder: true, attributeNamePrefix: '' });
    const seen = new Map<string, Set<string>>();
    const pictureSources: string[] = [];
    const walk = (nodes: readonly Record<string, unknown>[]): void => {
      for (const node of nodes)
        for (const [tag, children] of Object.entries(node)) {
          if (tag === ':@' || tag === '#text') continue;
          const attributes = (node[':@'] ?? {}) as Record<string, string>;
          const names = seen.get(tag) ?? new Set<string>();
          for (const [key, value] of Object.entries(attributes)) {
            names.add(key);
            if (key === 'src') pictureSources.push(value);
          }
          seen.set(tag, names);
          walk(children as Record<string, unknown>[]);
        }
    };
    walk(reader.parse(page) as Record<string, unknown>[]);
    for (const tag of ['script', 'link', 'iframe', 'object', 'embed', 'a', 'base', 'form', 'use', 'image'])
      expect(seen.has(tag), tag).toBe(false);
    for (const names of seen.values())
      for (const n of names) expect(n).not.toMatch(/^on|href|srcset|action|data$/i);
    expect(pictureSources).toHaveLength(Object.keys(pictures).length + Object.keys(planSvgs).length);
    for (const src of pictureSources)
      expect(src).toMatch(/^data:image\/(png|svg\+xml);base64,[A-Za-z0-9+/]+=*$/);
    expect(page.replace(/data:[^"]*/g, '')).not.toMatch(/https?:|url\(|@import|\/\/[a-z]/i);
  });

  test('pictures are the bytes given', () => {
    const first = /src="data:image\/png;base64,([^"]+)"/.exec(page)![1]!;
    expect(new Uint8Array(Buffer.from(first, 'base64'))).toEqual(new Uint8Array(Object.values(pictures)[0]!));
  });

  test('a part named like something every object has gets no picture from it', () => {
    const odd: Summary = { ...summary, parts: [{ ...summary.parts[0]!, name: 'constructor' }] };
    expect(make(odd)).toContain('no picture');
  });
});

describe('writing on it', () => {
  const page = make(summary);

  test('a blank box for the pattern, the casting and the finished part, a dimension and a piece', () => {
    const measure = section(page, 'measure');
    const heads = [...measure.matchAll(/pieces? (\d+)(?: and (\d+))? of (\d+)</g)].map((m) => m.slice(1, 4));
    expect(heads.map((h) => h.map((x) => (x === undefined ? null : Number(x))))).toEqual([
      [1, null, 1],
      [1, 2, 2],
      [1, null, 1],
      [1, null, 1],
      [1, 2, 2],
      [1, 2, 7],
      [3, 4, 7],
      [5, 6, 7],
    ]);
    // Each piece: three boxes a size, two for the mass, one for the growth.
    const boxes = summary.parts.reduce(
      (n, p) => n + Math.min(p.quantity, 6) * (3 * p.dimensions.length + 3),
      0,
    );
    expect(measure.match(/<td class="blank"/g)).toHaveLength(boxes);
    expect(visible(measure)).toContain('Copy this sheet for piece 7.');
  });

  test('rows to write in are at least 8 mm high', () => {
    const height = /\.list \.tall\{height:([\d.]+)mm\}/.exec(page);
    expect(Number(height?.[1])).toBeGreaterThanOrEqual(8);
    for (const row of page.matchAll(/<tr([^>]*)>(?:(?!<\/tr>)[\s\S])*<td class="blank"/g))
      expect(row[1]).toContain('tall');
  });

  test('long names are whole', () => {
    expect(visible(page)).toContain(longName);
  });

  test('the log has a line for every flask', () => {
    const rows = [...section(page, 'record').matchAll(/<th scope="row" class="part">/g)];
    expect(rows).toHaveLength(summary.parts.reduce((n, p) => n + p.moulds, 0));
  });

  test('every step can be signed off', () => {
    expect(page.match(/<div class="signoff">/g)).toHaveLength(order.length - 1);
  });
});

test.each(views)('paper: prints on either size, heads repeat ($lengthUnit)', (view) => {
  const style = /<style>([\s\S]*?)<\/style>/.exec(make(summary, view))![1]!;
  expect(style).toMatch(/@page\{margin:/);
  expect(style).not.toMatch(/@page[^}]*size:/);
  expect(style).toContain('thead{display:table-header-group');
});

test('the pattern’s telling sizes: five at most, none cored away or only set, one of them upward', () => {
  const [first] = summary.parts;
  const [a] = first!.dimensions;
  const row = (name: string, more: object) => ({ ...a!, name, axis: 'xy' as const, ...more });
  const dimensions = [
    row('hole', { pattern: 0 }),
    row('set', { role: 'setting' as const }),
    ...['a', 'b', 'c', 'd', 'e', 'f'].map((n) => row(n, {})),
    row('deep', { detail: true, axis: 'z' as const }),
    row('height', { axis: 'z' as const }),
  ];
  const told = tellingSizes({ ...first!, dimensions });
  expect(told.map((d) => d.name)).toEqual(['a', 'b', 'c', 'd', 'height']);
});

test('a size that is only calculated is told in a line and asks for no box', () => {
  const [first] = summary.parts;
  const [row] = first!.dimensions;
  const lead = {
    ...row!,
    name: 'helix lead',
    symbol: 'p_z',
    method: 'calculated',
    role: 'reference' as const,
  };
  const page = make({ ...summary, parts: [{ ...first!, quantity: 1, dimensions: [row!, lead] }] });
  const measure = section(page, 'measure');
  expect(visible(measure)).toMatch(
    /Calculated, not measured: helix lead p z [\d.]+ mm \(pattern [\d.]+ mm\)/,
  );
  expect(measure.slice(measure.indexOf('<table'))).not.toContain('elix lead');
  expect(measure.match(/<td class="blank"/g)).toHaveLength(3 + 3);
});

describe('drawings at the inspection sheet', () => {
  const svg =
    '<svg xmlns="http://www.w3.org/2000/svg" width="184mm" height="90mm"><text>Ø84 &lt; é</text></svg>';
  const names = summary.parts.map((p) => p.name);

  test('each part has its own, before its boxes, at its own size', () => {
    const page = formatTraveller(
      summary,
      pictures,
      planSvgs,
      views[0]!,
      Object.fromEntries(names.map((n) => [n, svg])),
    );
    const measure = section(page, 'measure');
    const drawings = [
      ...measure.matchAll(
        /<div class="drawing">[\s\S]*?<img src="data:image\/svg\+xml;base64,([^"]*)" alt="([^"]*)"\/>/g,
      ),
    ];
    expect(drawings.map((m) => m[2])).toEqual(names.map((n) => `Dimensioned drawing of ${n}`));
    for (const [, bytes] of drawings) expect(Buffer.from(bytes!, 'base64').toString('utf8')).toBe(svg);
    for (const name of names) {
      const drawing = measure.indexOf(`Dimensioned drawing of ${name}"`);
      const boxes = measure.indexOf('<table', drawing);
      expect(drawing).toBeGreaterThan(0);
      expect(visible(measure.slice(boxes)).trim().startsWith(name)).toBe(true);
    }
    // Nothing scales the picture: a rule laid on the print reads true.
    expect(page).not.toMatch(/\.drawing img\{[^}]*(?:width|height)/);
  });

  test('a part without one has its boxes alone', () => {
    expect(make(summary)).not.toContain('class="drawing"');
  });
});

test('trees: a log line, a sawing and the metal back for each of them, not for each casting', () => {
  const [first, ...rest] = summary.parts;
  const { gating } = first!;
  const tree = {
    ...first!,
    quantity: 5,
    patternsPerTree: 3,
    moulds: 2,
    gating: {
      ...gating,
      gates: [1, 2, 3].map(() => gating.gates[0]!),
      vents: [1, 2, 3].map(() => gating.vents[0]!),
    },
  };
  const page = make({ ...summary, parts: [tree, ...rest] });
  const rows = [...section(page, 'record').matchAll(/<th scope="row" class="part">/g)];
  expect(rows).toHaveLength(2 + rest.reduce((n, p) => n + p.moulds, 0));
  expect(visible(section(page, 'record'))).toContain(`${tree.name} 2/2 tree of 3`);
  const saw = visible(section(page, 'quench'));
  expect(saw).toContain(`3 × ${(gating.gates[0]!.outerDiameter / tree.growth.value).toFixed(2)}`);
  expect(saw).toContain(`: 3 × ${gating.vents[0]!.name} `);
  expect(saw).toContain('metal back, a flask');
  expect(visible(section(page, 'overview'))).toContain('a tree with gating');
});
