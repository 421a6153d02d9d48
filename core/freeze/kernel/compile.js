/** A build step: compiles the kernel twice, for memory of its own and for memory that hands share. */
import { fileURLToPath } from 'node:url';
import { compile, keep } from '../../wasm/compile.js';

const here = fileURLToPath(new URL('.', import.meta.url));
const flags = ['--enable', 'simd,threads', '--importMemory', '--initialMemory', '1'];
const kernel = (...more) => compile(here, 'assembly/kernel.ts', [...flags, ...more]);

keep(here, {
  plainKernel: await kernel(),
  sharedKernel: await kernel('--sharedMemory', '--maximumMemory', '65536'),
});
