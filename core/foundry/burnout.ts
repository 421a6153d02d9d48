/** The burnout: its programme, the check of a programme made elsewhere, and the conduction behind both. */
export * from './burnout/check.js';
export * from './burnout/clock.js';
export * from './burnout/conduction.js';
export * from './burnout/controller.js';
export * from './burnout/energy.js';
export * from './burnout/kiln.js';
export { coreLag, crosses, inversionRate, inversions } from './burnout/limits.js';
export * from './burnout/mould-water.js';
export * from './burnout/plan.js';
export * from './burnout/simulate.js';
