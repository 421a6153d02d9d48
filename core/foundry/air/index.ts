/** Air: where rising metal would trap it, and the vents that let it out. */
export type { AirPlan } from './plan.js'; // what the summary holds
export { type AirPocket, findPockets, leastPocket, type PocketSearch } from './pockets.js'; // the search
export { type VentedGating, ventGating } from './vent-gating.js'; // gate, find, vent
