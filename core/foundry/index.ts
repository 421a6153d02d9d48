/** The foundry: alloys, and plans from plain data in to plain data out. */
export * from './alloys/index.js';
export * from './burnout.js';
export * from './cast-strength.js';
export * from './cautions.js';
export * from './charge.js';
export * from './cost.js';
export * from './flask.js';
export * from './flasks.js';
export * from './growth.js';
export * from './holes.js';
export * from './input.js';
export * from './investment.js';
export * from './iso-8062.js';
export * from './material.js';
export type * from './plans.js';
export * from './pour.js';
export * from './stock.js';
