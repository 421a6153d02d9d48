/** A build step: compiles the functions of `maths.ts`. */
import { fileURLToPath } from 'node:url';
import { compile, keep } from '../wasm/compile.js';

const here = fileURLToPath(new URL('.', import.meta.url));
keep(here, { mathsModule: await compile(here, 'assembly/maths.ts', []) });
