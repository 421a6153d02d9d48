/** The ceramic shell: coats, strength, fire and pour. */
export * from './burnout.js';
export * from './check.js';
export * from './coating.js';
export * from './coats.js';
export * from './cooling.js';
export * from './investment.js';
export * from './plan.js';
export type * from './plans.js';
export * from './pour.js';
export * from './strength.js';
export * from './surface.js';
