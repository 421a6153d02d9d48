/** The wording of a job that is refused. */
import { describe, expect, test } from 'vitest';
import { temporaryFolder } from './helpers/folders.js';
import { runHere } from './helpers/in-process.js';

const cwd = temporaryFolder();
const small = ['make', 'hatch-pull', '--size', '12.7mm', '--json'];
const refused = async (...options: string[]) => {
  const ran = await runHere([...small, ...options], { cwd });
  expect(ran.code).toBe(1);
  const { problems } = JSON.parse(ran.out) as { problems: { text: string; message: string }[] };
  return { err: ran.err, problem: problems[0]! };
};

describe('a refused job', () => {
  test('is told with plain spaces, so that its words can be searched', async () => {
    const { err, problem } = await refused();
    expect(err).toContain('The eye is 12.7 mm × 12.7 mm');
    expect(err + problem.text).not.toContain('\u00A0');
    expect(err).not.toContain(' in)');
  });

  test('is told in inches to who works in them; what programs read stays in mm', async () => {
    const [metric, inches] = [await refused(), await refused('--units', 'in')];
    // 12.7 mm is half an inch exactly.
    expect(inches.err).toContain('12.7 mm (0.5 in)');
    expect(inches.err.startsWith(inches.problem.text)).toBe(true);
    expect(inches.problem.message).toBe(metric.problem.message);
  });
});
