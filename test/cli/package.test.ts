/** The package as somebody gets it: packed from a copy of the sources, installed into an empty folder, used. */
import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { cpSync, existsSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { partNames } from '../../generators/index.js';
import facts from '../../package.json' with { type: 'json' };
import { projectFolder } from './helpers/built.js';
import { listing, temporaryFolder } from './helpers/folders.js';

const top = temporaryFolder();
const source = join(top, 'source');
const user = join(top, 'user');
const onWindows = process.platform === 'win32';

interface Said {
  readonly out: string;
  readonly err: string;
}

/** Runs a command that must succeed. */
function call(cwd: string, command: string, ...argv: string[]): Said {
  // Settings that the test run's own npm hands on are not the user's.
  const env = Object.fromEntries(Object.entries(process.env).filter(([name]) => !/^npm_/i.test(name)));
  const ran = spawnSync(command, argv, { cwd, env, encoding: 'utf8', timeout: 600_000, shell: onWindows });
  expect(ran.status, `${command} ${argv.join(' ')}\n${ran.error ?? ''}${ran.stdout}${ran.stderr}`).toBe(0);
  return { out: ran.stdout, err: ran.stderr };
}

interface Packed {
  readonly filename: string;
  readonly files: readonly { readonly path: string; readonly mode: number }[];
}
let packed: Packed;

beforeAll(() => {
  const taken = ['core', 'generators', 'cli', 'gallery', 'tsconfig.json', 'tsconfig.build.json'];
  for (const path of [...taken, 'README.md', 'package.json'])
    cpSync(join(projectFolder, path), join(source, path), { recursive: true });
  symlinkSync(join(projectFolder, 'node_modules'), join(source, 'node_modules'), 'junction');
  // Built by itself: what the builders say, coloured on CI, would stand before npm's answer.
  call(source, 'npm', 'run', 'prepack');
  const answer = call(source, 'npm', 'pack', '--ignore-scripts', '--json', '--pack-destination', top).out;
  packed = (JSON.parse(answer) as [Packed])[0];
  mkdirSync(user);
  writeFileSync(join(user, 'package.json'), '{ "name": "shop", "private": true, "type": "module" }\n');
  const quietly = ['--prefer-offline', '--no-audit', '--no-fund'];
  // A registry that stumbles is asked again.
  const patiently = ['--fetch-retries', '6', '--fetch-retry-mintimeout', '2000'];
  call(user, 'npm', 'install', ...quietly, ...patiently, join(top, packed.filename));
}, 1_800_000);

describe('what is packed', () => {
  test('the built program with its types, the page, the example job, the readme, and nothing else', () => {
    const paths = packed.files.map((file) => file.path);
    for (const path of [
      'dist/cli/main.js',
      'dist/cli/api.js',
      'dist/cli/api.d.ts',
      'dist/page/index.html',
      'dist/page/offline.js',
      'dist/page/pictures/wall.json',
      'README.md',
      'gallery/ropewalk/job.yaml',
      'gallery/ropewalk/bearing-bracket.stl',
      'gallery/own-part/README.md',
    ])
      expect(paths).toContain(path);
    for (const path of paths)
      expect(path).toMatch(
        /^(dist\/(core|generators|cli)\/.+(\.c?js|\.d\.c?ts)|dist\/page\/.+|gallery\/(own-part\/[a-zA-Z-]+\.(md|png)|ropewalk\/(job\.yaml|bracket\.yaml|fittings\.yaml|bearing-bracket\.stl))|README\.md|package\.json)$/,
      );
  });

  test('every package that it imports is among its dependencies', () => {
    const named = new Set<string>();
    // The page has all of its own in it.
    const own = packed.files.filter(
      ({ path }) => /\.(c?js|d\.c?ts)$/.test(path) && !path.startsWith('dist/page/'),
    );
    for (const { path } of own) {
      const text = readFileSync(join(user, 'node_modules/patternwright', path), 'utf8');
      for (const [, name] of text.matchAll(/(?:from |import\()\s*['"]((?:@[\w-]+\/)?[\w-]+)[^'"\n]*['"]/g))
        named.add(name as string);
    }
    expect(named.size).toBeGreaterThan(5);
    // Its own name stands in what it writes for part files.
    const given = new Set(['node', facts.name, ...Object.keys(facts.dependencies)]);
    const missing = [...named].filter((name) => !given.has(name));
    expect(missing).toEqual([]);
  });

  test('no tool of the workshop is installed with it', () => {
    for (const name of ['typescript', 'vitest', 'fast-check', '@biomejs/biome', 'three', 'vite', 'preact'])
      expect(existsSync(join(user, 'node_modules', name)), name).toBe(false);
  });
});

describe('the installed command', () => {
  const npx = (...argv: string[]): Said => call(user, 'npx', '--no-install', 'patternwright', ...argv);

  test('says its version', () => {
    expect(npx('--version')).toEqual({ out: `${facts.version}\n`, err: '' });
  });

  test('lists its parts', () => {
    const { out } = npx('list', 'parts');
    for (const name of partNames) expect(out).toContain(`\n${name} `);
  });

  test('serves the page that came with it', async () => {
    const main = join(user, 'node_modules/patternwright/dist/cli/main.js');
    const server = spawn(process.execPath, [main, 'gallery'], {
      cwd: user,
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    try {
      const [said] = (await once(server.stdout, 'data')) as [Buffer];
      const address = /http:\S+/.exec(said.toString())?.[0] as string;
      expect(await (await fetch(address)).text()).toContain('<title>Patternwright</title>');
      const wall = (await (await fetch(`${address}pictures/wall.json`)).json()) as { pieces: unknown[] };
      expect(wall.pieces.length).toBeGreaterThan(5);
    } finally {
      server.kill('SIGINT');
    }
    // Told as interrupted, as programs are that end so.
    expect(await once(server, 'exit')).toEqual([null, 'SIGINT']);
  });

  test('makes a part', () => {
    const { out } = npx('make', 'spur-gear', '--teeth', '18', '--tolerance', '0.05');
    expect(out).toContain('\nWrote out/spur-gear\n');
    const files = listing(join(user, 'out/spur-gear')).map((line) => line.split(' ')[0]);
    expect(files).toEqual(
      expect.arrayContaining(['summary.json', 'traveller.html', 'plates/plate-1.3mf', 'spur-gear/gated.stl']),
    );
  });
});

const ownPart = `definePart({
  name: 'spacer',
  summary: 'Plain round spacer',
  parameters: z.object({
    diameter: length({ min: 5, max: 100, default: 30, help: 'Outside diameter', group: 'Size' }),
    height: length({ min: 3, max: 100, default: 10, help: 'Height', group: 'Size' }),
  }),
  build(p, stock, { kernel, tolerance }) {
    const [r, z0, z1] = [p.diameter / 2 + stock.skin, -stock.face, p.height + stock.face];
    return {
      solid: kernel.frustum([0, 0], z0, r, z1, r, tolerance),
      surfaces: [{ surfaceClass: 'skin', name: 'outside' }, { surfaceClass: 'face', name: 'ends' }],
      dimensions: [{ symbol: 'D', name: 'diameter', value: 2 * r, unit: 'mm', axis: 'xy', method: 'calliper' }],
      gates: [{ name: 'upper end', at: [0, 0, z1], innerDiameter: 0, outerDiameter: 1.2 * r }],
      vents: [{ name: 'rim', at: [0.8 * r, 0, z1], footDiameter: 0.3 * r }],
      findings: [],
    };
  },
})`;

describe('the library', () => {
  test('makes a known part, a job, and a part of the user, and writes them', () => {
    const script = `
      import { definePart, JobError, jobFiles, length, make, plate, writeFolder, z } from 'patternwright';

      const spacer = ${ownPart};
      const round = await make(spacer, { diameter: '1 1/4in' }, { alloy: 'tin-bronze', name: 'shim' });
      const gear = await make('spur-gear', { teeth: 18 }, { tolerance: 0.05 });
      const job = await plate(
        'job: two\\nparts:\\n  - { name: a, part: spacer }\\n  - { name: b, part: hatch-pull, quantity: 2 }\\n',
        { parts: [spacer] },
      );
      await writeFolder('own', jobFiles(round, { lengthUnit: 'mm', degrees: 'C' }));
      const refused = await make(spacer, { diameter: 3 }).catch((error) => error);
      console.log(JSON.stringify({
        shim: round.summary.parts[0],
        gear: gear.summary.parts[0].name,
        two: job.summary.parts.map((p) => [p.name, p.quantity]),
        refused: refused instanceof JobError && refused.problems[0].code,
      }));
    `;
    writeFileSync(join(user, 'own-part.js'), script);
    const said = JSON.parse(call(user, process.execPath, 'own-part.js').out) as {
      shim: { name: string; part: string; dimensions: { part: number }[]; volume: { part: number } };
    };
    expect(said).toMatchObject({
      gear: 'spur-gear',
      two: [
        ['a', 1],
        ['b', 2],
      ],
      refused: 'out-of-range',
    });
    expect(said.shim).toMatchObject({ name: 'shim', part: 'spacer' });
    expect(said.shim.dimensions[0]!.part).toBeCloseTo(31.75, 9);
    expect(listing(join(user, 'own')).map((line) => line.split(' ')[0])).toContain('shim/gated.stl');
  });

  test.each(['NodeNext', 'Bundler'])(
    'has types that hold under strict settings, resolved as %s',
    (resolution) => {
      const program = `
      import { type Finding, definePart, jobFiles, length, make, type Summary, writeFolder, z } from 'patternwright';
      const spacer = ${ownPart};
      const made = await make(spacer, { diameter: '1 1/4in' }, { stock: { skin: '0.3mm' } });
      if ('refused' in made) throw new Error(made.refused.flatMap((r): readonly Finding[] => r.findings)[0]?.message);
      const summary: Summary = made.summary;
      // @ts-expect-error The names of alloys are text.
      await make('spur-gear', {}, { alloy: 3 });
      // @ts-expect-error A part must say how it is built.
      definePart({ name: 'nothing', summary: 'Nothing', parameters: z.object({}) });
      await writeFolder(summary.job.name, jobFiles(made, { lengthUnit: 'in', degrees: 'F' }));
      export const diameter: number = z.object({ d: length({ min: 1, max: 2, default: 1, help: 'D', group: 'G' }) }).parse({}).d;
    `;
      const folder = join(user, `types-${resolution}`);
      mkdirSync(folder);
      writeFileSync(join(folder, 'program.ts'), program);
      const module = resolution === 'NodeNext' ? 'NodeNext' : 'ESNext';
      const compilerOptions = {
        ...{ strict: true, noEmit: true, target: 'ES2022', module, moduleResolution: resolution },
        // Without the types of Node, which the user need not have; the package's own are checked too.
        ...{ exactOptionalPropertyTypes: true, lib: ['ES2023', 'DOM'], types: [], skipLibCheck: false },
      };
      writeFileSync(
        join(folder, 'tsconfig.json'),
        JSON.stringify({ compilerOptions, files: ['program.ts'] }),
      );
      const tsc = join(projectFolder, 'node_modules/typescript/bin/tsc');
      expect(call(user, process.execPath, tsc, '-p', folder).out).toBe('');
    },
  );
});
