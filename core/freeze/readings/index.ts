/** What the fields of a mould tell: where it freezes last, what it asks and gets, when it may be moved, what to change. */
export { moveAfter, quenchTemperature } from './after-freezing.js'; // after freezing
export { readFeed } from './feed.js'; // demand and supply
export { latePlaces } from './late-places.js'; // where it freezes last, and what is cut off there
export { niyamaLimit, readNiyama } from './niyama.js'; // gradients
export { type FreezeContext, readFreeze } from './read-freeze.js'; // all of it
export { type RemedyTrial, remediesFor } from './remedies.js'; // what of the gating to try
