/**
 * Starts threads with a module and ends them at random moments of their start.
 * Arguments: the module, rounds, a seed. Tells how long a whole start took, ms.
 */
import { Piscina } from 'piscina';

const [filename, rounds, seed] = process.argv.slice(2);
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

/** Park and Miller's minimal standard generator: a seed gives the same moments each time. */
let state = Number(seed);
const next = () => {
  state = (state * 48_271) % 0x7fffffff;
  return state / 0x7fffffff;
};
for (let i = 0; i < Number(rounds); i++) {
  const { pool } = start();
  await new Promise((resolve) => setTimeout(resolve, next() * whole));
  await pool.destroy();
}
process.stdout.write(String(Math.round(whole)));
