/** `checkSize`: whether a size is absurd as a casting. */
export { believable, checkSize } from './check-size.js';
/** `guessUnit`: what unit a file without one is in. */
export { castable, guessUnit, type UnitGuess, type UnitReading } from './guess-unit.js';
/** `scaleTo`: the factor to a known length. */
export { type BoxSide, boxSides, boxSize, type Scaling, scaleExactMesh, scaleTo } from './scale-to.js';
/** The units that mesh files are drawn in. */
export { type MeshUnit, meshUnits, millimetresPer, unitNames } from './units.js';
