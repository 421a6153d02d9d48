import type { Manifold, ManifoldToplevel } from 'manifold-3d/manifold.js';
import { SolidError } from './errors.js';
import { ScopeStack } from './scope.js';

/** What the kernel's files share: the loaded WASM module and the open scopes. */
export interface Engine {
  readonly wasm: ManifoldToplevel;
  readonly scopes: ScopeStack;
  /** Set once the module has broken off in the middle of something: nothing it says after that is to be trusted. */
  isLost: boolean;
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
  return { wasm, scopes: new ScopeStack(), isLost: false };
}

/** Runs a call into the WASM module and turns what it throws into a `SolidError`. */
export function guard<T>(engine: Engine, what: string, call: () => T): T {
  if (engine.isLost) throw lostError(what);
  try {
    return call();
  } catch (error) {
    if (error instanceof SolidError) throw error;
    if (isBreak(error)) throw lose(engine, what, error);
    const reason = error instanceof Error ? error.message : String(error);
    throw new SolidError('kernel-failure', `${what} failed: ${reason}`);
  }
}

/** Runs a step in a scope of its own. */
export function runScope<T>(engine: Engine, step: () => T, isSolid: (value: unknown) => boolean): T {
  try {
    return engine.scopes.run(step, isSolid);
  } catch (error) {
    throw error instanceof WebAssembly.RuntimeError ? lose(engine, 'a step', error) : error;
  }
}

/** Whether WebAssembly was left in the middle: out of memory or of stack, a fault of its own. */
export const isBreak = (error: unknown): error is Error =>
  error instanceof WebAssembly.RuntimeError ||
  (error instanceof RangeError && /call stack/i.test(error.message));

function lose(engine: Engine, what: string, cause: Error): SolidError {
  engine.isLost = true;
  engine.scopes.abandon();
  return lostError(what, cause);
}

const lostError = (what: string, cause?: Error): SolidError =>
  new SolidError(
    'kernel-lost',
    `${what}: the shape kernel has ended${cause ? ` (${cause.message})` : ''}; it must be loaded anew`,
  );

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
