import type { Manifold, ManifoldToplevel } from 'manifold-3d/manifold.js';
import { SolidError } from './errors.js';
import { ScopeStack } from './scope.js';

/** What the kernel's files share: the loaded WASM module and the open scopes. */
export interface Engine {
  readonly wasm: ManifoldToplevel;
  readonly scopes: ScopeStack;
}

/** Where to find the kernel's WASM file when it does not lie beside its script (a bundled page). */
export interface EngineOptions {
  readonly locateWasm?: () => string;
}

/** Loads the WASM module. Nothing heavy is read before this is called. */
export async function loadEngine(options: EngineOptions = {}): Promise<Engine> {
  const { default: load } = await import('manifold-3d/manifold.js');
  const { locateWasm } = options;
  const wasm = await (locateWasm ? load({ locateFile: locateWasm }) : load());
  wasm.setup();
  return { wasm, scopes: new ScopeStack() };
}

/** Runs a call into the WASM module and turns what it throws into a `SolidError`. */
export function guard<T>(what: string, call: () => T): T {
  try {
    return call();
  } catch (error) {
    if (error instanceof SolidError) throw error;
    const reason = error instanceof Error ? error.message : String(error);
    throw new SolidError('kernel-failure', `${what} failed: ${reason}`);
  }
}

/** Throws unless a manifold evaluates without error, is not empty and has finite bounds. */
export function checkResult(manifold: Manifold, what: string): void {
  const status = manifold.status();
  if (status !== 'NoError')
    throw new SolidError('kernel-failure', `${what} failed: the kernel reports ${status}`);
  if (manifold.isEmpty()) throw new SolidError('empty-result', `${what} left nothing`);
  const { min, max } = manifold.boundingBox();
  if (![...min, ...max].every(Number.isFinite))
    throw new SolidError('kernel-failure', `${what} gave coordinates that are not finite`);
}
