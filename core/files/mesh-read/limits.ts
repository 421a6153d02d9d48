const MiB = 2 ** 20;

/** What a mesh file may ask of the machine. */
export interface MeshLimits {
  /** bytes of the file */
  readonly fileBytes: number;
  readonly triangles: number;
  readonly vertices: number;
  /** bytes that a package may unfold to, all its read entries together */
  readonly unfoldedBytes: number;
  /** bytes that one byte of a package may unfold to, beyond `smallEntry` */
  readonly unfolding: number;
  /** files in a package */
  readonly entries: number;
  /** objects placed in a package's build, components counted one by one */
  readonly placings: number;
  /** levels of XML elements, and of components within components */
  readonly depth: number;
  /** corners looked at while faces of many corners are cut into triangles */
  readonly cutting: number;
}

/**
 * - File: a mesh of five million triangles takes 250 MB as binary STL, twice that as most texts.
 * - Triangles: five million are a scan of a hand's size at 0.05 mm; as doubles, each with three corners of its own
 *   (STL), they take 420 MB, which a browser's page can still hold.
 * - Vertices: three to a triangle, as STL has them.
 * - Unfolding: deflate reaches 1032 : 1, on one byte repeated. Meshes come to 10 : 1, regular ones to 40 : 1.
 * - Entries, placings, depth: a hundred times what a plate of parts needs.
 * - Cutting: about a second. A gear's face of 20,000 corners takes 220,000.
 */
export const meshLimits: MeshLimits = {
  fileBytes: 512 * MiB,
  triangles: 5_000_000,
  vertices: 15_000_000,
  unfoldedBytes: 1024 * MiB,
  unfolding: 200,
  entries: 10_000,
  placings: 100_000,
  depth: 64,
  cutting: 5e7,
};

/** Bytes an entry may unfold to whatever the ratio: short XML of one repeated line is no bomb. */
export const smallEntry = 4 * MiB;

/** Bytes of the largest file `readMeshFile` takes. */
export const largestMeshFile = meshLimits.fileBytes;

/** The greatest magnitude of a float32, in which every later state of the mesh is kept: (2 − 2⁻²³) · 2¹²⁷. */
export const greatestFloat32 = 3.4028234663852886e38;
