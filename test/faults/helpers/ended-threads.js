/**
 * Starts threads with a module and ends them at moments of their start.
 * Arguments: the module, the moments as shares of a whole start, in JSON. Tells how long that took, ms.
 */
import { Piscina } from 'piscina';

const [filename, moments] = process.argv.slice(2);
const threads = 4;

const start = () => {
  const pool = new Piscina({
    filename,
    minThreads: threads,
    maxThreads: threads,
    workerData: { terms: { job: { parts: [] } }, places: { scratch: '/nonexistent' } },
    atomics: 'disabled',
  });
  // Not a task that it knows: it answers as soon as it can answer at all.
  const answers = Array.from({ length: threads }, () => pool.run({ kind: 'none' }).catch(() => undefined));
  return { pool, answers: Promise.all(answers) };
};

const before = performance.now();
const first = start();
await first.answers;
const whole = performance.now() - before;
await first.pool.destroy();

for (const moment of JSON.parse(moments)) {
  const { pool } = start();
  await new Promise((resolve) => setTimeout(resolve, moment * whole));
  await pool.destroy();
}
process.stdout.write(String(Math.round(whole)));
