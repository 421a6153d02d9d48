import { createHash } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

let told: Promise<string> | undefined;

/**
 * Which program this is, by what is in its files: its own modules, the versions of the packages it stands on, the shape
 * kernel's code. Part of every key, since another program may make something else of the same part.
 *
 * Nothing of the machine or the engine belongs in it. Sums, products and roots of doubles are the same everywhere (IEEE
 * 754, ECMAScript), WebAssembly likewise, the rest is `core/maths`, numbers are written as ECMAScript lays down, and
 * no clock, locale or chance comes in.
 */
export const programIdentity = (): Promise<string> => {
  told ??= identify(dirname(fileURLToPath(import.meta.url)));
  return told;
};

/** @param here the folder of this module: `store` within `cli`, or `cli` itself where modules are joined */
export async function identify(here: string): Promise<string> {
  const isJoined = basename(here) !== 'store';
  const cli = isJoined ? here : dirname(here);
  const root = dirname(cli);
  // What the joined modules were made of still lies beside them, in folders of its own, but does not run.
  const own = isJoined ? [cli, join(cli, 'crew')] : [cli, join(root, 'core'), join(root, 'generators')];
  const sum = createHash('sha256');
  for (const folder of own) {
    const all = await readdir(folder, { recursive: !isJoined }).catch(() => []);
    const names = all.filter((name) => isCode.test(name)).sort();
    const files = await Promise.all(names.map((name) => readFile(join(folder, name))));
    for (const [i, name] of names.entries()) sum.update(`${name} ${files[i]!.length}\n`).update(files[i]!);
  }
  for (const line of await packagesUnder(cli)) sum.update(`${line}\n`);
  return sum.digest('hex');
}

const isCode = /(?<!\.d)\.([cm]?[jt]s|wasm)$/;

interface Manifest {
  readonly name?: string;
  readonly version?: string;
  readonly dependencies?: Readonly<Record<string, string>>;
}

/** Name and version of this package and of every one under it, with the sum of what the shape kernel is. */
async function packagesUnder(cli: string): Promise<readonly string[]> {
  const lines = new Set<string>();
  const visit = async (folder: string): Promise<void> => {
    const { name, version, dependencies = {} } = await readManifest(folder);
    const line = `${name} ${version}`;
    if (lines.has(line)) return;
    lines.add(line);
    if (name === 'manifold-3d') {
      for (const file of ['manifold.js', 'manifold.wasm']) lines.add(await sumOfFile(join(folder, file)));
    }
    for (const dependency of Object.keys(dependencies)) {
      const found = await findPackage(folder, dependency);
      if (found !== undefined) await visit(found);
    }
  };
  const own = await nearest(cli, async (folder) => (await readManifest(folder)).name === 'patternwright');
  if (own !== undefined) await visit(own);
  return [...lines].sort();
}

const findPackage = async (from: string, name: string): Promise<string | undefined> => {
  const above = await nearest(
    from,
    async (folder) => 'name' in (await readManifest(join(folder, 'node_modules', name))),
  );
  return above && join(above, 'node_modules', name);
};

/** The folder, or the nearest above it, of which something is true. */
async function nearest(
  folder: string,
  isIt: (folder: string) => Promise<boolean>,
): Promise<string | undefined> {
  if (await isIt(folder)) return folder;
  const above = dirname(folder);
  return above === folder ? undefined : nearest(above, isIt);
}

const readManifest = (folder: string): Promise<Manifest> =>
  readFile(join(folder, 'package.json'), 'utf8').then(
    (text) => JSON.parse(text) as Manifest,
    () => ({}),
  );

const sumOfFile = async (path: string): Promise<string> =>
  createHash('sha256')
    .update(await readFile(path))
    .digest('hex');
