/** The charge: what to weigh out, in which crucible and heats, and from which metals. */
export * from './alloying.js';
export {
  type AlloyingItem,
  type AlloyingLimits,
  type AlloyingMix,
  type ElementOut,
  type StockMetal,
  usualElementLoss,
} from './alloying-programme.js';
export * from './bench-check.js';
export * from './charge.js';
export * from './cooling.js';
export * from './crucibles.js';
export * from './heats.js';
export * from './melt.js';
export type * from './melt-plan.js';
export * from './metal-mix.js';
export * from './specification.js';
