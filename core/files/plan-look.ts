import type { Polygon } from '../solid/types.js';

/** Ink and paper of the plan: greys that survive a black-and-white printer. */
export const planLook = {
  paper: '#ffffff',
  bed: '#faf9f6',
  grid: '#e7e4dd',
  frame: '#3b3833',
  margin: '#a39d92',
  hatch: '#8f897e',
  brim: '#8f897e',
  body: '#dcd7cc',
  bodyEdge: '#57524a',
  text: '#26241f',
  quiet: '#6d675d',
} as const;

/** To a thousandth of a mm: far below the width of any printed line. */
export const millimetres = (v: number): string => String(Math.round(v * 1000) / 1000 + 0);

/** The data of an SVG path. */
export const pathOf = (polygons: readonly Polygon[]): string =>
  polygons
    .map((polygon) => `M${polygon.map(([x, y]) => `${millimetres(x)} ${millimetres(y)}`).join('L')}Z`)
    .join('');
