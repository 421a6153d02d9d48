import type { CastFields } from '../freeze/cast-fields.js';

/** What each field of a file is called, and where it comes from. */
const fieldNames = [
  ['metal_share', 'share'],
  ['role', 'role'],
  ['filled_at_s', 'filledAt'],
  ['spent', 'spent'],
  ['stops_at_s', 'stopsAt'],
  ['solid_at_s', 'solidAt'],
  ['gradient_K_per_mm', 'gradient'],
  ['cooling_rate_K_per_s', 'coolingRate'],
  ['niyama', 'niyama'],
  ['face_peak_C', 'facePeak'],
] as const;

/** The second line of the file, at most 255 letters and the line's end. */
const title =
  'Patternwright freezing: mm, s, C, K; role 0 mould 1 casting 2 gating 3 vent; niyama sqrt(K s)/mm; -1 never or not there';

/** What stands for times that never come and for cells outside the mould. */
const never = -1;

/**
 * The fields by cell as a VTK legacy file: rectilinear grid, binary (big-endian), scalars by cell. The open format is in
 * "The VTK User's Guide", Kitware, chapter "File Formats", simple legacy formats, version 3.0. Coordinates are the
 * pattern's, mm. Niyama's criterion is G/√Ṫ, and 0 where there is no metal.
 */
export function writeVtk(fields: CastFields): Uint8Array {
  const { grid, present } = fields;
  const niyama = fields.gradient.map((g, c) => {
    const rate = fields.coolingRate[c]!;
    return rate > 0 ? g / Math.sqrt(rate) : 0;
  });
  const pieces: Uint8Array[] = [
    line('# vtk DataFile Version 3.0'),
    line(title),
    line('BINARY'),
    line('DATASET RECTILINEAR_GRID'),
    line(`DIMENSIONS ${grid.edges.map((e) => e.length).join(' ')}`),
  ];
  grid.edges.forEach((edges, axis) => {
    pieces.push(
      line(`${'XYZ'[axis]}_COORDINATES ${edges.length} double`),
      bigEndian(edges.length, 8, (view, i) => view.setFloat64(8 * i, edges[i]!)),
      line(''),
    );
  });
  pieces.push(line(`CELL_DATA ${grid.size}`));
  for (const [name, key] of fieldNames) {
    const values = key === 'niyama' ? niyama : fields[key];
    pieces.push(
      line(`SCALARS ${name} float 1`),
      line('LOOKUP_TABLE default'),
      bigEndian(grid.size, 4, (view, i) => {
        const v = values[i]!;
        view.setFloat32(4 * i, present[i] === 0 || !Number.isFinite(v) ? never : v);
      }),
      line(''),
    );
  }
  return joined(pieces);
}

const line = (text: string): Uint8Array => new TextEncoder().encode(`${text}\n`);

function bigEndian(count: number, width: number, put: (view: DataView, i: number) => void): Uint8Array {
  const bytes = new Uint8Array(count * width);
  const view = new DataView(bytes.buffer);
  for (let i = 0; i < count; i++) put(view, i);
  return bytes;
}

function joined(pieces: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(pieces.reduce((n, p) => n + p.length, 0));
  let at = 0;
  for (const p of pieces) {
    all.set(p, at);
    at += p.length;
  }
  return all;
}
