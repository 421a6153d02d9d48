/** How a plate's side meets its faces: `roundEdge`, `bevelEdge`, `flareEdge`. */
export {
  bevelEdge,
  type Edge,
  flareEdge,
  noPlateStock,
  type PlateStock,
  roundEdge,
  sharpEdge,
} from './edge-profile.js';
/** `holeCutter`, `placeTool`: plain, countersunk and counterbored holes and drill dimples, with stock. */
export { type Hole, type HoleStock, holeCutter, noHoleStock, placeTool } from './hole.js';
/** `offsetOutline`: exact for lines and arcs. */
export { offsetOutline } from './offset-outline.js';
/** Outlines of lines and arcs. */
export * from './outline.js';
/** `plateSolid`, `recessCutter`: outlines made plates and recesses. */
export { overhang, type Plate, plateSolid, type Recess, recessCutter } from './plate.js';
/** `roundCorners`, `rectangleOutline`. */
export { rectangleOutline, roundCorners } from './round-corners.js';
/** `outlinePolygon`: an outline as a polygon within tolerance. */
export { outlinePolygon } from './sample-outline.js';
/** `sweepTube`: a section that changes along a spine. */
export { type Sweep, type SweepSection, sweepTube, type Tube } from './tube.js';
/** `tubeSolid`: the solid of a tube, with stock. */
export { noTubeStock, type TubeStock, tubeSolid } from './tube-solid.js';
