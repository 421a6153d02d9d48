/** Zip files and 3MF packages put together byte by byte, so that they can lie. */
import { deflateRawSync } from 'node:zlib';
import crc32 from 'crc-32';
import { utf8 } from './samples.js';

export interface EntryLie {
  readonly name: string;
  readonly data: Uint8Array;
  /** In the directory, where the entry itself says `name`. */
  readonly listedName?: string;
  readonly method?: number;
  readonly flags?: number;
  readonly size?: number;
  readonly packedSize?: number;
  readonly crc?: number;
  readonly offset?: number;
  /** instead of what deflate makes of `data` */
  readonly packed?: Uint8Array;
}
export interface EndLie {
  readonly count?: number;
  readonly start?: number;
  readonly size?: number;
  readonly disk?: number;
  readonly comment?: Uint8Array;
  readonly zip64?: boolean;
}

const numbers = (...fields: readonly (readonly [bytes: number, value: number])[]): Uint8Array =>
  Uint8Array.from(
    fields.flatMap(([n, value]) => Array.from({ length: n }, (_, i) => Math.floor(value / 256 ** i) % 256)),
  );
export const join = (...parts: readonly Uint8Array[]): Uint8Array => {
  const all = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
};

/** Layout: APPNOTE.TXT 6.3, from memory; the honest ones are read by fflate too, in the tests. */
export function makeZip(entries: readonly EntryLie[], end: EndLie = {}): Uint8Array {
  const local: Uint8Array[] = [];
  const central: Uint8Array[] = [];
  let at = 0;
  for (const entry of entries) {
    const { data, method = 8, flags = 0 } = entry;
    const packed = entry.packed ?? (method === 8 ? deflateRawSync(data) : data);
    const name = utf8(entry.name);
    const listed = utf8(entry.listedName ?? entry.name);
    const common = (nameLength: number): Uint8Array =>
      numbers(
        [2, 20],
        [2, flags],
        [2, method],
        [4, 0],
        [4, entry.crc ?? crc(data)],
        [4, entry.packedSize ?? packed.length],
        [4, entry.size ?? data.length],
        [2, nameLength],
        [2, 0],
      );
    const piece = join(numbers([4, 0x04034b50]), common(name.length), name, packed);
    central.push(
      join(
        numbers([4, 0x02014b50], [2, 20]),
        common(listed.length),
        numbers([2, 0], [2, 0], [2, 0], [4, 0], [4, entry.offset ?? at]),
        listed,
      ),
    );
    local.push(piece);
    at += piece.length;
  }
  const directory = join(...central);
  const comment = end.comment ?? new Uint8Array();
  return join(
    ...local,
    directory,
    ...(end.zip64 ? [numbers([4, 0x07064b50], [4, 0], [4, at], [4, 0], [4, 1])] : []),
    numbers(
      [4, 0x06054b50],
      [2, end.disk ?? 0],
      [2, 0],
      [2, end.count ?? entries.length],
      [2, end.count ?? entries.length],
      [4, end.size ?? directory.length],
      [4, end.start ?? at],
      [2, comment.length],
    ),
    comment,
  );
}

const crc = (data: Uint8Array): number => crc32.buf(data) >>> 0;

export const coreNamespace = 'http://schemas.microsoft.com/3dmanufacturing/core/2015/02';
export const relationsOf = (...targets: readonly string[]): string =>
  `<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${targets
    .map(
      (target, i) =>
        `<Relationship Id="r${i}" Target="${target}" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/>`,
    )
    .join('')}</Relationships>`;

/** A tetrahedron, turned outward: corners at the origin and one along each axis. */
export const tetrahedron =
  '<mesh><vertices><vertex x="0" y="0" z="0"/><vertex x="1" y="0" z="0"/><vertex x="0" y="1" z="0"/>' +
  '<vertex x="0" y="0" z="1"/></vertices><triangles><triangle v1="0" v2="2" v3="1"/><triangle v1="0" v2="1" v3="3"/>' +
  '<triangle v1="0" v2="3" v3="2"/><triangle v1="1" v2="2" v3="3"/></triangles></mesh>';

export const modelOf = (
  resources = `<object id="1">${tetrahedron}</object>`,
  items = '<item objectid="1"/>',
  attributes = 'unit="millimeter"',
  before = '<?xml version="1.0" encoding="UTF-8"?>',
): string =>
  `${before}<model ${attributes} xmlns="${coreNamespace}" xmlns:p="http://schemas.microsoft.com/3dmanufacturing/production/2015/06">` +
  `<resources>${resources}</resources><build>${items}</build></model>`;

/** A package with this model, and what else is given. */
export const packageOf = (model: string | Uint8Array, ...more: readonly EntryLie[]): Uint8Array =>
  makeZip([
    { name: '_rels/.rels', data: utf8(relationsOf('/3D/3dmodel.model')) },
    { name: '3D/3dmodel.model', data: typeof model === 'string' ? utf8(model) : model },
    ...more,
  ]);
