import { run } from '../../../cli/run.js';

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** One run of the command line in this process, with its output caught. */
export async function runHere(
  argv: readonly string[],
  options: { readonly cwd: string; readonly isTerminal?: boolean },
): Promise<Ran> {
  let out = '';
  let err = '';
  const code = await run(argv, {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    isTerminal: options.isTerminal ?? false,
    cwd: options.cwd,
  });
  return { code, out, err };
}

/** A complaint is whole sentences for people: no stack, no value printed by accident. */
export const accidents = /\n\s+at |node:internal|Error:|undefined|\[object|NaN|This should not have happened/;
