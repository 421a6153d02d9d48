/** What is seen at each sample. */
export interface SampleBuffer {
  readonly width: number;
  readonly height: number;
  /** Samples towards the viewer, positive; 0 where nothing is. */
  readonly depth: Float32Array;
  /** x and y of the unit normal as the viewer sees it, × `normalUnit`, y up. */
  readonly normalX: Int16Array;
  readonly normalY: Int16Array;
  /** Index of the colour. */
  readonly colour: Uint8Array;
  /** Strength of a line, 0 to 255. */
  readonly line: Uint8Array;
}

/** Leaves room for interpolated normals a little longer than one. */
export const normalUnit = 16384;

export const makeSampleBuffer = (width: number, height: number): SampleBuffer => ({
  width,
  height,
  depth: new Float32Array(width * height),
  normalX: new Int16Array(width * height),
  normalY: new Int16Array(width * height),
  colour: new Uint8Array(width * height),
  line: new Uint8Array(width * height),
});

/** One corner: x, y, z in samples and the normal's x and y as seen. */
export interface Corner {
  x: number;
  y: number;
  z: number;
  nx: number;
  ny: number;
}

/** Fills one triangle, row by row between its sides; samples lie at half-integers. */
export function fillTriangle(buffer: SampleBuffer, a: Corner, b: Corner, c: Corner, colour: number): void {
  const area = (b.x - a.x) * (c.y - a.y) - (c.x - a.x) * (b.y - a.y);
  if (area === 0 || !Number.isFinite(area)) return;
  let [top, middle, low] = [a, b, c];
  if (middle.y < top.y) [top, middle] = [middle, top];
  if (low.y < middle.y) [middle, low] = [low, middle];
  if (middle.y < top.y) [top, middle] = [middle, top];
  const first = Math.max(0, Math.ceil(top.y - 0.5));
  const last = Math.min(buffer.height - 1, Math.ceil(low.y - 0.5) - 1);
  if (first > last) return;

  // Planes of z and of the normal over the picture; on needles their slopes are noise, so they are held flat.
  const flat = Math.abs(area) < 1e-2;
  const slope = (va: number, vb: number, vc: number): readonly [number, number] =>
    flat
      ? [0, 0]
      : [
          ((vb - va) * (c.y - a.y) - (vc - va) * (b.y - a.y)) / area,
          ((b.x - a.x) * (vc - va) - (c.x - a.x) * (vb - va)) / area,
        ];
  const [zx, zy] = slope(a.z, b.z, c.z);
  const [nxx, nxy] = slope(a.nx, b.nx, c.nx);
  const [nyx, nyy] = slope(a.ny, b.ny, c.ny);
  const zMin = Math.min(a.z, b.z, c.z);
  const zMax = Math.max(a.z, b.z, c.z);
  const { width, depth, normalX, normalY } = buffer;
  for (let row = first; row <= last; row++) {
    const y = row + 0.5;
    const long = top.x + ((low.x - top.x) * (y - top.y)) / (low.y - top.y);
    const short =
      y < middle.y
        ? top.x + ((middle.x - top.x) * (y - top.y)) / (middle.y - top.y)
        : middle.x + ((low.x - middle.x) * (y - middle.y)) / (low.y - middle.y || 1);
    const from = Math.max(0, Math.ceil(Math.min(long, short) - 0.5));
    const to = Math.min(width - 1, Math.ceil(Math.max(long, short) - 0.5) - 1);
    let z = a.z + zx * (from + 0.5 - a.x) + zy * (y - a.y);
    let nx = a.nx + nxx * (from + 0.5 - a.x) + nxy * (y - a.y);
    let ny = a.ny + nyx * (from + 0.5 - a.x) + nyy * (y - a.y);
    for (let i = row * width + from; i <= row * width + to; i++) {
      const near = Math.min(Math.max(z, zMin), zMax);
      if (near > depth[i]!) {
        depth[i] = near;
        normalX[i] = nx * normalUnit;
        normalY[i] = ny * normalUnit;
        buffer.colour[i] = colour;
      }
      z += zx;
      nx += nxx;
      ny += nyx;
    }
  }
}

/**
 * Draws a line over what it does not lie behind by more than `slack` samples. `thickness` in samples, `strength`
 * 0 to 255; where lines cross the stronger stays.
 */
export function drawLine(
  buffer: SampleBuffer,
  a: { readonly x: number; readonly y: number; readonly z: number },
  b: { readonly x: number; readonly y: number; readonly z: number },
  thickness: number,
  strength: number,
  slack: number,
): void {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const flatter = Math.abs(dx) >= Math.abs(dy);
  const steps = Math.max(1, Math.ceil(Math.max(Math.abs(dx), Math.abs(dy))));
  const { width, height, depth, line } = buffer;
  const before = Math.floor((thickness - 1) / 2);
  for (let s = 0; s <= steps; s++) {
    const f = s / steps;
    const x = Math.floor(a.x + dx * f);
    const y = Math.floor(a.y + dy * f);
    const z = a.z + (b.z - a.z) * f + slack;
    for (let k = -before; k < thickness - before; k++) {
      const px = flatter ? x : x + k;
      const py = flatter ? y + k : y;
      if (px < 0 || py < 0 || px >= width || py >= height) continue;
      const i = py * width + px;
      if (z >= depth[i]! && line[i]! < strength) line[i] = strength;
    }
  }
}
