import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatCsv, parseCsv } from '../../../core/log/csv.js';
import { guardCell, unguardCell } from '../../../core/log/csv-cell.js';
import { pour } from '../../helpers/pour.js';
import { anyPour } from '../../helpers/pours.js';

const seed = 20260531;
let made = 0;
const read = (text: string) => parseCsv(text, (_, occurrence) => `made-${occurrence}-${made++}`);

describe('CSV', () => {
  test(`any records come back as they were; seed ${seed}`, () => {
    fc.assert(
      fc.property(fc.uniqueArray(anyPour, { selector: (r) => r.id, maxLength: 5 }), (records) => {
        expect(read(formatCsv(records))).toEqual({ ok: true, records });
      }),
      { seed, numRuns: 300 },
    );
  });

  test('quotes, line breaks and formulas: no cell starts as a formula, all come back', () => {
    const hostile = [
      '=1+1',
      '+1',
      '-1',
      '@a',
      "'=1",
      "'",
      "'t was",
      '"',
      '""',
      'a,b',
      'a;b',
      '=HYPERLINK("x")',
      '＝1',
    ];
    const records = hostile.map((text, i) =>
      pour({
        id: `test-000${i}`,
        flask: text,
        notes: `${text}\n\t=2,"3"\n`,
        sizes: [{ name: text, axis: 'z', casting: 5, removed: -0.5 }],
      }),
    );
    const table = formatCsv(records);
    expect(read(table)).toEqual({ ok: true, records });
    // A cell's text starts after a comma or line break, and its quote if it has one.
    const cells = table.match(/(?:^|,|\r\n)"?[=+@＝]/g);
    expect(cells).toBeNull();
  });

  test.each(['=x', "'=x", "''@", '+', "''", "'a", '', '-3', '\tx'])('guarding %j and back', (text) => {
    expect(unguardCell(guardCell(text))).toBe(text);
  });

  test('a table by hand: some columns, semicolons, sizes below their pour, the same pour twice', () => {
    const text = [
      'Alloy;date;investment;size;axis;pattern mm;casting mm;faults;burnout hold h',
      'tin-bronze;2026-05-30;gypsum-bonded;D;xy;38;37.4;misrun flash;2.5',
      ';;;H;z;20;19.7;;',
      '',
      'tin-bronze;2026-05-30;gypsum-bonded;;;;;;',
    ].join('\n');
    const reading = read(text);
    expect(reading).toMatchObject({
      ok: true,
      records: [
        {
          settings: { burnoutHold: 9000 },
          faults: ['misrun', 'flash'],
          sizes: [
            { name: 'D', axis: 'xy', pattern: 38, casting: 37.4 },
            { name: 'H', axis: 'z', pattern: 20, casting: 19.7 },
          ],
        },
        { sizes: [] },
      ],
    });
  });

  test('a table by hand that repeats the pour in each row: one pour until a size comes again', () => {
    const row = (...cells: string[]) => ['2026-05-30', 'tin-bronze', 'gypsum-bonded', ...cells].join(',');
    const rows = [
      row('D', 'xy', '38'),
      row('H', 'z', '20'),
      row('D', 'z', '5'),
      row('D', 'xy', '38.1'),
      row('', '', ''),
    ];
    const reading = read(['date,alloy,investment,size,axis,pattern mm', ...rows].join('\n'));
    expect(reading.ok && reading.records.map((r) => r.sizes.length)).toEqual([3, 1, 0]);
  });

  test.each([
    ['date,alloy,investment\n30.5.26,tin-bronze,gypsum-bonded', 2, 'date'],
    ['date,alloy\n2026-05-30,tin-bronze', 2, 'investment'],
    ['date,alloy,investment,size,axis,pattern mm\n2026-05-30,a,b,D,xy,"38,5"', 2, 'pattern mm'],
    ['date,alloy,investment,size,axis,pattern mm\n2026-05-30,a,b,D,y,38', 2, 'axis'],
    ['date,alloy,investment,notes,faults\n2026-05-30,a,b,"one\ntwo",\n2026-05-30,a,b,,rust', 4, 'faults'],
    ['date,alloy,investment,metal temperature °C\n2026-05-30,a,b,9000', 2, 'metal temperature °C'],
    ['date,alloy,colour\n', 1, 'colour'],
    ['date,date,alloy\n', 1, 'date'],
    ['date,alloy,investment\n2026-05-30,a,b,more', 2, ''],
    ['date,alloy,investment\n2026-05-30,a,"b', 2, ''],
    ['id,date,alloy,investment\ntest-0001,2026-05-30,a,b\ntest-0001,2026-05-31,a,b', 3, 'date'],
    ['', 1, ''],
  ])('%j is refused with line %i and column %j', (text, line, column) => {
    const reading = read(text);
    expect(reading.ok).toBe(false);
    if (!reading.ok) expect(reading.problems[0]).toMatchObject({ line, column });
  });
});
