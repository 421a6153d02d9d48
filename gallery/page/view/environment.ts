import {
  DataTexture,
  DataUtils,
  EquirectangularReflectionMapping,
  HalfFloatType,
  LinearFilter,
  PMREMGenerator,
  RGBAFormat,
  type WebGLRenderer,
  type WebGLRenderTarget,
} from 'three';
import type { Vec3 } from '../../../core/solid/types.js';

const columns = 256;
const rows = 128;

/** A soft lamp: where it hangs (x to the reader's right, y up, z towards the reader), its spread and its light. */
interface Lamp {
  readonly at: Vec3;
  /** Cosines of the angles from its middle where it is full and where it ends. */
  readonly full: number;
  readonly end: number;
  readonly light: Vec3;
}

/** A workshop: a tall window to the left, a tube over the bench, a pale wall behind, a dim lamp on the right. */
const lamps: readonly Lamp[] = [
  { at: [-0.78, 0.42, 0.46], full: 0.94, end: 0.76, light: [5.2, 5.1, 4.9] },
  { at: [0.1, 0.97, 0.22], full: 0.965, end: 0.82, light: [4.2, 4.1, 3.9] },
  { at: [0.9, 0.2, -0.25], full: 0.96, end: 0.8, light: [2.4, 2.2, 1.9] },
  { at: [-0.15, 0.45, -0.88], full: 0.97, end: 0.5, light: [0.75, 0.74, 0.72] },
  { at: [0.55, 0.12, 0.8], full: 0.975, end: 0.88, light: [0.9, 0.9, 0.95] },
];

/** Light from a direction, linear red, green, blue; y is up. */
export function workshopLight([x, y, z]: Vec3): Vec3 {
  const up = smoothStep(-0.12, 0.5, y);
  const below = smoothStep(0, -1, y);
  const light: [number, number, number] = [
    0.24 + 0.36 * up + 0.36 * below,
    0.23 + 0.355 * up + 0.34 * below,
    0.22 + 0.355 * up + 0.32 * below,
  ];
  for (const lamp of lamps) {
    const l = Math.hypot(...lamp.at);
    const share = smoothStep(lamp.end, lamp.full, (x * lamp.at[0] + y * lamp.at[1] + z * lamp.at[2]) / l);
    for (const k of [0, 1, 2] as const) light[k] += share * lamp.light[k];
  }
  return light;
}

const smoothStep = (from: number, to: number, v: number): number => {
  const t = Math.max(0, Math.min(1, (v - from) / (to - from)));
  return t * t * (3 - 2 * t);
};

/** The workshop's light, blurred for surfaces of every roughness. The caller disposes of it. */
export function makeEnvironment(renderer: WebGLRenderer): WebGLRenderTarget {
  const data = new Uint16Array(4 * columns * rows);
  for (let row = 0; row < rows; row++) {
    const elevation = ((row + 0.5) / rows - 0.5) * Math.PI;
    for (let column = 0; column < columns; column++) {
      // As three.js unrolls a sphere: u = atan2(z, x) / 2π + ½.
      const angle = ((column + 0.5) / columns - 0.5) * 2 * Math.PI;
      const level = Math.cos(elevation);
      const light = workshopLight([level * Math.cos(angle), Math.sin(elevation), level * Math.sin(angle)]);
      data.set([...light, 1].map(DataUtils.toHalfFloat), 4 * (row * columns + column));
    }
  }
  const picture = new DataTexture(data, columns, rows, RGBAFormat, HalfFloatType);
  picture.mapping = EquirectangularReflectionMapping;
  picture.magFilter = LinearFilter;
  picture.minFilter = LinearFilter;
  picture.needsUpdate = true;
  const generator = new PMREMGenerator(renderer);
  const blurred = generator.fromEquirectangular(picture);
  generator.dispose();
  picture.dispose();
  return blurred;
}
