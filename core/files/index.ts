// Two modules are imported by their own path: `stl.js` (the STL writer: loads @jscad/modeling, so load it late)
// and `folder.js` (the folder writer: Node only). All of this list runs in a browser.
export { FormatError, type FormatErrorCode } from './format-error.js';
export { formatPlanSvg, type PlanPattern, type PlatePlan } from './plan-svg.js';
export { closeRoundedMesh } from './rounded-mesh.js';
export { readStl } from './stl-read.js';
export { type ThreeMfMeta, type ThreeMfObject, write3mf } from './three-mf.js';
export { escapeXml } from './xml.js';
