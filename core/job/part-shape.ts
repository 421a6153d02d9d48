/** What makes two entries of a job one and the same thing to make, whatever they are called. */
import type { Asked, Job, JobPart } from './job.js';

/**
 * All of a request that shows in what is made. Of a tree its names and numbers do, since its findings tell of them, and
 * so does the number of castings where trees may give spares.
 */
export function shapeOf(request: JobPart): Partial<JobPart> {
  const { name: _name, entry: _entry, written: _written, ...shape } = request;
  if (request.tree !== undefined) return { ...shape, name: request.name };
  const { quantity: _quantity, ...one } = shape;
  return request.patternsPerTree === undefined ? one : shape;
}

/** What of a job its parts are made with, besides mesh files: not what the papers alone show. */
export function sharedOf(job: Job) {
  const {
    parts: _parts,
    name: _name,
    title: _title,
    notes: _notes,
    units: _units,
    degrees: _degrees,
    prices: _prices,
    freeze: _freeze,
    freezeFields: _fields,
    improve: _improve,
    pourDelay: _delay,
    burnoutTime: _time,
    nesting: _nesting,
    packFlasks: _pack,
    metals: _metals,
    meshFiles: _meshes,
    shop,
    bed,
    ...shared
  } = job;
  const { title: _called, scale: _scale, mixing: _mixing, kiln: _kiln, crucibles: _pots, ...rest } = shop;
  const { furnace: _furnace, ...inShape } = rest;
  const { gap: _gap, brim: _brim, keepOuts: _zones, ...room } = bed;
  return { ...shared, shop: inShape, bed: room };
}

/** What of a job its moulds are frozen with, and the pictures of it drawn. */
export function sharedInFreezing(job: Job) {
  const { units, degrees, freeze, freezeFields, improve, pourDelay } = job;
  // Other gatings are tried for what they want of the shop.
  const { title: _called, furnace: _furnace, ...inMoulds } = job.shop;
  const trying = improve === true ? { shop: inMoulds } : {};
  return { ...sharedOf(job), ...trying, units, degrees, freeze, freezeFields, improve, pourDelay };
}

const asked = new WeakMap<Asked, Map<string, Asked>>();

/** The same part as made for another request of the same shape; the same object for the same request. */
export function madeFor<P extends Asked>(made: P, request: JobPart): P {
  const key = JSON.stringify(request);
  if (JSON.stringify(made.request) === key) return made;
  const known = asked.get(made) ?? new Map<string, Asked>();
  asked.set(made, known);
  const own = (known.get(key) as P | undefined) ?? { ...made, request };
  known.set(key, own);
  return own;
}
