/** The views of a finished part, from its notes or its solid. */
export { type DrawnPart, drawPart } from './drawn-part.js';
/** The drawing on a sheet of its own, and over the inspection sheet. */
export { drawFigure, drawSheet, formatFigure, formatSheet, type Sheet } from './sheet.js';
