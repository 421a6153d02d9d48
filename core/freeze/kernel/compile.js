/**
 * A build step: compiles the kernel's source (AssemblyScript, in `assembly/`) to WebAssembly and writes the bytes into
 * `bytes.ts`, so that the core needs no file to read. Twice: for memory of its own and for memory that hands share.
 * `--print` writes what would be in the file to the console.
 */
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import asc from 'assemblyscript/asc';

const here = fileURLToPath(new URL('.', import.meta.url));

async function compile(...more) {
  let bytes;
  const { error, stderr } = await asc.main(
    [
      'assembly/kernel.ts',
      ...['--baseDir', here],
      ...['--outFile', 'kernel.wasm', '--runtime', 'stub', '--enable', 'simd,threads', '--importMemory'],
      ...['--initialMemory', '1', '-O3', '--noAssert', ...more],
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

const constant = (name, text) => `export const ${name} =\n  '${text}';\n`;
const file = [
  '/** WebAssembly made from `assembly/` by `npm run kernel`, base64. Do not edit. */\n',
  constant('plainKernel', await compile()),
  constant('sharedKernel', await compile('--sharedMemory', '--maximumMemory', '65536')),
].join('\n');
if (process.argv.includes('--print')) process.stdout.write(file);
else writeFileSync(`${here}bytes.ts`, file);
