import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, rmSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { projectFolder } from './sheet.js';

/** The bench's own build, so that neither the one in `dist` is disturbed nor a stale one measured. */
export const buildFolder = join(projectFolder, 'out/bench-build');

export const builtMain = join(buildFolder, 'dist/cli/main.js');
export const builtProgram = (name: string): string =>
  join(buildFolder, `dist/test/bench/programs/${name}.js`);

/** Compiles and joins the program as `npm run build` does, and the bench's own programs beside it. */
export function buildForBench(): void {
  rmSync(buildFolder, { recursive: true, force: true });
  mkdirSync(buildFolder, { recursive: true });
  cpSync(join(projectFolder, 'package.json'), join(buildFolder, 'package.json'));
  symlinkSync(join(projectFolder, 'node_modules'), join(buildFolder, 'node_modules'), 'junction');
  node(projectFolder, join(projectFolder, 'node_modules/typescript/bin/tsc'), [
    ...['-p', 'test/bench/tsconfig.json'],
    ...['--outDir', join(buildFolder, 'dist')],
  ]);
  node(buildFolder, join(projectFolder, 'cli/bundle.js'), []);
  if (!existsSync(builtMain)) throw new Error(`no ${builtMain} was built`);
}

function node(cwd: string, script: string, args: readonly string[]): void {
  const ran = spawnSync(process.execPath, [script, ...args], { cwd, encoding: 'utf8' });
  if (ran.status !== 0) throw new Error(`${script} failed:\n${ran.stdout}${ran.stderr}`);
}
