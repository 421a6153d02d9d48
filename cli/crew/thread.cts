/**
 * What a thread of the pool loads first; it fetches the work by `import()`.
 *
 * The pool itself loads by `require`. A thread that is ended while it requires an ES module takes the whole process with it
 * (Node 20.20 aborts where it asks an unlinked module graph for awaits); `import()` can be broken off at any moment.
 */
import type { Task } from './tasks.js' with { 'resolution-mode': 'import' };

const work = import('./worker.js');

export = async (task: Task): Promise<unknown> => (await work).default(task);
