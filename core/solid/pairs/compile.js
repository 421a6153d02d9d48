/** A build step: compiles the search for pairs of triangles. */
import { fileURLToPath } from 'node:url';
import { compile, keep } from '../../wasm/compile.js';

const here = fileURLToPath(new URL('.', import.meta.url));
const flags = ['--enable', 'simd,bulk-memory', '--importMemory', '--initialMemory', '1'];
keep(here, { pairsModule: await compile(here, 'assembly/pairs.ts', flags) });
