/** Files that mean harm, or came to it: made here, none kept. */
import { deflateRawSync, gzipSync } from 'node:zlib';
import type { FormatErrorCode } from '../../../../core/files/format-error.js';
import { seeded } from '../../../helpers/seeded.js';
import { box } from '../shapes.js';
import { type ThreeForm, threeForms, utf8, writeByThree } from './samples.js';
import {
  coreNamespace,
  type EntryLie,
  join,
  makeZip,
  modelOf,
  packageOf,
  relationsOf,
  tetrahedron,
} from './zips.js';

/** What may come of it: codes of refusals; 'read' for a sound mesh. */
export type Outcome = FormatErrorCode | 'read';
export interface HostileFile {
  readonly what: string;
  readonly name: string;
  readonly bytes: Uint8Array;
  /** null: any refusal, or a sound mesh */
  readonly outcomes: readonly Outcome[] | null;
}

const file = (
  what: string,
  name: string,
  bytes: Uint8Array | string,
  ...outcomes: Outcome[]
): HostileFile => ({
  what,
  name,
  bytes: typeof bytes === 'string' ? utf8(bytes) : bytes,
  outcomes,
});

const mesh = box([0, 0, 0], [1, 2, 3]);
const written = Object.fromEntries(threeForms.map((form) => [form, writeByThree(mesh, form)])) as Record<
  ThreeForm,
  Uint8Array
>;
const textOf = (form: ThreeForm): string => new TextDecoder().decode(written[form]);
const nameOf = (form: ThreeForm): string => `box.${form.split(' ')[0]}`;
const utf16 = (text: string, high: 0 | 1): Uint8Array =>
  Uint8Array.from({ length: 2 * text.length }, (_, i) => {
    const code = text.charCodeAt(i >> 1);
    return i % 2 === high ? code >> 8 : code & 255;
  });

/** Whole numbers from 0 up to `below`. */
export function randomOf(seed: number): (below: number) => number {
  const random = seeded(seed);
  return (below) => Math.floor(random() * below);
}

/** Cut after every n-th byte, so that there are about as many as asked for. */
const cuts = (
  what: string,
  name: string,
  bytes: Uint8Array,
  count: number,
  ...outcomes: Outcome[]
): HostileFile[] =>
  Array.from({ length: count }, (_, i) => {
    const length = Math.max(2, Math.floor((i * (bytes.length - 1)) / count));
    return file(
      `${what}, cut to ${length} of ${bytes.length} bytes`,
      name,
      bytes.slice(0, length),
      ...outcomes,
    );
  });

const withUint32 = (bytes: Uint8Array, at: number, value: number): Uint8Array => {
  const copy = bytes.slice();
  new DataView(copy.buffer).setUint32(at, value, true);
  return copy;
};
const withFloat32 = (bytes: Uint8Array, at: number, value: number, little = true): Uint8Array => {
  const copy = bytes.slice();
  new DataView(copy.buffer).setFloat32(at, value, little);
  return copy;
};
const bad = [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY] as const;

function binaryStl(): HostileFile[] {
  const whole = written.stl;
  const solid = whole.slice();
  solid.set(utf8('solid of all things   '));
  return [
    ...cuts('binary STL', 'box.stl', whole, 16, 'stl-short'),
    ...[0, 1, 11].map((n) =>
      file(`binary STL that counts ${n} of 12`, 'box.stl', withUint32(whole, 80, n), 'stl-count'),
    ),
    ...[13, 10_000_000, 2 ** 31, 2 ** 32 - 1].map((n) =>
      file(`binary STL that counts ${n} of 12`, 'box.stl', withUint32(whole, 80, n), 'stl-short'),
    ),
    file(
      'ten million triangles in 84 bytes',
      'box.stl',
      withUint32(whole.slice(0, 84), 80, 10_000_000),
      'stl-short',
    ),
    ...bad.flatMap((value, i) =>
      [0, 5, 11].map((t) =>
        file(
          `binary STL with ${value}`,
          'box.stl',
          withFloat32(whole, 84 + 50 * t + 12 + 4 * ((i + t / 3) | 0), value),
          'stl-number',
        ),
      ),
    ),
    file('binary STL with a normal of NaN', 'box.stl', withFloat32(whole, 84, Number.NaN), 'read'),
    file('binary STL without triangles', 'box.stl', withUint32(whole.slice(0, 84), 80, 0), 'mesh-empty'),
    file('binary STL with a byte too many', 'box.stl', join(whole, Uint8Array.of(0)), 'stl-count'),
    file('binary STL that begins with "solid"', 'box.stl', solid, 'read'),
    ...cuts('binary STL that begins with "solid"', 'box.stl', solid, 6, 'stl-short', 'stl-line', 'file-kind'),
    file('binary STL called OBJ', 'box.obj', whole, 'read'),
    file('binary STL called 3MF', 'box.3mf', whole, 'read'),
    file('binary STL cut short and called PLY', 'box.ply', whole.slice(0, 300), 'file-kind'),
    file('zeros called STL', 'box.stl', new Uint8Array(1000), 'stl-count'),
    file('255 all over called STL', 'box.stl', new Uint8Array(1000).fill(255), 'stl-short'),
  ];
}

function textStl(): HostileFile[] {
  const whole = textOf('stl text');
  const change = (what: string, from: string | RegExp, to: string, ...outcomes: Outcome[]): HostileFile =>
    file(`text STL ${what}`, 'box.stl', whole.replace(from, to), ...outcomes);
  const firstVertex = /vertex \S+ \S+ \S+/;
  return [
    ...cuts('text STL', 'box.stl', utf8(whole), 16, 'stl-short', 'stl-line', 'stl-number'),
    ...['nan', 'NaN', '-nan', '-nan(ind)', 'inf', '-Infinity', '1.#QNAN', '1e39', '-1e300', '1e99999'].map(
      (n) => change(`with ${n}`, firstVertex, `vertex 0 ${n} 0`, 'mesh-number'),
    ),
    ...['1,5', '0x10', 'one', '1.2.3', '½', '--1', '9'.repeat(1000)].map((n) =>
      change(`with ${n.slice(0, 9)}`, firstVertex, `vertex 0 ${n} 0`, 'stl-number'),
    ),
    change('with two coordinates', firstVertex, 'vertex 0 0', 'stl-number'),
    change('with four coordinates', firstVertex, 'vertex 0 0 0 0', 'stl-line'),
    change('with four vertices', firstVertex, 'vertex 0 0 0\nvertex 0 0 0', 'stl-line'),
    change('without endfacet', 'endfacet', '', 'stl-line'),
    change('without outer', 'outer', '', 'stl-line'),
    change('without end', /endsolid.*$/s, '', 'stl-short'),
    change('with more after its end', /$/, '\nfacet', 'stl-line'),
    file('text STL without facets', 'box.stl', 'solid box\nendsolid box\n', 'mesh-empty'),
    file('text STL of one word', 'box.stl', 'solid', 'stl-short', 'stl-line'),
    file('text STL with a name of a million letters', 'box.stl', `solid ${'a'.repeat(1e6)}`, 'stl-short'),
    file('text STL with a million blanks', 'box.stl', `solid a\n${' \n'.repeat(5e5)}`, 'stl-short'),
    file('text STL of solids alone', 'box.stl', 'solid\nendsolid\n'.repeat(1e4), 'mesh-empty'),
    file('text STL of solid after solid', 'box.stl', 'solid '.repeat(1e4), 'stl-short', 'stl-line'),
    file('text STL, CR LF', 'box.stl', whole.replaceAll('\n', '\r\n'), 'read'),
    file('text STL, CR', 'box.stl', whole.replaceAll('\n', '\r'), 'read'),
    file('text STL with a byte order mark', 'box.stl', `\ufeff${whole}`, 'read'),
    file('text STL in UTF-16', 'box.stl', utf16(`\ufeff${whole}`, 1), 'read'),
    file('text STL in UTF-16 the other way', 'box.stl', utf16(`\ufeff${whole}`, 0), 'read'),
    file(
      'text STL in UTF-16 that loses a byte',
      'box.stl',
      utf16(`\ufeff${whole}`, 1).slice(0, -1001),
      'stl-short',
      'stl-line',
      'stl-number',
    ),
    file('text STL in UTF-16, mark alone', 'box.stl', Uint8Array.of(255, 254), 'stl-short', 'file-kind'),
    file(
      'text STL in UTF-32',
      'box.stl',
      Uint8Array.from(`\ufeff${whole}`, () => 0)
        .with(0, 255)
        .with(1, 254),
      'file-kind',
    ),
    file('text STL with zeros in it', 'box.stl', whole.replace('outer', 'ou\0er'), 'stl-line', 'stl-short'),
  ];
}

/** One face: teeth of one length, and a back that lies on their roots. */
const comb = (corners: number): string =>
  [
    ...Array.from({ length: corners }, (_, i) => `v ${i} ${i % 2 ? 1 : 977} 0`),
    `v ${corners} 0 0\nv -1 0 0`,
    `f ${Array.from({ length: corners + 2 }, (_, i) => i + 1).join(' ')}`,
  ].join('\n');

function obj(): HostileFile[] {
  const whole = textOf('obj');
  const plain = 'v 0 0 0\nv 1 0 0\nv 0 1 0\n';
  return [
    ...cuts(
      'OBJ',
      'box.obj',
      utf8(whole),
      12,
      'mesh-empty',
      'mesh-index',
      'mesh-face',
      'obj-line',
      'file-kind',
      'read',
    ),
    ...['nan', 'inf', '1e39', '-1e400'].map((n) =>
      file(`OBJ with ${n}`, 'a.obj', `${plain}v 0 ${n} 0\nf 1 2 4`, 'mesh-number'),
    ),
    ...['1,5', 'x', '', '1e'].map((n) =>
      file(`OBJ with "${n}"`, 'a.obj', `${plain}v 0 0 ${n}\nf 1 2 4`, 'obj-line'),
    ),
    ...[
      'f 1 2 4',
      'f 0 1 2',
      'f 1 2 -4',
      'f 1 2 999999999999999',
      'f 4294967297 1 2',
      'f 1 2 2147483648',
    ].map((f) => file(`OBJ with ${f}`, 'a.obj', `${plain}${f}`, 'mesh-index')),
    ...[
      'f 1 2 1e9',
      'f 1 2 9999999999999999',
      'f a b c',
      'f 1 2 /3',
      'f 1 2 3.0',
      'f 1 2 --1',
      'f 1 2 +3',
    ].map((f) => file(`OBJ with ${f}`, 'a.obj', `${plain}${f}`, 'obj-line')),
    ...['f', 'f 1', 'f 1 2', 'f 1 2 #3'].map((f) =>
      file(`OBJ with ${f}`, 'a.obj', `${plain}${f}\n`, 'mesh-face'),
    ),
    file('OBJ of points', 'a.obj', plain, 'mesh-empty'),
    file('OBJ with faces before vertices', 'a.obj', `f 1 2 3\n${plain}`, 'read'),
    file(
      'OBJ with a face of a million corners',
      'a.obj',
      `${plain}f ${'1 2 3 '.repeat(333_333)}`,
      'mesh-face',
    ),
    file('OBJ with a comb of 6,000 corners', 'a.obj', comb(6000), 'read'),
    file('OBJ with a comb of 40,000 corners', 'a.obj', comb(40_000), 'mesh-face'),
    file('OBJ with a triangle of one corner', 'a.obj', `${plain}f 1 1 1`, 'read'),
    file('OBJ of a million line ends', 'a.obj', '\n'.repeat(1e6), 'file-kind', 'mesh-empty'),
    file('OBJ of one long comment', 'a.obj', `#${'x'.repeat(1e6)}`, 'mesh-empty'),
    file('OBJ of backslashes', 'a.obj', `v 0 0 \\\n${'\\\n'.repeat(1e5)}`, 'obj-line'),
    file('OBJ with a curved surface', 'a.obj', `${plain}surf 0 1 0 1 1 2 3`, 'obj-line'),
    file('OBJ that calls another file', 'a.obj', `${plain}call /etc/passwd`, 'obj-line'),
    file('OBJ with a library by a path trick', 'a.obj', `mtllib ../../etc/passwd\n${plain}f 1 2 3`, 'read'),
    file('OBJ, CR LF', 'a.obj', `${plain}f 1 2 3\n`.replaceAll('\n', '\r\n'), 'read'),
    file('OBJ in UTF-16', 'a.obj', utf16(`\ufeff${plain}f 1 2 3\n`, 0), 'read'),
    file('OBJ called STL', 'a.stl', `${plain}f 1 2 3\n`, 'read'),
    file('prose called OBJ', 'a.obj', 'Dear foundry,\nhere is the part.\n', 'obj-line'),
    file('zeros called OBJ', 'a.obj', new Uint8Array(100), 'file-kind', 'mesh-empty'),
  ];
}

function ply(): HostileFile[] {
  const text = textOf('ply text');
  const header = (format: string, vertices: string, faces: string): string =>
    `ply\nformat ${format} 1.0\nelement vertex ${vertices}\nproperty float x\nproperty float y\nproperty float z\n` +
    `element face ${faces}\nproperty list uchar int vertex_index\nend_header\n`;
  const ascii = (vertices: string, faces: string, rows = '0 0 0\n1 0 0\n0 1 0\n3 0 1 2\n'): string =>
    header('ascii', vertices, faces) + rows;
  const lies = ['10000000', '4294967295', '9007199254740993', '1e9', '-1', 'nan', '0x3', ''];
  const first = utf8(header('binary_little_endian', '3', '1'));
  const binary = join(first, new Uint8Array(36), Uint8Array.of(3), new Uint8Array(12));
  const listCount = (type: string, n: number): Uint8Array => {
    const view = new DataView(new ArrayBuffer(60));
    if (type === 'int') view.setInt32(36, n, true);
    else if (type === 'float') view.setFloat32(36, n, true);
    else view.setUint32(36, n, true);
    return join(
      utf8(header('binary_little_endian', '3', '1').replace('uchar int', `${type} int`)),
      new Uint8Array(view.buffer),
    );
  };
  return [
    ...cuts(
      'ascii PLY',
      'box.ply',
      utf8(text),
      14,
      'ply-short',
      'ply-header',
      'file-kind',
      'ply-value',
      'mesh-face',
      'mesh-index',
    ),
    ...cuts('binary PLY', 'box.ply', written['ply little'], 14, 'ply-short', 'ply-header', 'file-kind'),
    ...cuts('big-endian PLY', 'box.ply', written['ply big'], 8, 'ply-short', 'ply-header', 'file-kind'),
    ...lies.map((n) =>
      file(`PLY with "${n}" vertices`, 'a.ply', ascii(n, '1'), 'ply-short', 'ply-header', 'mesh-large'),
    ),
    ...lies.map((n) =>
      file(`PLY with "${n}" faces`, 'a.ply', ascii('3', n), 'ply-short', 'ply-header', 'mesh-large'),
    ),
    ...['10000000', '4294967295'].map((n) =>
      file(
        `binary PLY with ${n} vertices`,
        'a.ply',
        join(utf8(header('binary_big_endian', n, '1')), new Uint8Array(49)),
        'ply-short',
        'mesh-large',
      ),
    ),
    file(
      'PLY with fewer vertices than it has',
      'a.ply',
      ascii('2', '1'),
      'mesh-face',
      'mesh-index',
      'ply-count',
    ),
    file('PLY with fewer faces than it has', 'a.ply', ascii('3', '0'), 'ply-count'),
    file('PLY without anything', 'a.ply', ascii('0', '0', ''), 'mesh-empty'),
    file('PLY with points alone', 'a.ply', ascii('3', '0', '0 0 0\n1 0 0\n0 1 0\n'), 'mesh-empty'),
    file('PLY with nan', 'a.ply', ascii('3', '1', '0 nan 0\n1 0 0\n0 1 0\n3 0 1 2\n'), 'mesh-number'),
    file('PLY with 1e39', 'a.ply', ascii('3', '1', '0 1e39 0\n1 0 0\n0 1 0\n3 0 1 2\n'), 'mesh-number'),
    ...bad.map((x) =>
      file(`binary PLY with ${x}`, 'a.ply', withFloat32(binary, first.length + 4, x), 'mesh-number'),
    ),
    ...['3 0 1 3', '3 0 1 -1', '3 0 1 x', '3 0 1 4294967296'].map((f) =>
      file(`PLY with the face ${f}`, 'a.ply', ascii('3', '1', `0 0 0\n1 0 0\n0 1 0\n${f}\n`), 'mesh-index'),
    ),
    ...['0', '2 0 1'].map((f) =>
      file(`PLY with the face ${f}`, 'a.ply', ascii('3', '1', `0 0 0\n1 0 0\n0 1 0\n${f}\n`), 'mesh-face'),
    ),
    ...['4294967295 0 1 2', '1e300 0 1 2', '4 0 1 2'].map((f) =>
      file(`PLY with the face ${f}`, 'a.ply', ascii('3', '1', `0 0 0\n1 0 0\n0 1 0\n${f}\n`), 'ply-short'),
    ),
    ...['-3 0 1 2', 'three 0 1 2', '2.5 0 1 2'].map((f) =>
      file(`PLY with the face ${f}`, 'a.ply', ascii('3', '1', `0 0 0\n1 0 0\n0 1 0\n${f}\n`), 'ply-value'),
    ),
    file('binary PLY with a list of four milliard', 'a.ply', listCount('uint', 2 ** 32 - 1), 'ply-short'),
    file('binary PLY with a list of −1', 'a.ply', listCount('int', -1), 'ply-value'),
    file('binary PLY with a list of 2.5', 'a.ply', listCount('float', 2.5), 'ply-value'),
    file('binary PLY with a list of NaN', 'a.ply', listCount('float', Number.NaN), 'ply-value'),
    file('PLY with a header without end', 'a.ply', `ply\n${'comment x\n'.repeat(1e5)}`, 'ply-header'),
    file('PLY with a line without end', 'a.ply', `ply\ncomment ${'x'.repeat(1e6)}`, 'ply-header'),
    file(
      'PLY with ten thousand properties',
      'a.ply',
      `ply\nformat ascii 1.0\nelement vertex 1\n${'property float x\n'.repeat(1e4)}`,
      'ply-header',
    ),
    file(
      'PLY with elements of nothing',
      'a.ply',
      ascii('3', '1').replace('element vertex', 'element nothing 4000000000\nelement vertex'),
      'read',
    ),
    file(
      'PLY of an unknown type',
      'a.ply',
      ascii('3', '1').replace('float y', 'constructor y'),
      'ply-header',
    ),
    file('PLY 2.0', 'a.ply', ascii('3', '1').replace('1.0', '2.0'), 'ply-header'),
    file('PLY, CR LF', 'a.ply', ascii('3', '1').replaceAll('\n', '\r\n'), 'read'),
    file('PLY in UTF-16', 'a.ply', utf16(`\ufeff${ascii('3', '1')}`, 1), 'read'),
    file('PLY called 3MF', 'a.3mf', ascii('3', '1'), 'read'),
    file('prose called PLY', 'a.ply', 'play it again\n', 'file-kind'),
  ];
}

const honest = packageOf(modelOf());
const withRelations = (relations: string, ...more: readonly EntryLie[]): Uint8Array =>
  makeZip([
    { name: '_rels/.rels', data: utf8(relations) },
    { name: '3D/3dmodel.model', data: utf8(modelOf()) },
    ...more,
  ]);
const modelEntry = (lie: Partial<EntryLie>): Uint8Array =>
  makeZip([
    { name: '_rels/.rels', data: utf8(relationsOf('/3D/3dmodel.model')) },
    { name: '3D/3dmodel.model', data: utf8(modelOf()), ...lie },
  ]);

function packages(): HostileFile[] {
  const names = [
    '../evil.model',
    '3D/../../evil.model',
    '/etc/passwd',
    '3D\\3dmodel.model',
    'C:/evil.model',
    'file:evil.model',
    '3D//evil.model',
    '3D/./evil.model',
    'evil\0.model',
    'evil\n.model',
    '',
    '/',
    '..',
  ];
  const targets = [
    '../3dmodel.model',
    '/../../etc/passwd',
    'http://example.org/m.model',
    'file:///etc/passwd',
    '/3D/%2e%2e/m.model',
    '/3D\\m.model',
    '/%zz',
    '',
    '//3D/3dmodel.model',
    '/3D/%00.model',
  ];
  const zeros = new Uint8Array(40 * 2 ** 20).fill(0x20);
  const packedZeros = deflateRawSync(zeros);
  const blanks = (n: number): string => modelOf().replace('<build>', `${' '.repeat(n)}<build>`);
  return [
    ...cuts('3MF', 'a.3mf', honest, 20, 'zip-short', 'file-kind'),
    file('empty zip', 'a.3mf', makeZip([]), 'three-mf-part'),
    file('zip that is no 3MF', 'a.3mf', makeZip([{ name: 'a.stl', data: written.stl }]), 'three-mf-part'),
    file(
      'zip of an OBJ, called OBJ',
      'a.obj',
      makeZip([{ name: 'a.obj', data: written.obj }]),
      'three-mf-part',
    ),
    ...[0, 1, 3, 60_000].map((count) =>
      file(
        `zip that counts ${count} of 2`,
        'a.3mf',
        makeZip(
          [
            { name: '_rels/.rels', data: utf8(relationsOf('/3D/3dmodel.model')) },
            { name: '3D/3dmodel.model', data: utf8(modelOf()) },
          ],
          { count },
        ),
        'zip-damaged',
        'zip-size',
        'three-mf-part',
      ),
    ),
    file(
      'zip whose directory is elsewhere',
      'a.3mf',
      makeZip([{ name: 'a', data: utf8('a') }], { start: 1_000_000 }),
      'zip-damaged',
    ),
    file(
      'zip whose directory is the file',
      'a.3mf',
      makeZip([{ name: 'a', data: utf8('a') }], { start: 0 }),
      'zip-damaged',
    ),
    file(
      'zip with a directory of 4 GB',
      'a.3mf',
      makeZip([{ name: 'a', data: utf8('a') }], { size: 2 ** 32 - 2 }),
      'zip-damaged',
    ),
    file('zip64', 'a.3mf', makeZip([{ name: 'a', data: utf8('a') }], { zip64: true }), 'zip-kind'),
    file(
      'zip64 by its count',
      'a.3mf',
      makeZip([{ name: 'a', data: utf8('a') }], { count: 65535 }),
      'zip-kind',
    ),
    file('zip64 by a size', 'a.3mf', modelEntry({ size: 2 ** 32 - 1 }), 'zip-kind'),
    file('zip in pieces', 'a.3mf', makeZip([{ name: 'a', data: utf8('a') }], { disk: 3 }), 'zip-kind'),
    file('encrypted', 'a.3mf', modelEntry({ flags: 1 }), 'zip-kind'),
    ...[1, 6, 9, 12, 14, 93, 99].map((method) =>
      file(`packed by method ${method}`, 'a.3mf', modelEntry({ method }), 'zip-kind'),
    ),
    file('entry beyond the file', 'a.3mf', modelEntry({ offset: 2 ** 31 }), 'zip-damaged'),
    file('entry that is another', 'a.3mf', modelEntry({ offset: 0 }), 'zip-damaged'),
    file(
      'entry of another name',
      'a.3mf',
      modelEntry({ name: '3D/other.model', listedName: '3D/3dmodel.model' }),
      'zip-damaged',
    ),
    file('entry larger than the file', 'a.3mf', modelEntry({ packedSize: 2 ** 31 }), 'zip-damaged'),
    file('entry packed to nothing', 'a.3mf', modelEntry({ packed: new Uint8Array() }), 'zip-damaged'),
    file('entry of junk', 'a.3mf', modelEntry({ packed: new Uint8Array(500).fill(0xa7) }), 'zip-damaged'),
    file('entry with a wrong checksum', 'a.3mf', modelEntry({ crc: 1 }), 'zip-damaged'),
    file('entry that says less', 'a.3mf', modelEntry({ size: 10 }), 'zip-damaged'),
    file('entry that says more', 'a.3mf', modelEntry({ size: 3_000_000 }), 'zip-damaged'),
    file('stored entry of two sizes', 'a.3mf', modelEntry({ method: 0, size: 10 }), 'zip-damaged'),
    file('bomb that says its size', 'a.3mf', modelEntry({ data: zeros, packed: packedZeros }), 'zip-size'),
    file(
      'bomb that hides its size',
      'a.3mf',
      modelEntry({ data: zeros, packed: packedZeros, size: 2000 }),
      'zip-damaged',
    ),
    file('bomb that says 3 GB', 'a.3mf', modelEntry({ packed: packedZeros, size: 3 * 2 ** 30 }), 'zip-size'),
    file(
      'bomb in the relationships',
      'a.3mf',
      makeZip([{ name: '_rels/.rels', data: zeros, packed: packedZeros }]),
      'zip-size',
    ),
    file(
      'bomb in a file that is not read',
      'a.3mf',
      packageOf(modelOf(), { name: 'x', data: new Uint8Array(), packed: packedZeros, size: 2 ** 31 }),
      'read',
    ),
    file('bomb of blanks within the ratio', 'a.3mf', packageOf(blanks(4_000_000)), 'read', 'three-mf-xml'),
    file(
      'blanks without end',
      'a.3mf',
      modelEntry({ data: utf8(blanks(5_000_000)), method: 0 }),
      'three-mf-xml',
    ),
    ...names.map((name) =>
      file(
        `entry named ${JSON.stringify(name)}`,
        'a.3mf',
        packageOf(modelOf(), { name, data: utf8('x') }),
        'zip-path',
      ),
    ),
    file(
      'an entry twice',
      'a.3mf',
      packageOf(modelOf(), { name: '3D/3dmodel.model', data: utf8(modelOf()) }),
      'zip-path',
    ),
    file(
      'an entry twice but for case',
      'a.3mf',
      packageOf(modelOf(), { name: '3d/3DMODEL.model', data: utf8(modelOf()) }),
      'zip-path',
    ),
    ...targets.map((target) =>
      file(`model at ${JSON.stringify(target)}`, 'a.3mf', withRelations(relationsOf(target)), 'zip-path'),
    ),
    file('model that is not there', 'a.3mf', withRelations(relationsOf('/3D/other.model')), 'three-mf-part'),
    file(
      'model at a folder',
      'a.3mf',
      withRelations(relationsOf('/3D/'), { name: '3D/', data: new Uint8Array() }),
      'zip-path',
      'three-mf-part',
      'three-mf-xml',
    ),
    file(
      'two models',
      'a.3mf',
      withRelations(relationsOf('/3D/3dmodel.model', '/3D/3dmodel.model')),
      'three-mf-part',
    ),
    file(
      'model outside',
      'a.3mf',
      withRelations(relationsOf('/a').replace('Target=', 'TargetMode="External" Target=')),
      'zip-path',
    ),
    file('relationships that are none', 'a.3mf', withRelations('<a/>'), 'three-mf-part'),
    file('relationships that are no XML', 'a.3mf', withRelations('a'), 'three-mf-xml'),
    file(
      'relationships with a DOCTYPE',
      'a.3mf',
      withRelations(`<!DOCTYPE a>${relationsOf('/a')}`),
      'three-mf-doctype',
    ),
    file(
      '10,001 entries',
      'a.3mf',
      makeZip(
        Array.from({ length: 10_001 }, (_, i) => ({ name: `f${i}`, data: new Uint8Array(), method: 0 })),
      ),
      'zip-size',
    ),
    file('junk before the zip', 'a.3mf', join(utf8('PK\u0003\u0004junk'), honest), 'zip-damaged'),
    file('junk after the zip', 'a.3mf', join(honest, utf8('junk')), 'zip-short'),
    file('3MF called STL', 'a.stl', honest, 'read'),
  ];
}

function models(): HostileFile[] {
  const model = (what: string, text: string | Uint8Array, ...outcomes: Outcome[]): HostileFile =>
    file(what, 'a.3mf', packageOf(text), ...outcomes);
  const object = (id: number | string, inside: string): string => `<object id="${id}">${inside}</object>`;
  const tenfold = (id: number): string =>
    object(id + 1, `<components>${`<component objectid="${id}"/>`.repeat(10)}</components>`);
  const levels = (n: number): number[] => Array.from({ length: n }, (_, i) => i + 1);
  const chain = (n: number): string =>
    levels(n)
      .map((id) => object(id + 1, `<components><component objectid="${id}"/></components>`))
      .join('');
  const laughs = levels(9)
    .map((i) => `<!ENTITY l${i} "${`&l${i - 1};`.repeat(10)}">`)
    .join('');
  const change = (what: string, from: string, to: string, ...outcomes: Outcome[]): HostileFile =>
    model(what, modelOf().replace(from, to), ...outcomes);
  const attributes = levels(1e5)
    .map((i) => `a${i}="0"`)
    .join(' ');
  return [
    model(
      'entities in entities',
      modelOf(
        object(1, tetrahedron.replace('x="0"', 'x="&l9;"')),
        undefined,
        undefined,
        `<!DOCTYPE m [<!ENTITY l0 "0">${laughs}]>`,
      ),
      'three-mf-doctype',
    ),
    model(
      'entity from outside',
      modelOf(undefined, undefined, undefined, '<!DOCTYPE m [<!ENTITY x SYSTEM "file:///etc/passwd">]>'),
      'three-mf-doctype',
    ),
    model(
      'DOCTYPE without end',
      `<!DOCTYPE m [${'<!ENTITY a "b">'.repeat(1000)}`,
      'three-mf-xml',
      'three-mf-doctype',
    ),
    model(
      'DOCTYPE in UTF-16',
      utf16(`\ufeff${modelOf(undefined, undefined, undefined, '<!DOCTYPE m>')}`, 1),
      'three-mf-doctype',
    ),
    change('unknown entity', 'x="0"', 'x="&bomb;"', 'three-mf-xml'),
    model(
      'copies of copies of copies',
      modelOf(object(1, tetrahedron) + levels(9).map(tenfold).join(''), '<item objectid="10"/>'),
      'mesh-large',
    ),
    model(
      'copies of nothing',
      modelOf(
        object(1, '') + object(99, tetrahedron) + levels(9).map(tenfold).join(''),
        '<item objectid="99"/><item objectid="10"/>',
      ),
      'mesh-large',
    ),
    model(
      'an object that holds itself',
      modelOf(object(1, '<components><component objectid="1"/></components>')),
      'three-mf-object',
    ),
    model(
      'two objects that hold each other',
      modelOf(
        object(1, '<components><component objectid="2"/></components>') +
          object(2, '<components><component objectid="1"/></components>'),
      ),
      'three-mf-object',
    ),
    model('components 64 deep', modelOf(object(1, tetrahedron) + chain(63), '<item objectid="64"/>'), 'read'),
    model(
      'components 65 deep',
      modelOf(object(1, tetrahedron) + chain(64), '<item objectid="65"/>'),
      'three-mf-object',
    ),
    model(
      'components 5,000 deep',
      modelOf(object(1, tetrahedron) + chain(5000), '<item objectid="5001"/>'),
      'three-mf-object',
    ),
    model(
      'components 5,000 deep, found from below',
      modelOf(
        object(1, tetrahedron) + chain(5000),
        levels(5001)
          .map((id) => `<item objectid="${id}"/>`)
          .join(''),
      ),
      'three-mf-object',
    ),
    model(
      'elements 100,000 deep',
      `<?xml version="1.0"?><model xmlns="${coreNamespace}">${'<a>'.repeat(1e5)}`,
      'three-mf-xml',
    ),
    model(
      'elements 100,000 deep, closed',
      modelOf(`${'<x>'.repeat(1e5)}${'</x>'.repeat(1e5)}`),
      'three-mf-xml',
    ),
    change('100,000 attributes', '<item', `<item ${attributes}`, 'read', 'three-mf-xml'),
    change('an attribute twice', '<item', '<item objectid="1"', 'three-mf-xml'),
    change('a prefix of nothing', '<item', '<q:item', 'three-mf-xml'),
    change('an attribute without end', 'x="0"', `x="${'0'.repeat(5e6)}`, 'three-mf-xml', 'zip-size'),
    change('a coordinate of a million digits', 'x="0"', `x="${'1'.repeat(1e6)}"`, 'mesh-number'),
    change('a comment without end', '<build>', '<build><!--', 'three-mf-xml'),
    change('text where none belongs', '</model>', '</model>x', 'three-mf-xml'),
    change('a second root', '</model>', '</model><model/>', 'three-mf-xml'),
    change('a zero byte', '<build>', '<build>\0', 'three-mf-xml'),
    ...['nan', 'inf', 'INF', '-Infinity', '1e39'].map((n) =>
      change(`coordinate ${n}`, 'x="0"', `x="${n}"`, 'mesh-number'),
    ),
    ...['', 'x', '1,5', '0x1', '1 2'].map((n) =>
      change(`coordinate "${n}"`, 'x="0"', `x="${n}"`, 'three-mf-xml'),
    ),
    ...['4', '-1', '1.5', '', 'x', '4294967296', '1e1', '99999999999999999999'].map((n) =>
      change(`corner "${n}"`, 'v1="0"', `v1="${n}"`, 'mesh-index'),
    ),
    ...[
      '1',
      '',
      'x '.repeat(12),
      '1 '.repeat(12),
      '0 '.repeat(12),
      '1 0 0 0 1 0 0 0 1 0 0 inf',

      '1 '.repeat(1e5),
    ].map((t) =>
      change(`transform "${t.slice(0, 20)}"`, '<item', `<item transform="${t}"`, 'three-mf-transform'),
    ),
    change(
      'a transform beyond all doubles',
      '<item',
      '<item transform="1e300 0 0 0 1e300 0 0 0 1e300 0 0 0"',
      'mesh-number',
    ),
    change(
      'a transform out of all size',
      '<item',
      '<item transform="1e38 0 0 0 1e38 0 0 0 9 1e39 0 0"',
      'mesh-number',
    ),
    change('an item without object', 'objectid="1"', '', 'three-mf-object'),
    change('an item of another object', 'objectid="1"', 'objectid="7"', 'three-mf-object'),
    change('an object without id', 'id="1"', '', 'three-mf-object'),
    model(
      'two objects of one id',
      modelOf(object(1, tetrahedron) + object('01', tetrahedron)),
      'three-mf-object',
    ),
    model('two meshes in an object', modelOf(object(1, tetrahedron + tetrahedron)), 'three-mf-object'),
    change('vertices twice', '<triangles>', '<vertices/><triangles>', 'three-mf-object'),
    model(
      'a mesh without triangles',
      modelOf(object(1, '<mesh><vertices/><triangles/></mesh>')),
      'mesh-empty',
    ),
    model(
      'triangles without vertices',
      modelOf(object(1, '<mesh><triangles><triangle v1="0" v2="1" v3="2"/></triangles></mesh>')),
      'mesh-index',
    ),
    model('a model without build', `<model xmlns="${coreNamespace}"/>`, 'mesh-empty'),
    model('a model of another kind', '<model xmlns="urn:x"/>', 'three-mf-xml'),
    model('a model that is empty', '', 'three-mf-xml'),
    model('a model that is a picture', Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0, 1, 2, 3), 'three-mf-xml'),
    model(
      '200,000 empty objects',
      modelOf(
        levels(2e5)
          .map((id) => `<object id="${id}"/>`)
          .join(''),
      ),
      'mesh-large',
    ),
    model('200,000 items', modelOf(undefined, '<item objectid="1"/>'.repeat(2e5)), 'mesh-large', 'zip-size'),
    change('a part by a path trick', '<item', '<item p:path="/../../etc/passwd"', 'zip-path'),
    change('a part that is not there', '<item', '<item p:path="/3D/no.model"', 'three-mf-part'),
    change('a part that is the relationships', '<item', '<item p:path="/_rels/.rels"', 'three-mf-xml'),
    model('an unknown unit', modelOf(undefined, undefined, 'unit="cubit"'), 'three-mf-unit'),
    model(
      'an extension that is needed',
      modelOf(undefined, undefined, 'xmlns:b="urn:b" requiredextensions="b"'),
      'three-mf-extension',
    ),
  ];
}

function otherKinds(): HostileFile[] {
  const starts: readonly (readonly [string, Uint8Array | string])[] = [
    ['gzip', gzipSync(written.stl)],
    ['bzip2', 'BZh91AY&SY'],
    ['PDF', '%PDF-1.7\n'],
    ['PNG', Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10)],
    ['JPEG', Uint8Array.of(0xff, 0xd8, 0xff, 0xe0)],
    ['STEP', 'ISO-10303-21;\nHEADER;\n'],
    ['glTF', 'glTF\u0002\0\0\0'],
    ['VRML', '#VRML V2.0 utf8\n'],
    ['OFF', 'OFF\n8 6 12\n'],
    ['web page', '<!DOCTYPE html><html><body>404</body></html>'],
    ['XML', modelOf()],
    ['JSON', '{"v": [0, 0, 0]}'],
  ];
  return [
    ...starts.flatMap(([what, bytes]) =>
      ['a.stl', 'a.obj'].map((name) => file(`${what} called ${name}`, name, bytes, 'file-kind')),
    ),
    ...['a.stl', 'a.3mf', 'a.obj', 'a.ply', 'a', ''].map((name) =>
      file(`nothing called "${name}"`, name, new Uint8Array(), 'file-empty'),
    ),
    ...['a.3mf', 'a.ply', 'a.step', 'a'].map((name) =>
      file(`prose called "${name}"`, name, 'solidly built\n', 'file-kind'),
    ),
    file('prose called a.stl', 'a.stl', 'Dear foundry,\nhere is the part.\n'.repeat(9), 'stl-line'),
    file('one byte', 'a.stl', Uint8Array.of(115), 'mesh-empty'),
    file('a name that is a path trick', '../../etc/passwd', written.stl, 'read'),
  ];
}

/** Random bytes, and whole files with some bytes changed, left out, doubled or put elsewhere. */
function chance(): HostileFile[] {
  const any = (what: string, name: string, bytes: Uint8Array): HostileFile => ({
    what,
    name,
    bytes,
    outcomes: null,
  });
  const random = randomOf(8);
  const noise = Array.from({ length: 24 }, (_, i) =>
    any(
      `random bytes ${i}`,
      `a.${['stl', '3mf', 'obj', 'ply'][i % 4]}`,
      Uint8Array.from({ length: 1 + random(2000) }, () => random(256)),
    ),
  );
  const begun = [
    'solid a\n',
    'ply\nformat ascii 1.0\n',
    'PK\u0003\u0004',
    'v 0 0 0\n',
    '\ufeff',
    '\ufeffsolid ',
    '# a\n',
    'ply\r',
  ].map((start, i) =>
    any(
      `random bytes after ${JSON.stringify(start)}`,
      'a.stl',
      join(
        utf8(start),
        Uint8Array.from({ length: 300 + i }, () => random(256)),
      ),
    ),
  );
  const bases: readonly (readonly [string, Uint8Array])[] = [
    ...threeForms.map((form) => [nameOf(form), written[form]] as const),
    ['box.3mf', honest],
    ['stored.3mf', modelEntry({ method: 0 })],
  ];
  const changed = bases.flatMap(([name, whole]) =>
    Array.from({ length: 16 }, (_, i) => any(`${name} changed at random, ${i}`, name, mutate(whole, random))),
  );
  return [...noise, ...begun, ...changed];
}

export function mutate(whole: Uint8Array, random: (below: number) => number): Uint8Array {
  let bytes: Uint8Array = whole.slice();
  for (let n = 1 + random(4); n > 0; n--) {
    const at = random(bytes.length);
    const length = 1 + random(Math.min(40, bytes.length - at));
    switch (random(5)) {
      case 0:
        bytes[at] = random(256);
        break;
      case 1:
        bytes[at]! ^= 1 << random(8);
        break;
      case 2:
        bytes = join(bytes.subarray(0, at), bytes.subarray(at + length));
        break;
      case 3:
        bytes = join(bytes.subarray(0, at + length), bytes.subarray(at));
        break;
      default:
        bytes.copyWithin(random(bytes.length), at, at + length);
    }
    if (bytes.length === 0) return whole.slice(0, 1);
  }
  return bytes;
}

export const hostileFiles = (): readonly (readonly [group: string, files: readonly HostileFile[]])[] => [
  ['binary STL', binaryStl()],
  ['text STL', textStl()],
  ['OBJ', obj()],
  ['PLY', ply()],
  ['packages', packages()],
  ['models', models()],
  ['other kinds', otherKinds()],
  ['chance', chance()],
];
