/** Triangles whose equal corners are one vertex, and what can be said of them by counting. Shares nothing with core. */
export interface WeldedMesh {
  /** x, y, z a vertex, as doubles that hold the file's float32 values. */
  readonly points: Float64Array;
  /** Three vertex numbers a triangle. */
  readonly triangles: Uint32Array;
}

/** Corners with the same three float32 values become one vertex; nothing is moved or left out. */
export function weld(corners: Float32Array): WeldedMesh {
  const known = new Map<string, number>();
  const points: number[] = [];
  const triangles = new Uint32Array(corners.length / 3);
  for (let c = 0; c < triangles.length; c++) {
    const [x, y, z] = [corners[3 * c], corners[3 * c + 1], corners[3 * c + 2]] as [number, number, number];
    const key = `${x},${y},${z}`;
    let vertex = known.get(key);
    if (vertex === undefined) {
      vertex = known.size;
      known.set(key, vertex);
      points.push(x, y, z);
    }
    triangles[c] = vertex;
  }
  return { points: Float64Array.from(points), triangles };
}

export interface Topology {
  /** Edges of a triangle that is not met by exactly one triangle running the other way. */
  readonly unmatchedEdges: number;
  /** Triangles with two corners in one place. */
  readonly collapsed: number;
  /** Vertices where two fans of triangles meet in a point only. */
  readonly pinched: number;
  readonly components: number;
  /** V − E + F. */
  readonly euler: number;
  /** Handles, summed over the components: a ring has one. */
  readonly genus: number;
}

export function topologyOf({ points, triangles }: WeldedMesh): Topology {
  const n = points.length / 3;
  const directed = new Map<number, number>();
  // The triangle's next vertex round each of its corners: the ring of neighbours of a vertex.
  const rings = Array.from({ length: n }, () => new Map<number, number>());
  const group = Uint32Array.from({ length: n }, (_, i) => i);
  const find = (v: number): number => {
    let root = v;
    while (group[root] !== root) root = group[root] = group[group[root] as number] as number;
    return root;
  };
  let collapsed = 0;
  let unmatchedEdges = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [triangles[t], triangles[t + 1], triangles[t + 2]] as [number, number, number];
    if (a === b || b === c || c === a) collapsed++;
    for (const [from, to, third] of [
      [a, b, c],
      [b, c, a],
      [c, a, b],
    ] as const) {
      const key = from * n + to;
      directed.set(key, (directed.get(key) ?? 0) + 1);
      (rings[from] as Map<number, number>).set(to, third);
    }
    group[find(b)] = find(a);
    group[find(c)] = find(a);
  }
  for (const [key, times] of directed) {
    const [from, to] = [Math.floor(key / n), key % n];
    if (times !== 1 || directed.get(to * n + from) !== 1) unmatchedEdges++;
  }
  let pinched = 0;
  for (const ring of rings) {
    const start = ring.keys().next().value;
    if (start === undefined) continue;
    let steps = 0;
    let at: number | undefined = start;
    do {
      at = ring.get(at as number);
      steps++;
    } while (at !== undefined && at !== start && steps <= ring.size);
    if (at !== start || steps !== ring.size) pinched++;
  }
  let components = 0;
  for (let v = 0; v < n; v++) if (find(v) === v) components++;
  const euler = n - directed.size / 2 + triangles.length / 3;
  return { unmatchedEdges, collapsed, pinched, components, euler, genus: components - euler / 2 };
}

/** Sum of the tetrahedra from the box's middle, mm³. */
export function volumeOf(mesh: WeldedMesh): number {
  const { points: p, triangles } = mesh;
  const { min, max } = boxOf(mesh);
  const [ox, oy, oz] = [0, 1, 2].map((k) => ((min[k] as number) + (max[k] as number)) / 2) as [
    number,
    number,
    number,
  ];
  const at = (corner: number): [number, number, number] => {
    const i = 3 * (triangles[corner] as number);
    return [(p[i] as number) - ox, (p[i + 1] as number) - oy, (p[i + 2] as number) - oz];
  };
  let six = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [[ax, ay, az], [bx, by, bz], [cx, cy, cz]] = [at(t), at(t + 1), at(t + 2)];
    six += ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
  }
  return six / 6;
}

export function boxOf({ points }: WeldedMesh): { readonly min: number[]; readonly max: number[] } {
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < points.length; i++) {
    const v = points[i] as number;
    if (v < (min[i % 3] as number)) min[i % 3] = v;
    if (v > (max[i % 3] as number)) max[i % 3] = v;
  }
  return { min, max };
}
