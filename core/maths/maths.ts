import { wasmBytes } from '../wasm/wasm-bytes.js';
import { mathsModule } from './bytes.js';

interface Functions {
  readonly sin: (x: number) => number;
  readonly cos: (x: number) => number;
  readonly tan: (x: number) => number;
  readonly asin: (x: number) => number;
  readonly acos: (x: number) => number;
  readonly atan: (x: number) => number;
  readonly atan2: (y: number, x: number) => number;
  readonly atanh: (x: number) => number;
  readonly exp: (x: number) => number;
  readonly log: (x: number) => number;
  readonly log2: (x: number) => number;
  readonly log10: (x: number) => number;
  readonly cbrt: (x: number) => number;
  readonly pow: (x: number, y: number) => number;
}

/**
 * √(Σ v²). Sizes in mm neither overflow nor vanish when squared, which is all that `Math.hypot` guards against.
 */
function hypot(...values: readonly number[]): number {
  let sum = 0;
  for (const v of values) sum += v * v;
  return Math.sqrt(sum);
}

/**
 * The functions that ECMAScript leaves to each engine to approximate (ECMA-262, 21.3): engines differ in their last
 * bits, and a pattern made in a browser would not be the one made on the command line. These are the same everywhere,
 * right to within one unit in the last place. `Math` has the rest, which IEEE 754 fixes.
 */
export const maths = Object.assign(load(), { hypot });

function load(): Functions {
  return {
    ...(new WebAssembly.Instance(new WebAssembly.Module(wasmBytes(mathsModule)))
      .exports as unknown as Functions),
  };
}
