/**
 * Carries known values out into where there are none (NaN), ring by ring: each the mean of its neighbours in the ring
 * before. In place; x fastest. With nothing known all becomes 0.
 */
export function spreadKnown(values: Float32Array, [nx, ny, nz]: readonly [number, number, number]): void {
  const plane = nx * ny;
  const known = new Uint8Array(values.length);
  for (let i = 0; i < values.length; i++) known[i] = Number.isNaN(values[i]!) ? 0 : 1;
  const around = new Int32Array(6);
  /** Indices of the neighbours, −1 outside. */
  const look = (i: number): void => {
    const x = i % nx;
    const y = Math.floor(i / nx) % ny;
    const z = Math.floor(i / plane);
    around[0] = x > 0 ? i - 1 : -1;
    around[1] = x + 1 < nx ? i + 1 : -1;
    around[2] = y > 0 ? i - nx : -1;
    around[3] = y + 1 < ny ? i + nx : -1;
    around[4] = z > 0 ? i - plane : -1;
    around[5] = z + 1 < nz ? i + plane : -1;
  };
  /** Those on the edge of what is known: 2 marks that they are in the ring. */
  const ringAbout = (indices: Iterable<number>): number[] => {
    const ring: number[] = [];
    for (const i of indices) {
      look(i);
      for (const n of around) {
        if (n < 0 || known[n] !== 0) continue;
        known[n] = 2;
        ring.push(n);
      }
    }
    return ring;
  };
  let ring = ringAbout(knownAtEdge(known, nx, plane));
  while (ring.length > 0) {
    for (const i of ring) {
      look(i);
      let [sum, count] = [0, 0];
      for (const n of around) {
        if (n < 0 || known[n] !== 1) continue;
        sum += values[n]!;
        count++;
      }
      values[i] = sum / count;
    }
    for (const i of ring) known[i] = 1;
    ring = ringAbout(ring);
  }
  for (let i = 0; i < values.length; i++) if (known[i] === 0) values[i] = 0;
}

/** Known ones that may have an unknown neighbour; a few at the box's faces more. */
function* knownAtEdge(known: Uint8Array, nx: number, plane: number): Generator<number> {
  for (let i = 0; i < known.length; i++) {
    if (known[i] !== 1) continue;
    if (
      known[i - 1] !== 1 ||
      known[i + 1] !== 1 ||
      known[i - nx] !== 1 ||
      known[i + nx] !== 1 ||
      known[i - plane] !== 1 ||
      known[i + plane] !== 1
    )
      yield i;
  }
}
