/** The package's programmatic face, and what part files are written with. */

export { z } from 'zod';
export { FolderError } from '../core/files/folder-error.js';
export { FormatError } from '../core/files/format-error.js';
/** What an STL, 3MF, OBJ or PLY file holds, for `meshFiles`. */
export { readMeshFile } from '../core/files/mesh-read/index.js';
export type { Job, JobPart } from '../core/job/job.js';
export { type JobFile, jobFiles, type PaperUnits } from '../core/job/job-files.js';
export type { JobProblem } from '../core/job/job-problem.js';
export type { JobResult, RefusedJob } from '../core/job/make-job.js';
export type { MadePart } from '../core/job/make-part.js';
export type { Summary } from '../core/job/summary.js';
export { growthFromLog } from '../core/log/growth.js';
export { type LogReading, parseLog } from '../core/log/line.js';
export type { RatioEstimate } from '../core/log/ratio-estimate.js';
export type { PourRecord } from '../core/log/record.js';
/** Sine, power and the like with the same bits on every machine: what a part is drawn by. */
export { maths } from '../core/maths/maths.js';
export type { MeshFile } from '../core/mesh/mesh-file.js';
export type {
  BuildKit,
  BuildResult,
  BuiltPart,
  Dimension,
  DimensionAxis,
  Fitting,
  GatePlace,
  PartDefinition,
  Piece,
  RefusedPart,
  SurfaceNote,
  VentPlace,
} from '../core/part/contract.js';
export { definePart, freeFormTolerance, refuse, usualTolerance } from '../core/part/contract.js';
export { lengthDimension } from '../core/part/dimension.js';
export type { DimensionNote, DrawingNotes, ViewNote } from '../core/part/drawing-notes.js';
export { angle, choice, count, flag, length, number, text } from '../core/part/fields.js';
export { type Change, type Finding, hasStop, note, stop, warn } from '../core/part/finding.js';
export type { InputProblem } from '../core/part/input-problem.js';
export { isNoStock, noStock, type Stock, type SurfaceClass } from '../core/part/stock.js';
/** Outlines of lines and arcs, offset exactly: circles, oblongs, rounded rectangles, any. */
/** Plates, recesses, openings and holes, each surface by its stock. */
/** Smooth bodies by their distance fields, joined with fillets. */
/** Tubes swept along a spine, and the thinnest wall of a mesh. */
export {
  arc,
  ballField,
  barField,
  bevelEdge,
  blendFields,
  circleOutline,
  coneField,
  cutField,
  drawOutline,
  type Edge,
  type Field,
  fieldSolid,
  type Hole,
  type HoleOptions,
  type HoleStock,
  holeCutter,
  line,
  measureThinnest,
  mirrorField,
  moveField,
  noHoleStock,
  noPlateStock,
  noTubeStock,
  type Opening,
  type Outline,
  obroundOutline,
  offsetOutline,
  openingCutter,
  outlinePolygon,
  type Plate,
  type PlateField,
  type PlateStock,
  placeOutline,
  placeTool,
  plateField,
  plateSolid,
  polygonOutline,
  profileSolid,
  type Recess,
  recessCutter,
  rectangleOutline,
  ringField,
  roundCorners,
  roundEdge,
  type Sweep,
  type SweepSection,
  sharpEdge,
  sweepTube,
  type Thinnest,
  type Tube,
  type TubeStock,
  tubeField,
  tubeSolid,
  turnedField,
  turnField,
} from '../core/shape/index.js';
export { inspectMesh } from '../core/solid/index.js';
export type { Box, Kernel, Mesh, Polygon, Solid, Vec2, Vec3 } from '../core/solid/types.js';
export { partNames } from '../generators/index.js';
export { JobError } from './api/job-error.js';
export { type MakeSettings, make } from './api/make.js';
export { plate } from './api/plate.js';
export { writeFolder } from './api/write-folder.js';
