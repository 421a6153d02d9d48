import { SolidError } from './errors.js';

/** Anything that lives in WASM memory and has to be given back. */
interface Deletable {
  delete(): void;
}

/** A tracked WASM object: `value` throws once its scope has ended. */
export class Handle<T extends Deletable> {
  #value: T | null;
  constructor(value: T) {
    this.#value = value;
  }
  get value(): T {
    if (this.#value === null)
      throw new SolidError(
        'scope',
        'a solid was used after the scope it was made in had ended; take its mesh or numbers out instead',
      );
    return this.#value;
  }
  free(): void {
    const value = this.#value;
    this.#value = null;
    value?.delete();
  }
}

/** The open scopes, innermost last, with what each has to free. */
export class ScopeStack {
  readonly #open: Handle<Deletable>[][] = [];

  /** Puts a WASM object in the innermost scope's care. Outside any scope it is freed at once and refused. */
  track<T extends Deletable>(value: T): Handle<T> {
    const innermost = this.#open.at(-1);
    if (!innermost) {
      value.delete();
      throw new SolidError('scope', 'a solid was made outside a scope; wrap the step in kernel.scope(...)');
    }
    const handle = new Handle(value);
    innermost.push(handle);
    return handle;
  }

  /** Leaves all that is open to the garbage, where nothing can be given back any more. */
  abandon(): void {
    for (const made of this.#open) made.length = 0;
  }

  /** Throws unless a scope is open. Called before work starts, so that nothing is made in vain. */
  require(): void {
    if (this.#open.length === 0)
      throw new SolidError('scope', 'a solid was made outside a scope; wrap the step in kernel.scope(...)');
  }

  /** Runs a step and frees all it made, also when it throws. `isHandled` finds what must not leave. */
  run<T>(step: () => T, isHandled: (value: unknown) => boolean): T {
    const mine: Handle<Deletable>[] = [];
    this.#open.push(mine);
    try {
      const result = step();
      checkLeaving(result, isHandled);
      return result;
    } finally {
      this.#open.pop();
      for (const handle of mine) handle.free();
    }
  }
}

/** Throws if a result holds a solid or is a promise: neither outlives its scope. */
function checkLeaving(result: unknown, isHandled: (value: unknown) => boolean): void {
  const seen = new Set<object>();
  const pending: unknown[] = [result];
  while (pending.length > 0) {
    const value = pending.pop();
    if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value) || seen.has(value)) continue;
    seen.add(value);
    if (isHandled(value))
      throw new SolidError('scope', 'a scope returned a solid; return its mesh() or its numbers instead');
    if (typeof (value as { then?: unknown }).then === 'function')
      throw new SolidError('scope', 'a scope returned a promise; the step must be synchronous');
    if (Array.isArray(value) && typeof value[0] === 'number') continue;
    for (const inner of Object.values(value)) if (typeof inner === 'object') pending.push(inner);
  }
}
