import { maths } from '../../maths/maths.js';

/** Linear-light red, green, blue, 0 to 1. */
export type LinearColour = readonly [number, number, number];

/**
 * How a surface looks: its colour as `#rrggbb`, and whether it shines as metal does. An `even` one is lit almost alike
 * from all sides, so that its colours can be read.
 */
export interface PreviewColour {
  readonly colour: string;
  readonly finish: 'metal' | 'plastic' | 'even';
}

/** Cast metal, for part and casting. */
export const metalColour: PreviewColour = { colour: '#a8906f', finish: 'metal' };
/** The printed pattern. */
export const plasticColour: PreviewColour = { colour: '#cdd4cb', finish: 'plastic' };
/** Sprue, cup and vents of a printed pattern. */
export const gatingColour: PreviewColour = { colour: '#d3a988', finish: 'plastic' };

/** IEC 61966-2-1 (sRGB), 8 bits to linear light. */
export const linearOf = (byte: number): number => {
  const v = byte / 255;
  return v <= 0.04045 ? v / 12.92 : maths.pow((v + 0.055) / 1.055, 2.4);
};

/** @throws RangeError for text that is not `#rrggbb`. */
export function parseColour(text: string): LinearColour {
  const match = /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/i.exec(text);
  if (match === null) throw new RangeError(`colour ${JSON.stringify(text)}; written #rrggbb`);
  const [r, g, b] = match.slice(1).map((h) => linearOf(Number.parseInt(h, 16)));
  return [r!, g!, b!];
}

const steps = 4096;
/** Linear light back to 8 bits: a table, since a picture asks a million times. */
const bytes = Uint8Array.from({ length: steps + 1 }, (_, i) => {
  const v = i / steps;
  return Math.round(255 * (v <= 0.0031308 ? 12.92 * v : 1.055 * maths.pow(v, 1 / 2.4) - 0.055));
});

export const toByte = (linear: number): number =>
  bytes[linear <= 0 ? 0 : linear >= 1 ? steps : Math.round(linear * steps)]!;
