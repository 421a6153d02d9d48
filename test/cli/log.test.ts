import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Summary } from '../../core/job/summary.js';
import type { PourRecord } from '../../core/log/record.js';
import { temporaryFolder } from './helpers/folders.js';
import { accidents, runHere } from './helpers/in-process.js';

const base = temporaryFolder();
let shops = 0;
/** A shop folder of its own. */
const shop = () => {
  const cwd = join(base, `shop-${shops++}`);
  mkdirSync(cwd);
  const log = (...argv: string[]) => runHere(['log', ...argv], { cwd });
  return { cwd, log, text: (file: string) => readFileSync(join(cwd, file), 'utf8') };
};

describe('help', () => {
  test.each([
    [['--help']],
    [['add', '--help']],
    [['show', '-h']],
    [['export', '--help']],
    [['import', '--help']],
  ])('log %j: 80 columns, no leftovers', async (argv) => {
    const { log } = shop();
    const { code, out, err } = await log(...argv);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    for (const line of out.split('\n')) expect([...line].length, line).toBeLessThanOrEqual(80);
    expect(out).toMatch(/^patternwright log /);
    expect(out).not.toMatch(/undefined|\[object|NaN|\n\n\n| \n/);
  });

  test('the example of log add runs', async () => {
    const { log } = shop();
    const { out } = await log('add', '--help');
    const command = out.slice(out.indexOf('patternwright log add --alloy tin')).replace(/\\\n/g, ' ');
    const words = [...command.matchAll(/"([^"]*)"|(\S+)/g)].map((m) => m[1] ?? (m[2] as string));
    expect(await log(...words.slice(2))).toMatchObject({ code: 0, err: '' });
  });
});

describe('log add', () => {
  test('writes what it was given, in mm, °C and s', async () => {
    const { log, text } = shop();
    const ran = await log(
      ...['add', '--alloy', 'tin-bronze', '--date', '2026-05-30', '--flask', 'soup can 2', '--degrees', 'F'],
      ...[
        '--metal-temperature',
        '2050',
        '--flask-temperature',
        '593C',
        '--burnout-hold',
        '4',
        '--units',
        'in',
      ],
      ...['--sizes', 'D nominal=1-1/2 pattern=1.490 casting=1.457 removed=0.2mm; height z casting=20mm'],
      ...[
        '--faults',
        'porosity, cold shut',
        '--printer-correction.xy',
        '1.003',
        '--notes',
        '=1+1 "x"',
        '--json',
      ],
    );
    expect(ran).toMatchObject({ code: 0, err: '' });
    const { record } = JSON.parse(ran.out) as { record: PourRecord };
    expect(record).toMatchObject({
      date: '2026-05-30',
      alloy: 'tin-bronze',
      investment: 'gypsum-bonded',
      settings: { flaskTemperature: 593, burnoutHold: 14_400, printerCorrection: { xy: 1.003, z: 1 } },
      faults: ['porosity', 'cold-shut'],
      notes: '=1+1 "x"',
    });
    expect(record.settings.metalTemperature).toBeCloseTo((2050 - 32) / 1.8, 9);
    expect(record.sizes).toEqual([
      { name: 'D', axis: 'xy', nominal: 38.1, pattern: 37.846, casting: 37.0078, removed: 0.2 },
      { name: 'height', axis: 'z', casting: 20 },
    ]);
    expect(text('pour-log.jsonl').split('\n')).toHaveLength(2);
  });

  test.each([
    [['--alloy', 'tin-bronz'], 'did you mean tin-bronze?'],
    [['--metal-temperature', '1100C'], '--alloy is missing'],
    [['--alloy', 'tin-bronze', '--faults', 'mis-run'], 'did you mean misrun?'],
    [['--alloy', 'tin-bronze', '--sizes', 'D pattern=38'.replace('38', '3,8')], '--sizes is'],
    [['--alloy', 'tin-bronze', '--sizes', 'D patern=38'], 'did you mean pattern?'],
    [['--alloy', 'tin-bronze', '--sizes', 'pattern=38'], 'names no dimension'],
    [['--alloy', 'tin-bronze', '--sizes', 'D'], 'has no size'],
    [['--alloy', 'tin-bronze', '--sizes', 'D pattern=38000'], 'over 5000 mm'],
    [['--alloy', 'tin-bronze', '--date', '30.5.26'], 'is no date like 2026-05-30'],
    [['--alloy', 'tin-bronze', '--metal-temperature', '9000C'], '--metal-temperature is over 2500 °C'],
    [['--alloy', 'tin-bronze', '--growth', '2.1%'], 'is a percentage'],
    [['--alloy', 'tin-bronze', '--printer-correction.xy', '2'], '--printer-correction.xy is over 1.25'],
    [['--alloy', 'tin-bronze', 'and more'], '"and more" is not understood'],
    [['--alloy', 'tin-bronze', '--aloy', 'x'], 'did you mean --alloy?'],
  ])('%j is refused, and nothing written', async (argv, said) => {
    const { log, cwd } = shop();
    const { code, out, err } = await log('add', ...argv);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(said);
    expect(err).not.toMatch(accidents);
    expect(err.trimEnd().split('\n')).toHaveLength(1);
    expect(existsSync(join(cwd, 'pour-log.jsonl'))).toBe(false);
  });

  test('an alloy of your own and an unusual ratio are logged with a note', async () => {
    const { log } = shop();
    const { code, err } = await log('add', '--alloy', 'bell-mix-3', '--sizes', 'D pattern=38 casting=3.7');
    expect(code).toBe(0);
    expect(err).toContain('one of your own');
    expect(err).toContain('unusual');
  });

  test('a log that cannot be written: exit 1 and why', async () => {
    const { log } = shop();
    const ran = await log('add', '--alloy', 'tin-bronze', '--file', 'no/such/log.jsonl');
    expect(ran.code).toBe(1);
    expect(ran.err).toMatch(/There is no folder .*no\/such\. .*\nThe record was not added\.\n$/);
    expect(ran.err).not.toMatch(accidents);
  });
});

describe('log show', () => {
  test('growth with its interval, the printer apart, faults by temperature, units of the reader', async () => {
    const { log, cwd } = shop();
    const rows = Array.from({ length: 12 }, (_, i) => {
      const casting = 50 + i;
      const pattern = casting * (1.016 + 0.0005 * Math.sin(i));
      const settings = `${1040 + 10 * i},${i < 5 ? 'misrun' : ''}`;
      return `2026-05-${10 + i},tin-bronze,gypsum-bonded,${settings},pla,D,xy,${pattern / 0.996},${pattern},${casting}`;
    });
    const head =
      'date,alloy,investment,metal temperature °C,faults,plastic,size,axis,nominal mm,pattern mm,casting mm';
    writeFileSync(join(cwd, 'pours.csv'), [head, ...rows].join('\n'));
    expect(await log('import', 'pours.csv')).toMatchObject({
      code: 0,
      out: 'Added 12 pours to pour-log.jsonl\n',
    });
    const { code, out, err } = await log('show', '--degrees', 'F');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    for (const line of out.split('\n')) expect([...line].length, line).toBeLessThanOrEqual(80);
    const flat = out.replace(/\s+/g, ' ');
    expect(flat).toContain('12 pours, 2026-05-10 to 2026-05-21');
    expect(flat).toMatch(/tin-bronze gypsum-bonded 1\.0160 1\.015\d to 1\.016\d 12 pours/);
    expect(flat).toMatch(/pla xy 0\.9960 .* 1\.0040 12 pours/);
    expect(flat).toMatch(/misrun 5 of 12 \(19 to 68 %\) metal temperature: related/);
    expect(flat).toContain('2012 °F');
    expect(flat).toContain('Student’s t');
    expect(flat).not.toMatch(/undefined|NaN|\[object/);
    const json = JSON.parse((await log('show', '--json')).out) as { growth: { all: { n: number } }[] };
    expect(json.growth[0]!.all.n).toBe(12);
  });

  test('a torn line is told with file and line; the rest is read; the next add starts afresh', async () => {
    const { log, cwd, text } = shop();
    await log('add', '--alloy', 'tin-bronze', '--sizes', 'D pattern=1.490in casting=1.457in');
    writeFileSync(join(cwd, 'pour-log.jsonl'), `${text('pour-log.jsonl')}{"v":1,"crc":"00aa`);
    const torn = /^pour-log\.jsonl:2: the line is torn: .*; .*enter that pour again\n$/;
    const next = await log('add', '--alloy', 'tin-bronze');
    expect(next.code).toBe(0);
    expect(next.err).toMatch(torn);
    expect(await log('add', '--alloy', 'tin-bronze')).toMatchObject({ code: 0, err: '' });
    const { code, out, err } = await log('show');
    expect(code).toBe(0);
    expect(err).toMatch(torn);
    expect(out).toContain('3 pours');
    expect(out).toMatch(/1\.0226 +one reading +1 reading/);
  });

  test('no log, no such alloy: exit 2 and what would be right', async () => {
    const { log } = shop();
    expect((await log('show')).err).toBe(
      'there is no file pour-log.jsonl; patternwright log add makes one; --file names another\n',
    );
    await log('add', '--alloy', 'tin-bronze');
    expect(await log('show', '--alloy', 'tin-bronce')).toMatchObject({ code: 2, out: '' });
    expect((await log('show', '--alloy', 'yellow-brass')).out).toBe('No pours in the log.\n');
  });
});

describe('log export and import', () => {
  test('a log exported and imported elsewhere is the same, byte for byte; twice adds nothing', async () => {
    const { log, text } = shop();
    for (const notes of ['=HYPERLINK("x")', '\'quoted\', and "more"', '@x;y'])
      await log(
        'add',
        '--alloy',
        'tin-bronze',
        '--notes',
        notes,
        '--sizes',
        'D z pattern=38 casting=37.4; "E" casting=3',
      );
    expect(await log('export', '--out', 'table.csv')).toMatchObject({
      code: 0,
      out: '',
      err: 'Wrote table.csv\n',
    });
    expect(await log('import', 'table.csv', '--file', 'other.jsonl')).toMatchObject({ code: 0 });
    expect(text('other.jsonl')).toBe(text('pour-log.jsonl'));
    const again = await log('import', 'table.csv', '--json');
    expect(JSON.parse(again.out)).toMatchObject({ added: 0, present: 3 });
    expect((await log('export')).out).toBe(text('table.csv'));
    const refused = await log('export', '--out', 'table.csv');
    expect(refused).toMatchObject({ code: 1, out: '' });
    expect(refused.err).toContain('is there already');
  });

  test('a table by hand, twice: the second adds nothing', async () => {
    const { log, cwd } = shop();
    const row = '2026-05-30;tin-bronze;gypsum-bonded';
    writeFileSync(join(cwd, 'hand.csv'), `date;alloy;investment\r\n${row}\r\n${row}\r\n`);
    expect((await log('import', 'hand.csv')).out).toBe('Added 2 pours to pour-log.jsonl\n');
    expect((await log('import', 'hand.csv')).out).toBe('Added 0 pours to pour-log.jsonl; 2 it had already\n');
  });

  test('a wrong row: its line and column, and nothing is added', async () => {
    const { log, cwd } = shop();
    writeFileSync(
      join(cwd, 'bad.csv'),
      'date,alloy,investment,growth\n2026-05-30,a,b,1.02\nyesterday,a,b,two\n',
    );
    const { code, err } = await log('import', 'bad.csv');
    expect(code).toBe(2);
    expect(err).toContain('bad.csv:3: growth is two, which is no number');
    expect(err).toContain('bad.csv:3: date is no date');
    expect(err).toContain('Nothing was added.');
    expect(existsSync(join(cwd, 'pour-log.jsonl'))).toBe(false);
  });
});

test('log with no word, a wrong word', async () => {
  const { log } = shop();
  expect(await log()).toMatchObject({ code: 2, out: '' });
  expect((await log('ad')).err).toContain('did you mean add?');
  expect((await log('--file', 'x')).err).toContain('what to do comes first');
});

describe('a job and the log', () => {
  const measured = async (log: (...argv: string[]) => Promise<unknown>) => {
    for (const casting of ['49.15', '49.2', '49.18'])
      await log('add', '--alloy', 'tin-bronze', '--sizes', `D pattern=50 casting=${casting}`);
  };
  const wanted = (50 / 49.15 + 50 / 49.2 + 50 / 49.18) / 3;
  const size = ['--module', '2', '--teeth', '18', '--face-width', '12', '--tolerance', '0.1'];
  const gear = 'part: spur-gear, parameters: { module: 2, teeth: 18, faceWidth: 12 }';
  type Made = Pick<Summary, 'parts' | 'findings'>;

  test('make says that the log has a growth, with its interval, and uses it when asked', async () => {
    const { log, cwd, text } = shop();
    await measured(log);
    const make = (...argv: string[]) =>
      runHere(['make', 'spur-gear', ...size, '--json', '--out', 'o', ...argv], { cwd });
    const plain = JSON.parse((await make()).out) as Made;
    expect(plain.parts[0]!.growth).toMatchObject({ way: 'handbook', ways: { length: 3 } });
    const [note] = plain.findings.filter((f) => f.code === 'growth-in-log');
    expect(note).toMatchObject({ severity: 'note' });
    expect(note!.message).toMatch(
      /1\.0167 \(95 % interval 1\.01\d\d to 1\.01\d\d, from 3 pours\).*by 1\.0156/,
    );
    const asked = JSON.parse((await make('--growth', 'log')).out) as Made;
    expect(asked.parts[0]!.growth.way).toBe('log');
    expect(asked.parts[0]!.growth.value).toBeCloseTo(wanted, 12);
    expect(asked.findings.filter((f) => f.code === 'growth-in-log')).toEqual([]);
    const { meshes } = asked.parts[0]!;
    expect(meshes.pattern.size[2] / meshes.casting.size[2]).toBeCloseTo(wanted, 6);
    expect(text('o/traveller.html')).toContain('measured, by the pour log');
    expect(text('o/traveller.html')).toContain('× 1.0167');
  });

  test('asked for what the log has not: refused, exit 1, nothing written', async () => {
    const { log, cwd } = shop();
    await measured(log);
    const ran = await runHere(['make', 'spur-gear', ...size, '--growth', 'log', '--alloy', 'yellow-brass'], {
      cwd,
    });
    expect(ran).toMatchObject({ code: 1, out: '' });
    expect(ran.err).toContain('no measured growth for Leaded naval yellow brass');
    expect(ran.err).toContain('[no-logged-growth]');
    expect(existsSync(join(cwd, 'out'))).toBe(false);
  });

  test('a plate job finds the log of its own folder or above it, and passes by its torn lines', async () => {
    const { log, cwd, text } = shop();
    await measured(log);
    writeFileSync(join(cwd, 'pour-log.jsonl'), `${text('pour-log.jsonl')}{"v":1,`);
    mkdirSync(join(cwd, 'jobs'));
    writeFileSync(
      join(cwd, 'jobs/job.yaml'),
      `job: two\ntolerance: 0.1\nparts:\n  - { name: a, ${gear}, growth: log }\n  - { name: b, ${gear} }\n`,
    );
    const elsewhere = shop().cwd;
    const ran = await runHere(['plate', join(cwd, 'jobs/job.yaml'), '--json'], { cwd: elsewhere });
    expect(ran.code).toBe(0);
    expect(ran.err).toMatch(/pour-log\.jsonl:4: the line is torn/);
    const { parts, findings } = JSON.parse(ran.out) as Made;
    expect(parts.map((p) => p.growth.way)).toEqual(['log', 'handbook']);
    expect(findings.map((f) => f.code)).toContain('growth-in-log');
  });
});
