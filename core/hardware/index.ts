/** The numbers that pulls, cleats and hinges are sized from. */
export * from './beams.js';
export * from './casting-rules.js';
export * from './cleat-loads.js';
export * from './cleats.js';
export type * from './fastener.js';
export * from './fastener-seat.js';
export * from './fastener-text.js';
export * from './find-fastener.js';
export * from './hands.js';
export * from './hinge-loads.js';
export * from './hinges.js';
export * from './inserts.js';
export * from './load-check.js';
export * from './rods.js';
export * from './ropes.js';
export * from './sections.js';
export * from './wood.js';
export { gaugeDiameter } from './wood-screws.js';
