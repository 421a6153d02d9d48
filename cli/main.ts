#!/usr/bin/env node
import type { HeldInterrupts } from './io.js';
import { run } from './run.js';

// A reader that goes away (`| head`) ends the output, not the run with an error.
for (const stream of [process.stdout, process.stderr]) {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
  });
}

let interruptedBy: NodeJS.Signals | undefined;

function holdInterrupts(): HeldInterrupts {
  const hold = (signal: NodeJS.Signals): void => {
    // A second one is meant.
    release();
    interruptedBy = signal;
  };
  const release = (): void => {
    process.off('SIGINT', hold);
    process.off('SIGTERM', hold);
  };
  process.on('SIGINT', hold);
  process.on('SIGTERM', hold);
  return { interrupted: () => interruptedBy !== undefined, release };
}

process.exitCode = await run(process.argv.slice(2), {
  out: (text) => process.stdout.write(text),
  err: (text) => process.stderr.write(text),
  isTerminal: process.stderr.isTTY === true,
  cwd: process.cwd(),
  holdInterrupts,
});
// Ends as the caller expects of an interrupted program, now that all is cleared away.
if (interruptedBy !== undefined) process.kill(process.pid, interruptedBy);
