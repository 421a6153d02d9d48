/** The finding lists of a summary, gathered and told once. */
export { collectFindings, countFindings, distinctFindings, type FindingGroup } from './findings.js';
/** Quantities in the reader's units. */
export { createFormat, type Format, type View } from './format.js';
/** The short text a run ends with. */
export { formatConsole } from './text-summary.js';
/** The printable document that goes with the job through the shop. */
export {
  formatTraveller,
  type PictureBody,
  type TravellerPictures,
  travellerChunks,
} from './traveller.js';
