/**
 * A process that adds pours to a log until it is killed, and says on standard output, in one write each, which are
 * on the disk. Arguments: the log, a name for its pours, how many at most.
 */
import { writeSync } from 'node:fs';
import { appendRecords } from '../../core/files/log-file.js';
import { pour } from './pour.js';

const [path, name, most] = process.argv.slice(2) as [string, string, string];
for (let i = 0; i < Number(most); i++) {
  const id = `${name}-${String(i).padStart(6, '0')}`;
  // Of very different lengths, some longer than a disk block.
  const notes = '=µ"\n'.repeat((i * 37) % 900);
  await appendRecords(path, [pour({ id, notes })]);
  writeSync(1, `${id}\n`);
}
