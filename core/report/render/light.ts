import { maths } from '../../maths/maths.js';
import { type PreviewColour, parseColour } from './colour.js';

/** Steps of the normal's x and y in a light table. */
export const lightSteps = 256;

/**
 * Light by normal: with a parallel view and distant lamps a surface's light depends on its normal alone, so it
 * is worked out once for a grid of normals. Linear red, green, blue, indexed 3 × (row × lightSteps + column);
 * the column is the normal's x, the row its y as the viewer sees it.
 *
 * A look, not a measurement: a large soft lamp up and to the left, a weak one low on the right, a sky that is
 * brighter than the ground.
 */
export function makeLightTable(surface: PreviewColour, elevation: number): Float32Array {
  const key = `${JSON.stringify(surface)} ${elevation}`;
  let table = tables.get(key);
  if (table === undefined) {
    // The pictures of a job share two or three.
    if (tables.size >= mostTables) tables.clear();
    table = lightTable(surface, elevation);
    tables.set(key, table);
  }
  return table;
}

/** Share of an `even` surface's light that comes from all sides alike. */
const evenLight = 0.62;

const tables = new Map<string, Float32Array>();
const mostTables = 8;

function lightTable(surface: PreviewColour, elevation: number): Float32Array {
  const base = parseColour(surface.colour);
  const table = new Float32Array(lightSteps * lightSteps * 3);
  const skyY = maths.cos(elevation);
  const skyZ = maths.sin(elevation);
  const metal = surface.finish === 'metal';
  for (let row = 0; row < lightSteps; row++) {
    for (let column = 0; column < lightSteps; column++) {
      let x = (column / (lightSteps - 1)) * 2 - 1;
      let y = (row / (lightSteps - 1)) * 2 - 1;
      const r = Math.sqrt(x * x + y * y);
      if (r > 1) {
        x /= r;
        y /= r;
      }
      const z = Math.sqrt(Math.max(0, 1 - x * x - y * y));
      const sky = 0.5 + 0.5 * (y * skyY + z * skyZ);
      const diffuse = 0.62 * wrap(dot(x, y, z, key), 0.25) + 0.14 * wrap(dot(x, y, z, fill), 0.1);
      const ambient = 0.2 + 0.34 * sky;
      // The view is along z: a mirror sends it to 2 z n − z.
      const mx = 2 * z * x;
      const my = 2 * z * y;
      const mz = 2 * z * z - 1;
      const at = 3 * (row * lightSteps + column);
      const shine = metal
        ? 0.34 * maths.pow(Math.max(0, dot(mx, my, mz, key)), 9) + 0.4 * surroundings(my * skyY + mz * skyZ)
        : 0.07 * maths.pow(Math.max(0, dot(mx, my, mz, key)), 14);
      const edge = maths.pow(1 - z, 4);
      for (let k = 0; k < 3; k++) {
        const tint = metal ? 0.35 + 0.65 * base[k]! : 1;
        if (surface.finish === 'even') {
          table[at + k] = base[k]! * (evenLight + (1 - evenLight) * (ambient + diffuse));
          continue;
        }
        table[at + k] =
          base[k]! * (ambient + diffuse) * (metal ? 0.72 : 1) + tint * shine + edge * (metal ? 0.03 : 0.04);
      }
    }
  }
  return table;
}

/** What metal mirrors, by how far up it looks: a dark floor, a bright band of windows, a duller ceiling. */
const surroundings = (up: number): number =>
  0.1 + 0.75 * smoothStep(-0.25, 0.3, up) - 0.4 * smoothStep(0.35, 1, up);

type Direction = readonly [number, number, number];
const unit = (x: number, y: number, z: number): Direction => {
  const l = maths.hypot(x, y, z);
  return [x / l, y / l, z / l];
};
/** Directions to the lamps as the viewer sees them. */
const key = unit(-0.55, 0.72, 0.62);
const fill = unit(0.85, -0.1, 0.5);
const dot = (x: number, y: number, z: number, d: Direction): number => x * d[0] + y * d[1] + z * d[2];
const wrap = (cos: number, by: number): number => Math.max(0, (cos + by) / (1 + by));
const smoothStep = (from: number, to: number, v: number): number => {
  const t = Math.max(0, Math.min(1, (v - from) / (to - from)));
  return t * t * (3 - 2 * t);
};
