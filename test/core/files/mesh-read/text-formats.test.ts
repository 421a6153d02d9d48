import { type Mesh as ThreeMesh, Vector3 } from 'three';
import { OBJLoader } from 'three/examples/jsm/loaders/OBJLoader.js';
import { PLYLoader } from 'three/examples/jsm/loaders/PLYLoader.js';
import { describe, expect, test } from 'vitest';
import { FormatError } from '../../../../core/files/format-error.js';
import { readMeshFile } from '../../../../core/files/mesh-read/index.js';
import { cornersOf, sampleMeshes, utf8, writeByThree } from './samples.js';
import { join } from './zips.js';

const read = (text: string | Uint8Array, name = 'part.obj') =>
  readMeshFile(typeof text === 'string' ? utf8(text) : text, name).mesh;
const refusal = (text: string | Uint8Array, name = 'part.obj'): string => {
  try {
    read(text, name);
  } catch (error) {
    if (error instanceof FormatError) return `${error.code}: ${error.message} ${error.remedy}`;
    throw error;
  }
  return 'read';
};
const utf16 = (text: string, high: 0 | 1, mark = true): Uint8Array => {
  const marked = mark ? `\ufeff${text}` : text;
  return Uint8Array.from({ length: 2 * marked.length }, (_, i) => {
    const code = marked.charCodeAt(i >> 1);
    return i % 2 === high ? code >> 8 : code & 255;
  });
};

const square = 'v 0 0 0\nv 2 0 0\nv 2 2 0\nv 0 2 0\n';

describe('OBJ', () => {
  test('faces of corners with texture and normals, by indices from both ends', () => {
    const wanted = [0, 1, 2, 0, 2, 3];
    for (const face of [
      'f 1 2 3 4',
      'f -4 -3 -2 -1',
      'f 1/1 2/2 3/3 4/4',
      'f 1/1/1 2/2/2 3/3/3 4/4/4',
      'f 1//5 2//5 3//5 4//5',
      '  F 1 -3 3/7 -1//2   # a face',
      'fo 1 2 3 4',
      'f 1 2 \\\n 3 4',
      'f 1 2 \\\r\n 3 4',
    ])
      expect([...read(`${square}${face}`).triangles]).toEqual(wanted);
  });

  test('an index counts from the vertices before its face', () => {
    const { triangles } = read(`${square}f -4 -3 -2\nv 9 9 9\nf -1 -2 -3\nf 1 2 5\n`);
    expect([...triangles]).toEqual([0, 1, 2, 4, 3, 2, 0, 1, 4]);
  });

  test('objects, groups and looks do not part the mesh; colours, points, lines and curves are passed over', () => {
    const mesh = read(
      `# a\n\nmtllib x.mtl\no one\ng a b\nusemtl red\ns off\n${square}v 1 1 1 0.5 0.5 0.5\nv 1 1 2 1.0\nvt 0 0\nvn nan 0 1\nvp 1\n` +
        'p 1\nl 1 2 3\ncstype bezier\ndeg 3\ncurv 0 1 1 2 3 4\nend\nf 1 2 3\no two\nf 3 4 5\nbevel on\n',
    );
    expect(mesh.positions.length).toBe(18);
    expect([...mesh.triangles]).toEqual([0, 1, 2, 2, 3, 4]);
  });

  test('lines end with LF, CR LF or CR, with a byte order mark or without, in UTF-8 or UTF-16', () => {
    const wanted = read(`${square}f 1 2 3\n`);
    for (const ending of ['\n', '\r\n', '\r']) {
      const text = `# Gußform\n${square}f 1 2 3\n`.replaceAll('\n', ending);
      for (const bytes of [
        utf8(text),
        utf8(`\ufeff${text}`),
        utf8(text.trimEnd()),
        join(utf8(text), Uint8Array.of(26)),
        join(utf8(text), new Uint8Array(9)),
        utf16(text, 0),
        utf16(text, 1),
      ])
        expect(read(bytes)).toEqual(wanted);
      for (const high of [0, 1] as const)
        expect(read(utf16(text.replace('ß', 's'), high, false))).toEqual(wanted);
    }
  });

  test('refusals name the line', () => {
    const line = (n: number): RegExp => new RegExp(`Line ${n}: `);
    const adding = (text: string): string => refusal(`${square}${text}`);
    expect(adding('f 1 2 5')).toMatch(/^mesh-index: Line 5: a face names vertex 5, but the file has 4/);
    expect(adding('f 1 2 3\r\nf 0 1 2')).toMatch(/^mesh-index: Line 6: a face names vertex 0, with 4/);
    expect(adding('f 1 2 -5')).toMatch(/^mesh-index: Line 5: a face names vertex -5, with 4/);
    expect(adding('f 1 2')).toMatch(/^mesh-face: Line 5: a face with 2 corners/);
    expect(adding('f')).toMatch(/^mesh-face: Line 5: a face with 0 corners/);
    expect(adding('f 1 2 3.5')).toMatch(/^obj-line: Line 5: a corner of the face is "3.5"/);
    expect(adding('f 1 2 x/1')).toMatch(line(5));
    expect(adding('v 1 2')).toMatch(/^obj-line: Line 5: a vertex with 2 of its three/);
    expect(adding('v 1 2 nan')).toMatch(/^mesh-number: Line 5: the coordinate nan is not a finite number/);
    expect(adding('v 1 2 -inf')).toMatch(/^mesh-number: /);
    expect(adding('v 1 2 1.#QNAN')).toMatch(/^mesh-number: /);
    expect(adding('v 1 2 1e39')).toMatch(/^mesh-number: Line 5: the coordinate 1e39 is too large/);
    expect(adding('v 1 2 3.4028236e38')).toMatch(/^mesh-number: /);
    expect(adding('v 1 2 1e999')).toMatch(/^mesh-number: /);
    expect(adding('v 1,5 2 3')).toMatch(/^obj-line: Line 5: .*"1,5".*with a point, not a comma/);
    expect(adding('surf 0 1 0 1 1 2 3')).toMatch(/^obj-line: Line 5: "surf" is a curved surface/);
    expect(adding('call other.obj')).toMatch(/^obj-line: Line 5: the line calls another file/);
    expect(adding('# one\n\nwhat 1 2 3')).toMatch(/^obj-line: Line 7: the line begins with "what"/);
    expect(refusal(square)).toMatch(/^mesh-empty: .*only points or lines/);
    expect(refusal('f 1 2 3\nv 0 0 0')).toMatch(/^mesh-index: Line 1/);
  });

  test('the greatest float32 is read; what three cuts across its bay is cut inside', () => {
    expect(read('v 3.4028234663852886e38 0 0\nv 0 1 0\nv 0 0 1\nf 1 2 3').positions[0]).toBe(
      3.4028234663852886e38,
    );
    const bay = 'v 1 1 0\nv 0 4 0\nv 0 0 0\nv 4 0 0\nf 2 3 4 1\n';
    expect([...read(bay).triangles]).toEqual([2, 3, 0, 2, 0, 1]);
    // Why the faces are not left to that reader: it fans them out from their first corner, here (0, 4).
    const { geometry } = new OBJLoader().parse(bay).children[0] as ThreeMesh;
    const [a, b, c] = [3, 4, 5].map((i) =>
      new Vector3().fromBufferAttribute(geometry.getAttribute('position'), i),
    ) as [Vector3, Vector3, Vector3];
    expect([a, b, c].map((v) => v.toArray())).toEqual([
      [0, 4, 0],
      [4, 0, 0],
      [1, 1, 0],
    ]);
    expect(b.sub(a).cross(c.sub(a)).z).toBeLessThan(0);
  });

  test('doubles are kept', () => {
    expect(read('v 0.1 0.2 0.3\nv 1 0 0\nv 0 1 0\nf 1 2 3').positions[0]).toBe(0.1);
  });
});

describe('text STL', () => {
  const facet = (x: string): string =>
    `facet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex ${x} 0 0\nvertex 0 1 0\nendloop\nendfacet\n`;
  const stl = (body: string): string => `solid a part\n${body}endsolid a part\n`;
  const readText = (text: string | Uint8Array) => read(text, 'part.stl');
  const refuse = (text: string): string => refusal(text, 'part.stl');

  test('any case, any blanks, several solids, normals of any kind or none', () => {
    const wanted = readText(stl(facet('1')) + stl(facet('2')));
    expect([...wanted.positions]).toEqual([0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0, 0, 2, 0, 0, 0, 1, 0]);
    expect([...wanted.triangles]).toEqual([0, 1, 2, 3, 4, 5]);
    const text = stl(facet('1') + facet('2'));
    for (const other of [
      text.toUpperCase(),
      text.replaceAll('\n', '\r\n'),
      text.replaceAll('\n', '\r'),
      text.replaceAll(' ', ' \t '),
      text.replace('solid a part', 'solid'),
      text.replaceAll('normal 0 0 1', 'normal nan -nan(ind) 1.#INF'),
      text.replaceAll(' normal 0 0 1', ''),
      text.trimEnd(),
      `\n \n${text}\n\n`,
      `${text}\u001a`,
    ])
      expect(readText(other)).toEqual(wanted);
    expect(readText(utf16(text, 1))).toEqual(wanted);
  });

  test('refusals name the line', () => {
    expect(refuse(stl(facet('nan')))).toMatch(/^mesh-number: Line 5: the coordinate nan/);
    expect(refuse(stl(facet('x')))).toMatch(/^stl-number: Line 5: a coordinate is expected, but "x"/);
    expect(refuse(stl(facet('1,5')))).toMatch(/^stl-number: .*not a comma/);
    expect(refuse(stl(facet('1').replace('endloop', 'vertex 1 1 1\nendloop')))).toMatch(
      /^stl-line: Line 7: "endloop" is expected, but "vertex"/,
    );
    expect(refuse(stl(facet('1').replace('vertex 0 1 0\n', '')))).toMatch(
      /^stl-line: Line 6: "vertex" is expected/,
    );
    expect(refuse(stl(''))).toMatch(/^mesh-empty/);
    expect(refuse(`solid a\n${facet('1')}`)).toMatch(/^stl-short: The text ends in line 9/);
    expect(refuse(`${stl(facet('1'))}and more\n`)).toMatch(
      /^stl-line: Line 10: "solid" is expected, but "and"/,
    );
  });

  test('every cut of a whole file is refused', () => {
    const text = stl(facet('1') + facet('2')).trimEnd();
    // What is cut off the name of the last line is no loss.
    const whole = text.lastIndexOf('endsolid') + 'endsolid'.length;
    for (let length = 1; length < whole; length++) expect(refuse(text.slice(0, length))).not.toBe('read');
  });
});

describe('PLY', () => {
  const header = (format: string, faces = 1): string =>
    `ply\nformat ${format} 1.0\ncomment made up\nobj_info none\nelement vertex 4\nproperty float x\nproperty float y\n` +
    `property float z\nproperty uchar red\nelement face ${faces}\nproperty uchar flags\n` +
    'property list uchar int vertex_indices\nproperty list uchar float texcoord\nend_header\n';
  const rows = '0 0 0 9\n2 0 0 9\n2 2 0 9\n0 2 0 9\n7 4 0 1 2 3 2 0.5 nan\n';
  const text = header('ascii') + rows;
  const readPly = (bytes: string | Uint8Array) => read(bytes, 'part.ply');
  const refuse = (bytes: string | Uint8Array): string => refusal(bytes, 'part.ply');

  const binary = (little: boolean): Uint8Array => {
    const view = new DataView(new ArrayBuffer(4 * 13 + 1 + 1 + 16 + 1 + 8));
    [0, 0, 0, 2, 0, 0, 2, 2, 0, 0, 2, 0].forEach((x, i) => {
      view.setFloat32(13 * Math.floor(i / 3) + 4 * (i % 3), x, little);
    });
    view.setUint8(52, 7);
    view.setUint8(53, 4);
    for (let i = 0; i < 4; i++) view.setInt32(54 + 4 * i, i, little);
    view.setUint8(70, 2);
    return join(
      utf8(header(little ? 'binary_little_endian' : 'binary_big_endian')),
      new Uint8Array(view.buffer),
    );
  };

  test('ascii and binary of both orders, among other properties and lists', () => {
    const wanted = readPly(text);
    expect([...wanted.positions]).toEqual([0, 0, 0, 2, 0, 0, 2, 2, 0, 0, 2, 0]);
    expect([...wanted.triangles]).toEqual([0, 1, 2, 0, 2, 3]);
    expect(readPly(binary(true))).toEqual(wanted);
    expect(readPly(binary(false))).toEqual(wanted);
    for (const other of [
      text.replaceAll('\n', '\r\n'),
      text.replaceAll('\n', '\r'),
      text.replace('7 4 0 1 2 3', '7\n4 0\n1 2 3'),
      text.trimEnd(),
    ])
      expect(readPly(other)).toEqual(wanted);
    expect(readPly(utf16(text, 0))).toEqual(wanted);
    expect(readPly(utf8(`\ufeff${text}`))).toEqual(wanted);
  });

  test('a value after the header that looks like a line’s end is a value', () => {
    const bytes = binary(true);
    const at = utf8(header('binary_little_endian')).length;
    bytes[at] = 10;
    expect(readPly(bytes).positions[0]).toBe(
      new DataView(Uint8Array.of(10, 0, 0, 0).buffer).getFloat32(0, true),
    );
  });

  test('all names of the types, doubles kept, faces before vertices', () => {
    const other =
      'ply\nformat ascii 1.0\nelement face 2\nproperty list uint8 uint32 vertex_index\nelement vertex 3\n' +
      'property float64 z\nproperty double x\nproperty int16 y\nend_header\n3 0 1 2\n3 2 1 0\n0.1 0.2 3\n1 2 3\n4 5 6\n';
    const mesh = readPly(other);
    expect([...mesh.positions]).toEqual([0.2, 3, 0.1, 2, 3, 1, 5, 6, 4]);
    expect([...mesh.triangles]).toEqual([0, 1, 2, 2, 1, 0]);
  });

  test('strips alternate, and begin anew after −1', () => {
    const strips =
      'ply\nformat ascii 1.0\nelement vertex 5\nproperty float x\nproperty float y\nproperty float z\n' +
      'element tristrips 1\nproperty list int int vertex_indices\nend_header\n0 0 0\n1 0 0\n0 1 0\n1 1 0\n0 2 0\n' +
      '9 0 1 2 3 4 -1 2 3 4\n';
    expect([...readPly(strips).triangles]).toEqual([0, 1, 2, 2, 1, 3, 2, 3, 4, 2, 3, 4]);
  });

  test('five corners, which the reader of three leaves out, are read', () => {
    const five =
      'ply\nformat ascii 1.0\nelement vertex 5\nproperty float x\nproperty float y\nproperty float z\nelement face 1\n' +
      'property list uchar int vertex_indices\nend_header\n0 0 0\n2 0 0\n3 1 0\n1 3 0\n0 2 0\n5 0 1 2 3 4\n';
    expect(readPly(five).triangles.length).toBe(9);
    expect(new PLYLoader().parse(five).index).toBe(null);
  });

  test('refusals say where', () => {
    const change = (from: string, to: string): string => refuse(text.replace(from, to));
    expect(change('vertex 4', 'vertex 5')).toMatch(/^(ply|mesh)-/);
    expect(change('vertex 4', 'vertex 3')).toMatch(/^(ply|mesh)-/);
    expect(change('vertex 4', 'vertex many')).toMatch(
      /^ply-header: Line 5: the number of elements is "many"/,
    );
    expect(change('vertex 4', 'vertex -4')).toMatch(/^ply-header: Line 5/);
    expect(change('vertex 4', 'vertex 10000000')).toMatch(/^ply-short: The header says 10000000 of "vertex"/);
    expect(change('face 1', 'face 10000000')).toMatch(
      /^mesh-large: .*10,000,000 triangles or more; at most 5,000,000/,
    );
    expect(change('face 1', 'face 2')).toMatch(/^ply-short/);
    expect(change('face 1', 'face 0')).toMatch(/^ply-count: Line 19/);
    expect(change('ascii 1.0', 'ascii 2.0')).toMatch(/^ply-header: Line 2/);
    expect(change('ascii 1.0', 'text 1.0')).toMatch(/^ply-header: Line 2/);
    expect(change('format ascii 1.0', 'comment')).toMatch(/^ply-header: Line 14: the header names no format/);
    expect(change('end_header', 'end')).toMatch(/^ply-header: Line 14: "end" is no word/);
    expect(change('uchar red', 'colour red')).toMatch(/^ply-header: Line 9/);
    expect(change('property float x', 'property float w')).toMatch(/^ply-header: .*x, y and z/);
    expect(change('property uchar red', 'property float x')).toMatch(/^ply-header: .*each once/);
    expect(change('vertex_indices', 'corners')).toMatch(/^ply-header: The element "face" has no list/);
    expect(change('element vertex 4', '')).toMatch(/^ply-header: Line 6: a property before any element/);
    expect(change('4 0 1 2 3', '4 0 1 2 4')).toMatch(
      /^mesh-index: Face 1: a face names vertex 5, but the file has 4/,
    );
    expect(change('4 0 1 2 3', '4 0 1 2 -3')).toMatch(/^mesh-index: Line 19: a face names a vertex by -3/);
    expect(change('4 0 1 2 3', '4 0 1 2 1.5')).toMatch(/^mesh-index: Line 19/);
    expect(change('4 0 1 2 3', '2 0 1')).toMatch(/^mesh-face: Face 1, line 19: a face with 2 corners/);
    expect(change('4 0 1 2 3', '-4 0 1 2 3')).toMatch(/^ply-value: Line 19: a list "vertex_indices"/);
    expect(change('4 0 1 2 3', '4000000000 0 1 2 3')).toMatch(/^ply-short: Line 19/);
    expect(change('2 0 0 9', '2 nan 0 9')).toMatch(/^mesh-number: Line 16: the coordinate nan/);
    expect(change('2 0 0 9', '2 zero 0 9')).toMatch(/^ply-value: Line 16/);
    const bytes = binary(true);
    const at = utf8(header('binary_little_endian')).length;
    expect(refuse(bytes.slice(0, -1))).toMatch(/^ply-short/);
    expect(refuse(join(bytes, Uint8Array.of(1)))).toMatch(/^ply-count/);
    const nan = bytes.slice();
    nan.fill(255, at, at + 4);
    expect(refuse(nan)).toMatch(/^mesh-number: Byte \d+: the coordinate NaN is not a finite number/);
  });

  test('every cut of a whole file is refused, ascii and binary', () => {
    for (let length = 1; length < text.trimEnd().length - 3; length++)
      expect(refuse(text.slice(0, length))).not.toBe('read');
    const bytes = binary(false);
    for (let length = 1; length < bytes.length; length++)
      expect(refuse(bytes.slice(0, length))).not.toBe('read');
  });
});

test('a file of each format is read alike in UTF-16', () => {
  for (const form of ['stl text', 'obj', 'ply text'] as const) {
    const text = new TextDecoder().decode(writeByThree(sampleMeshes.teapot!, form));
    for (const high of [0, 1] as const)
      expect(cornersOf(read(utf16(text, high)))).toEqual(cornersOf(sampleMeshes.teapot!));
  }
});
