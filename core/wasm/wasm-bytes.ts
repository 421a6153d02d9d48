/** The bytes of a module that a build step kept as base64. */
export const wasmBytes = (base64: string): Uint8Array<ArrayBuffer> =>
  Uint8Array.from(atob(base64), (c) => c.charCodeAt(0));
