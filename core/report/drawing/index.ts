/** The views of a finished part, from its notes or its solid. */
export { type DrawnPart, drawPart } from './drawn-part.js';
/** The drawing as it stands over an inspection sheet. */
export { drawFigure, formatFigure } from './figure.js';
/** The drawing on a sheet of its own. */
export { type DrawingSubject, drawSheet, formatSheet, type Sheet } from './sheet.js';
