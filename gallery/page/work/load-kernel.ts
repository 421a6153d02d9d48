import wasmAddress from 'manifold-3d/manifold.wasm?url';
import { loadKernel } from '../../../core/solid/index.js';
import type { Kernel } from '../../../core/solid/types.js';

/** The shape kernel with its WASM from the page's own files. */
export const loadPageKernel = (): Promise<Kernel> => loadKernel({ locateWasm: () => wasmAddress });
