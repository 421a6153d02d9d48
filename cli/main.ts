#!/usr/bin/env node
import { run } from './run.js';

// A reader that goes away (`| head`) ends the output, not the run with an error.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

process.exitCode = await run(process.argv.slice(2), {
  out: (text) => process.stdout.write(text),
  err: (text) => process.stderr.write(text),
  isTerminal: process.stderr.isTTY === true,
  cwd: process.cwd(),
});
