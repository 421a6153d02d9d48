/** Gating: where and how the metal runs in, is fed and lets the air out. */
export { farFeed } from './check.js'; // the one note that is a rule
export * from './choke.js'; // choke, taper, flow
export { moreGatesMayMend } from './compare.js'; // of several plans the best
export * from './freezing.js'; // moduli and Chvorinov's rule
export { mostGates } from './gate-sets.js'; // how many gates a pattern may have
export * from './input.js'; // what the planner is given, and its settings
export { allKinds } from './kinds.js'; // a tree of several kinds as one casting
export { gatingMetal } from './metal.js'; // from the alloy table
export { gatingMould } from './mould.js'; // and the investment's
export { isBuildable, planGating } from './plan.js'; // the numbers
export * from './pour-time.js'; // handbook pouring times
export { reachLimit } from './reach.js'; // how far metal feeds
export { buildGating } from './solid.js'; // the shape
export { mostOnTree, placeTree, type TreePlace } from './tree.js'; // several patterns round one sprue
export { criticalVelocity, velocityLimits } from './velocity.js'; // how fast metal may enter
export { gatingMass, gatingVolume } from './volume.js'; // what the gating holds
