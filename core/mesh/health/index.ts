/** `CautionOptions`: the least wall that can be cast. */

/** A hole's edges, place and size. */
export type { MeshHole } from './boundary-loops.js';
export type { CautionOptions } from './cautions.js';
/** `examineMesh`: what is wrong with a mesh, and where. */
export { examineMesh, type MeshHealth, type ShellKind } from './examine.js';
/** `MeshRemark`: a plain sentence with its place. */
export type { MeshRemark } from './remark.js';
/** One connected piece of surface. */
export type { MeshShell } from './shells.js';
/** `wallWithin`: how thick the walls are that count. */
export { wallWithin } from './walls.js';
