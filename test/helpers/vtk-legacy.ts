/** A rectilinear grid with scalars by cell. */
export interface VtkGrid {
  readonly title: string;
  readonly coordinates: readonly Float64Array[];
  readonly cells: ReadonlyMap<string, Float32Array>;
}

/**
 * Reads a binary VTK legacy file with a rectilinear grid, after "The VTK User's Guide", Kitware, file formats: five
 * parts, keywords parted by white space, binary values big-endian right after the line's end. Knows nothing of the
 * writer. Throws for all that the format does not allow here.
 */
export function readVtkLegacy(bytes: Uint8Array): VtkGrid {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let at = 0;
  const line = (): string => {
    const end = bytes.indexOf(10, at);
    if (end < 0) throw new Error(`no line at byte ${at}`);
    const text = new TextDecoder('ascii').decode(bytes.subarray(at, end));
    at = end + 1;
    return text;
  };
  const wordsOf = (): string[] => {
    for (;;) {
      if (at >= bytes.length) return [];
      const words = line().trim().split(/\s+/);
      if (words[0] !== '') return words;
    }
  };
  const expect = (words: readonly string[], ...want: readonly string[]): void => {
    want.forEach((w, i) => {
      if (words[i] !== w) throw new Error(`"${words.join(' ')}" where ${want.join(' ')} is due`);
    });
  };
  if (!/^# vtk DataFile Version [23]\.0$/.test(line())) throw new Error('not a legacy file');
  const title = line();
  if (title.length > 255) throw new Error('title over 256 letters with its line end');
  expect(wordsOf(), 'BINARY');
  expect(wordsOf(), 'DATASET', 'RECTILINEAR_GRID');
  const dimensions = wordsOf();
  expect(dimensions, 'DIMENSIONS');
  const counts = dimensions.slice(1).map(Number);
  if (counts.length !== 3) throw new Error('three dimensions');
  const coordinates = ['X', 'Y', 'Z'].map((axis, k) => {
    expect(wordsOf(), `${axis}_COORDINATES`, String(counts[k]), 'double');
    return Float64Array.from({ length: counts[k] as number }, () => {
      at += 8;
      return view.getFloat64(at - 8, false);
    });
  });
  const size = counts.reduce((n, c) => n * (c - 1), 1);
  expect(wordsOf(), 'CELL_DATA', String(size));
  const cells = new Map<string, Float32Array>();
  for (let words = wordsOf(); words.length > 0; words = wordsOf()) {
    expect(words, 'SCALARS');
    expect(words.slice(2), 'float', '1');
    expect(wordsOf(), 'LOOKUP_TABLE', 'default');
    const name = words[1] as string;
    cells.set(
      name,
      Float32Array.from({ length: size }, () => {
        at += 4;
        return view.getFloat32(at - 4, false);
      }),
    );
  }
  return { title, coordinates, cells };
}
