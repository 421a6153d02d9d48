import { describe, expect, it } from 'vitest';
import type { DimensionRow, PartSummary } from '../../../../core/job/summary.js';
import { createFormat, type View } from '../../../../core/report/format.js';
import { tellingSizes } from '../../../../core/report/traveller/check.js';
import { formatTraveller } from '../../../../core/report/traveller.js';
import { textOf, type WrittenJob } from '../../../helpers/written-job.js';

/** What a reader sees: tags and entities gone, spaces plain and single. */
const visible = (html: string): string =>
  html
    .replace(/<style>[\s\S]*?<\/style>/g, ' ')
    .replace(/<[^>]*>/g, ' ')
    .replace(/&#39;/g, "'")
    .replace(/&quot;/g, '"')
    .replace(/&lt;/g, '<')
    .replace(/&gt;/g, '>')
    .replace(/&amp;/g, '&')
    .replace(/\s+/g, ' ');

function sections(html: string): ReadonlyMap<string, string> {
  const found = html.matchAll(/<section class="\w+" id="(\w+)">([\s\S]*?)<\/section>/g);
  return new Map([...found].map(([, id, body]) => [id as string, body as string]));
}

/** `traveller.html` as written, and in the other units: the numbers of the summary stand where the bench looks. */
export function travellerSuite(job: () => WrittenJob): void {
  const views: readonly View[] = [
    { lengthUnit: 'mm', degrees: 'C' },
    { lengthUnit: 'in', degrees: 'F' },
  ];
  describe.each(views)('traveller.html, $lengthUnit and °$degrees', (view) => {
    const f = createFormat(view);
    const page = (): string =>
      view.lengthUnit === 'mm'
        ? textOf(job().files, 'traveller.html')
        : formatTraveller(job().summary, {}, {}, view);
    const says = (id: string, ...texts: readonly string[]): void => {
      const body = visible(sections(page()).get(id) ?? '');
      expect(
        texts.filter((text) => !body.includes(text)),
        `not under ${id}`,
      ).toEqual([]);
    };
    const value = (row: DimensionRow, x: number): string =>
      row.unit === 'rad' ? f.angle(x) : f.lengthNumber(x);

    it('says nothing that is not a number or a word', () => {
      expect(visible(page())).not.toMatch(/\b(NaN|undefined|Infinity|null)\b|\[object/);
    });

    it('the telling sizes of every part, in its three states, in one row', () => {
      const rows =
        (sections(page()).get('check') ?? '').match(/<tbody class="keep">[\s\S]*?<\/tbody>/g) ?? [];
      const { parts } = job().summary;
      expect(rows).toHaveLength(parts.length);
      parts.forEach((part: PartSummary, i) => {
        const body = rows[i] as string;
        expect(visible(body)).toContain(part.name);
        const told = tellingSizes(part);
        const lines = body.match(/<tr>[\s\S]*?<\/tr>/g) ?? [];
        expect(lines).toHaveLength(told.length);
        told.forEach((row, k) => {
          const cells = (lines[k] as string).match(/<td[^>]*>[\s\S]*?<\/td>/g) ?? [];
          expect(visible(lines[k] as string).toLowerCase()).toContain(row.name.toLowerCase());
          expect(cells.map((cell) => visible(cell).trim())).toEqual(
            [row.part, row.casting, row.pattern].map((x) => value(row, x)),
          );
        });
      });
    });

    it('every dimension with its casting tolerance on the inspection sheets', () => {
      const sheets = sections(page()).get('measure') ?? '';
      for (const part of job().summary.parts) {
        const from = sheets.indexOf(`<bdi>${part.name}</bdi>: piece`);
        expect(from).toBeGreaterThan(0);
        const sheet = sheets.slice(from, sheets.indexOf('</table>', from));
        const measured = part.dimensions.filter((row) => row.role !== 'reference');
        for (const row of part.dimensions)
          if (row.role === 'reference') expect(visible(sheets)).toContain(`${row.name} `);
        const rows = sheet.match(/<tr class="(tall|setting)">[\s\S]*?<\/tr>/g) ?? [];
        // The last two have the mass and the growth.
        expect(rows).toHaveLength(measured.length + 2);
        measured.forEach((row, k) => {
          const text = visible(rows[k] as string);
          expect(text.toLowerCase()).toContain(row.name.toLowerCase());
          for (const x of [row.part, row.casting, row.printed ?? row.pattern])
            expect(text).toContain(value(row, x));
          expect(text.includes('±')).toBe(row.castingTolerance !== undefined);
          if (row.castingTolerance !== undefined)
            expect(text).toContain(`± ${value(row, row.castingTolerance)}`);
          expect((rows[k] as string).includes('class="blank"')).toBe(row.role === undefined);
        });
      }
      expect(visible(sheets)).toContain('DCTG 7');
    });

    it('what to print, weigh, mix, melt and saw', () => {
      const { parts, plates, investment, charge } = job().summary;
      says('print', ...plates.flatMap((p) => [p.name, f.massDual(p.plastic), f.rough(p.height)]));
      for (const p of parts) {
        says('overview', `${f.mass(p.mass.part)} finished`, `${f.mass(p.mass.casting)} as cast`);
        says('overview', f.massDual(p.mass.charge), f.box(p.meshes.part.size), f.growth(p.growth.value));
        says(
          'gate',
          f.lengthNumber(p.gating.sprue.bottomDiameter),
          f.lengthNumber(p.gating.sprue.topDiameter),
        );
        says(
          'mix',
          p.flask!.name,
          f.weighed(p.flask!.weigh.powder, 1),
          f.weighed(p.flask!.weigh.water, 1),
          f.volume(p.flask!.slurryVolume),
        );
        says('quench', f.massDual(p.mass.gating));
        for (const { surfaceClass } of p.surfaces) {
          const stock = p.stock.stock[surfaceClass];
          if (stock > 0) says('finish', f.length(stock));
        }
        says('measure', f.mass(p.mass.casting), f.mass(p.mass.part));
      }
      says('overview', f.weighedDual(investment!.weigh.powder, 1), f.weighedDual(investment!.weigh.water, 1));
      says('mix', f.weighedDual(investment!.weigh.powder, 1), f.weighedDual(investment!.weigh.water, 1));
      for (const c of charge) {
        says('overview', f.massDual(c.charge));
        says('melt', c.title, f.mass(c.inMoulds), f.massDual(c.charge), f.energy(c.energy));
      }
    });

    it('every temperature of burnout and pour', () => {
      const { burnout, pour, parts } = job().summary;
      for (const s of burnout.segments) {
        says('burnout', f.temperatureNumber(s.from), f.temperatureNumber(s.to), f.temperatureDual(s.to));
      }
      says('burnout', f.temperatureDual(burnout.peak), f.temperatureDual(burnout.castingTemperature));
      says('burnout', f.clock(burnout.total), f.rough(burnout.flaskDiameter!));
      for (const p of pour) {
        says('overview', f.temperatureDual(p.metalTemperature));
        says('pour', f.temperatureDual(p.metalTemperature), f.temperatureDual(p.flaskTemperature));
        says('pour', f.temperatureDual(p.liquidus), f.temperatureRange(p.metalRange));
        says('pour', ...p.order, f.temperatureRange(p.flaskRange));
      }
      says('pour', ...parts.map((p) => f.massDual(p.mass.charge)));
    });
  });
}
