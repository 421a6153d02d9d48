#!/usr/bin/env node
import type { HeldInterrupts } from './io.js';
import { run } from './run.js';

let outputFailed = false;
process.stdout.on('error', ({ code }: NodeJS.ErrnoException) => {
  // A reader that goes away (`| head`) ends the output, not the run with an error.
  if (code === 'EPIPE') return;
  if (!outputFailed) process.stderr.write(`Standard output cannot be written (${code}).\n`);
  outputFailed = true;
  process.exitCode ||= 1;
});
// There is nowhere left to say it; the exit code tells how the run ended.
process.stderr.on('error', () => undefined);

const exit = process.exit.bind(process);
let ranPartFiles = false;

let interruptedBy: NodeJS.Signals | undefined;

function holdInterrupts(): HeldInterrupts {
  let tell = (): void => undefined;
  const whenInterrupted = new Promise<void>((resolve) => {
    tell = resolve;
  });
  const hold = (signal: NodeJS.Signals): void => {
    // A second one is meant.
    release();
    interruptedBy = signal;
    tell();
  };
  const release = (): void => {
    process.off('SIGINT', hold);
    process.off('SIGTERM', hold);
  };
  process.on('SIGINT', hold);
  process.on('SIGTERM', hold);
  return { interrupted: () => interruptedBy !== undefined, whenInterrupted, release };
}

const exitCode = await run(process.argv.slice(2), {
  out: (text) => process.stdout.write(text),
  err: (text) => process.stderr.write(text),
  isTerminal: process.stderr.isTTY === true,
  columns: () => process.stderr.columns,
  cwd: process.cwd(),
  holdInterrupts,
  workerFile: new URL('./crew/thread.cjs', import.meta.url),
  runsPartFiles: () => {
    ranPartFiles = true;
  },
});
process.exitCode = exitCode === 0 && outputFailed ? 1 : exitCode;
// Ends as the caller expects of an interrupted program, now that all is cleared away.
if (interruptedBy !== undefined) process.kill(process.pid, interruptedBy);
// A timer or connection that a part file left open; what is printed goes out first.
else if (ranPartFiles) process.stdout.write('', () => process.stderr.write('', () => exit(process.exitCode)));
