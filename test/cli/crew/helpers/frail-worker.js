/** A thread that does as the name of a part says. */
export default async function work({ request }) {
  if (request.name === 'ends') process.exit(3);
  if (request.name === 'throws') throw new Error('beyond catching');
  if (request.name === 'faults') return { fault: { message: 'a fault' }, notes: [] };
  if (request.name === 'full')
    return { fault: { message: 'No room.', folder: { code: 'disk-full', remedy: 'Free some.' } }, notes: [] };
  if (request.name === 'noted') return { answer: { ok: false, findings: [] }, notes: ['a note'] };
  return { answer: { ok: false, findings: [], told: request.name }, notes: [] };
}
