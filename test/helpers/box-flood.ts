/**
 * Trapped air by brute force: the solid is a list of boxes added or cut, in turn; space is divided at every face of
 * every box, so that each cell is wholly in or out, and cells are flooded layer by layer from the top. Knows nothing of
 * meshes. Exact for boxes.
 */
export interface FloodBox {
  readonly min: readonly [number, number, number];
  readonly max: readonly [number, number, number];
  readonly cut: boolean;
}

export function floodPockets(boxes: readonly FloodBox[], openHeight: number): readonly number[] {
  const cuts = [0, 1, 2].map((k) =>
    [...new Set(boxes.flatMap((b) => [b.min[k] as number, b.max[k] as number]))].sort((a, b) => a - b),
  ) as [number[], number[], number[]];
  const [nx, ny, nz] = cuts.map((c) => c.length - 1) as [number, number, number];
  const at = (i: number, j: number, k: number): number => (k * ny + j) * nx + i;
  const mid = (c: readonly number[], i: number): number => ((c[i] as number) + (c[i + 1] as number)) / 2;
  const size = (c: readonly number[], i: number): number => (c[i + 1] as number) - (c[i] as number);
  const solid = new Uint8Array(nx * ny * nz);
  for (let k = 0; k < nz; k++)
    for (let j = 0; j < ny; j++)
      for (let i = 0; i < nx; i++) {
        const p = [mid(cuts[0], i), mid(cuts[1], j), mid(cuts[2], k)] as const;
        for (const b of boxes)
          if ([0, 1, 2].every((c) => p[c]! > b.min[c]! && p[c]! < b.max[c]!))
            solid[at(i, j, k)] = b.cut ? 0 : 1;
      }
  /** Pieces of all cells in layers `low` and up: label of each cell, and of each label volume and whether it is open. */
  const pieces = (low: number) => {
    const label = new Int32Array(solid.length).fill(-1);
    const found: { volume: number; open: boolean }[] = [];
    for (let s = low * nx * ny; s < solid.length; s++) {
      if (!solid[s] || label[s] !== -1) continue;
      const piece = { volume: 0, open: false };
      label[s] = found.length;
      const queue = [s];
      for (let c = queue.pop(); c !== undefined; c = queue.pop()) {
        const [i, j, k] = [c % nx, Math.floor(c / nx) % ny, Math.floor(c / (nx * ny))];
        piece.volume += size(cuts[0], i) * size(cuts[1], j) * size(cuts[2], k);
        if ((cuts[2][k + 1] as number) >= openHeight) piece.open = true;
        for (const [a, b, d] of [
          [i - 1, j, k],
          [i + 1, j, k],
          [i, j - 1, k],
          [i, j + 1, k],
          [i, j, k - 1],
          [i, j, k + 1],
        ] as const) {
          if (a < 0 || b < 0 || a >= nx || b >= ny || d < low || d >= nz) continue;
          const n = at(a, b, d);
          if (solid[n] && label[n] === -1) {
            label[n] = found.length;
            queue.push(n);
          }
        }
      }
      found.push(piece);
    }
    return { label, found };
  };
  const volumes: number[] = [];
  let before = pieces(nz);
  for (let k = nz - 1; k >= 0; k--) {
    const now = pieces(k);
    const told = new Set<number>();
    before.label.forEach((old, cell) => {
      if (old < 0 || told.has(old)) return;
      told.add(old);
      if (!before.found[old]!.open && now.found[now.label[cell]!]!.open)
        volumes.push(before.found[old]!.volume);
    });
    before = now;
  }
  for (const piece of before.found) if (!piece.open) volumes.push(piece.volume);
  return volumes.sort((a, b) => b - a);
}
