/** `repairMesh`: a sound solid by what is certain alone, or why not and where. */
export { type Repair, type RepairOptions, repairMesh } from './repair.js';
/** What becomes of closed cavities. */
export type { CavityChoice } from './solve-shells.js';
