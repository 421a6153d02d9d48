/** `dimensionAxis`: whether a size is printed along z. */
export { dimensionAxis } from './dimension-axis.js';
/** `findSurfaces`: planes and cylinders of a mesh, named by position. */
export { findSurfaces } from './find-surfaces.js';
/** `markTriangles`: what every triangle gets by the marks. */
export { type MarkNote, markTriangles, type TrianglesMarked } from './mark-triangles.js';
/** `formatMarks`: marks as text again. */
export { formatMark, formatMarks, type Mark } from './marks.js';
/** `matchPlace`: the surface that a name means. */
export { matchPlace, type PlaceMatch } from './match-place.js';
/** `measureSurfaces`: the sizes an inspector would check. */
export { type AmountOf, measureSurfaces } from './measure-surfaces.js';
/** The words of places, and `formatPlace`. */
export { type CylinderForm, type Facing, formatPlace, type Place, type SurfacePlace } from './place.js';
/** `readMarks`: the text of marks. */
export { type MarkProblem, type MarksRead, readMarks } from './read-marks.js';
/** `readPlace`: the words of one place. */
export { readPlace } from './read-place.js';
export type { CylinderSurface, FitError, MeshSurface, PlaneSurface } from './surface.js';
/** `triangleArea`: of one triangle. */
export { triangleArea } from './triangle-area.js';
