/**
 * For build steps: compiles AssemblyScript to WebAssembly and keeps the bytes as text in a module, so that the core
 * needs no file to read.
 */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import asc from 'assemblyscript/asc';

/** The module's bytes, base64. `flags` beside those that all have. */
export async function compile(folder, source, flags) {
  let bytes;
  const { error, stderr } = await asc.main(
    [
      source,
      '--baseDir',
      folder,
      '--outFile',
      'out.wasm',
      '--runtime',
      'stub',
      '-O3',
      '--noAssert',
      ...flags,
    ],
    {
      writeFile: (_, contents) => {
        bytes = contents;
      },
    },
  );
  if (error) throw new Error(`${error.message}\n${stderr.toString()}`);
  return Buffer.from(bytes).toString('base64');
}

/** Writes `bytes.ts` into the folder, a constant a module; to the console with `--print`. */
export function keep(folder, modules) {
  const constants = Object.entries(modules).map(([name, text]) => `export const ${name} =\n  '${text}';\n`);
  const head = '/** WebAssembly made from `assembly/` by `npm run kernel`, base64. Do not edit. */\n';
  const file = [head, ...constants].join('\n');
  if (process.argv.includes('--print')) process.stdout.write(file);
  else writeFileSync(join(folder, 'bytes.ts'), file);
}
