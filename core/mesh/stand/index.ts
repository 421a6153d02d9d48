/** Standing: which way up a part is printed and poured. */
export type { Bed, StandMeasures } from './measure.js'; // what is looked at
export { rankDirections, type StandingDirection, type StandOptions } from './rank-directions.js'; // the best ways, with reasons
export { standWeights } from './score.js'; // what counts how much
export { type TurnedMesh, turnToStand } from './turn-to-stand.js'; // the mesh so turned
