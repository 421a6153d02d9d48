import { existsSync, mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { findShop, shopFileName } from '../../cli/find-shop.js';
import { openSource, shopKeyOf } from '../../core/job/open-source.js';
import type { Summary } from '../../core/job/summary.js';
import { temporaryFolder } from './helpers/folders.js';
import { runHere } from './helpers/in-process.js';

const top = temporaryFolder();
const job = `job: small
tolerance: 0.1
parts:
  - { name: one, part: hatch-pull, parameters: { size: 20 } }
`;
const profile = (title: string, more = ''): string => `title: ${title}\n${more}`;

/** A settings folder, a yard with a profile, a job two folders down. */
function yard(): { cwd: string; folder: string; env: NodeJS.ProcessEnv } {
  const cwd = mkdtempSync(join(top, 'yard-'));
  const folder = join(cwd, 'jobs/winter');
  mkdirSync(folder, { recursive: true });
  const settings = join(cwd, 'settings');
  mkdirSync(join(settings, 'patternwright'), { recursive: true });
  writeFileSync(join(settings, 'patternwright/shop.yaml'), profile('user'));
  return { cwd, folder, env: { XDG_CONFIG_HOME: settings } };
}

describe('shop profile', () => {
  test('is the one named, else the nearest above the job, else the user’s own', async () => {
    const { cwd, folder, env } = yard();
    const found = async (text = job, option?: string) =>
      (await findShop({ cwd, job: shopKeyOf(openSource(text, 'job.yaml', 'job')), folder, env, option }))
        ?.fileName;
    expect(await found()).toBe('settings/patternwright/shop.yaml');
    writeFileSync(join(cwd, shopFileName), profile('yard'));
    expect(await found()).toBe(shopFileName);
    writeFileSync(join(folder, shopFileName), profile('winter'));
    expect(await found()).toBe(`jobs/winter/${shopFileName}`);
    expect(await found(job, shopFileName)).toBe(shopFileName);
    expect(await found(job, 'none')).toBeUndefined();
    expect(await found(`${job}shop: ../../${shopFileName}\n`)).toBe(shopFileName);
    expect(await found(`${job}shop: { plastic: PLA }\n`)).toBeUndefined();
  });

  test('a kiln that no burnout fits refuses the job: exit 1, why, and nothing written', async () => {
    const { cwd, folder } = yard();
    writeFileSync(join(folder, 'job.yaml'), job);
    const file = join(folder, shopFileName);
    for (const [kiln, code] of [
      ['{ width: 60, depth: 60, height: 60 }', 'flask-too-large-for-kiln'],
      ['{ topTemperature: 500C }', 'kiln-too-cold'],
    ] as const) {
      writeFileSync(file, profile('yard', `kiln: ${kiln}\n`));
      const ran = await runHere(['plate', 'jobs/winter/job.yaml', '--out', 'b'], { cwd });
      expect(ran.code).toBe(1);
      expect(ran.err).toContain(code);
      expect(existsSync(join(cwd, 'b'))).toBe(false);
    }
  });

  test('reaches the numbers and the papers; what is wrong in it is told, and nothing written', async () => {
    const { cwd, folder } = yard();
    writeFileSync(join(folder, 'job.yaml'), job);
    const file = join(folder, shopFileName);
    writeFileSync(
      file,
      profile('Ropewalk foundry', 'mixing: { waterRatio: 0.36, waste: 0 }\nplastic: PETG\n'),
    );
    const ran = await runHere(['plate', 'jobs/winter/job.yaml', '--out', 'a', '--quiet'], { cwd });
    expect(ran).toMatchObject({ code: 0, err: '' });
    const summary = JSON.parse(readFileSync(join(cwd, 'a/summary.json'), 'utf8')) as Summary;
    expect(summary.shop).toMatchObject({ title: 'Ropewalk foundry', plastic: 'PETG' });
    expect(summary.investment!.water / summary.investment!.powder).toBeCloseTo(0.36, 12);
    const slurry =
      (summary.investment!.powder + summary.investment!.water) / summary.investment!.slurryDensity;
    expect(slurry).toBeCloseTo(summary.parts[0]!.flask!.slurryVolume, 6);
    expect(readFileSync(join(cwd, 'a/traveller.html'), 'utf8')).toContain('Ropewalk foundry');

    writeFileSync(file, profile('Ropewalk foundry', 'kiln: { rate: fast }\n'));
    const refused = await runHere(['plate', 'jobs/winter/job.yaml', '--out', 'b'], { cwd });
    expect(refused.code).toBe(2);
    expect(refused.err).toContain(`jobs/winter/${shopFileName}:2:15 kiln.rate:`);
    const made = await runHere(['make', 'knob', '--shop', `jobs/winter/${shopFileName}`, '--out', 'c'], {
      cwd,
    });
    expect(made.code).toBe(2);
    expect(made.err).toContain(`jobs/winter/${shopFileName}:2:15 kiln.rate:`);
    const missing = await runHere(['make', 'knob', '--shop', 'nowhere.yaml', '--out', 'c'], { cwd });
    expect(missing).toMatchObject({ code: 2 });
    expect(missing.err).toContain(
      'cannot read nowhere.yaml: there is no such file; give the path of a shop profile',
    );
  });

  test('with metals on the shelf: make says what to weigh of each, without a job file', async () => {
    const { cwd } = yard();
    const metals = `metals:
  - { name: copper wire, composition: { Cu: 100 }, pricePerKg: 9 }
  - { name: tin ingot, composition: { Sn: 100 }, onHand: 1kg, pricePerKg: 30 }
  - { name: zinc sheet, composition: { Zn: 100 }, pricePerKg: 3 }
`;
    writeFileSync(join(cwd, 'shelf.yaml'), profile('Ropewalk foundry', metals));
    const argv = [
      'make',
      'hatch-pull',
      '--size',
      '20',
      '--tolerance',
      '0.1',
      '--shop',
      'shelf.yaml',
      '--out',
    ];
    const made = await runHere([...argv, 'a'], { cwd });
    expect(made.code).toBe(0);
    expect(made.out).toMatch(/Mixed of {4}copper wire \d+ g; tin ingot \d+ g, \d+ g left; zinc sheet \d+ g/);
    const { charge } = JSON.parse(readFileSync(join(cwd, 'a/summary.json'), 'utf8')) as Summary;
    expect(charge[0]!.melt!.mix).toMatchObject({ ok: true });
    const wrong = metals.replace('1kg', 'a lot');
    writeFileSync(join(cwd, 'shelf.yaml'), profile('Ropewalk foundry', wrong));
    const refused = await runHere([...argv, 'b'], { cwd });
    expect(refused.code).toBe(2);
    expect(refused.err).toContain('shelf.yaml:4:58 metals[1].onHand');
  });
});
