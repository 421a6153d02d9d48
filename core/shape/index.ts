/** How a plate's side meets its faces: `roundEdge`, `bevelEdge`, `flareEdge`. */

/** Bodies joined with fillets, and cut with rounded edges. */
export { blendFields, cutField } from './blend.js';
export {
  bevelEdge,
  type Edge,
  flareEdge,
  noPlateStock,
  type PlateStock,
  roundEdge,
  sharpEdge,
} from './edge-profile.js';
/** Bodies by their distance fields, moved, turned and mirrored. */
export { type Field, fieldDistance, mirrorField, moveField, turnField } from './field.js';
/** `fieldSolid`: a smooth body meshed within tolerance, with stock. */
export { fieldMesh, fieldSolid } from './field-solid.js';
/** `holeCutter`, `placeTool`: plain, countersunk and counterbored holes and drill dimples, with stock. */
export { type Hole, type HoleOptions, type HoleStock, holeCutter, noHoleStock, placeTool } from './hole.js';
/** `offsetOutline`: exact for lines and arcs. */
export { offsetOutline } from './offset-outline.js';
/** Outlines of lines and arcs. */
export * from './outline.js';
/** `plateField`, `turnedField`: from outlines. */
export { type PlateField, plateField, turnedField } from './outline-fields.js';
/** `plateSolid`, `recessCutter`, `openingCutter`, `profileSolid`: outlines made plates, recesses, openings, dishes. */
export {
  type Opening,
  openingCutter,
  overhang,
  type Plate,
  plateSolid,
  profileSolid,
  type Recess,
  recessCutter,
} from './plate.js';
/** `roundCorners`, `rectangleOutline`. */
export { rectangleOutline, roundCorners } from './round-corners.js';
/** `outlinePolygon`: an outline as a polygon within tolerance. */
export { outlinePolygon } from './sample-outline.js';
/** Balls, bars, cones and rings. */
export { ballField, barField, coneField, ringField } from './simple-fields.js';
/** `measureThinnest`: the thinnest wall and the thinnest gap of a mesh. */
export { measureThinnest, type Thinnest, type ThinnestOptions, type ThinPlace } from './thinnest.js';
/** `sweepTube`: a section that changes along a spine. */
export { type Sweep, type SweepSection, sweepTube, type Tube } from './tube.js';
/** `tubeField`: a tube's distance. */
export { tubeField } from './tube-field.js';
/** `tubeSolid`: the solid of a tube, with stock. */
export { noTubeStock, type TubeStock, tubeSolid } from './tube-solid.js';
