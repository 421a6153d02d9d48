import type { Vec3 } from '../../solid/types.js';

/** A field over a box as a picture in space, to be looked up anywhere on a casting's surface or in a section of it. */
export interface FieldVolume {
  /** Corner of the box and its sizes, mm. */
  readonly min: Vec3;
  readonly size: Vec3;
  /** Samples along x, y, z: at the middles of equal cells of the box. */
  readonly counts: readonly [number, number, number];
  /** 0 to 255 along the scale, x fastest. */
  readonly values: Uint8Array;
  /** What the scale says, and its colours from 0 to 255: r, g, b bytes each. */
  readonly title: string;
  readonly colours: Uint8Array;
  /** Where on the scale (0 to 1) a figure stands. */
  readonly ticks: readonly { readonly at: number; readonly text: string }[];
}
