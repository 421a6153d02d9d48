import { describe, expect, test } from 'vitest';
import { FormatError } from '../../../../core/files/format-error.js';
import { readMeshFile } from '../../../../core/files/mesh-read/index.js';
import { volumeOf } from '../shapes.js';
import { unsoundness, utf8 } from './samples.js';
import { makeZip, modelOf, packageOf, relationsOf, tetrahedron } from './zips.js';

const read = (bytes: Uint8Array) => readMeshFile(bytes, 'part.3mf');
const refusal = (bytes: Uint8Array): string => {
  try {
    read(bytes);
  } catch (error) {
    if (error instanceof FormatError) return `${error.code}: ${error.message} ${error.remedy}`;
    throw error;
  }
  return 'read';
};
/** Of the mesh in its file's unit; a tetrahedron of `modelOf` has 1/6. */
const volume = (bytes: Uint8Array): number => {
  const { mesh } = read(bytes);
  expect(unsoundness(mesh)).toBe('');
  return volumeOf({ positions: Float32Array.from(mesh.positions), triangles: mesh.triangles });
};
const object = (id: number, inside: string, more = ''): string =>
  `<object id="${id}" ${more}>${inside}</object>`;
const components = (...placed: readonly (readonly [id: number, transform?: string])[]): string =>
  `<components>${placed
    .map(([id, transform]) => `<component objectid="${id}"${transform ? ` transform="${transform}"` : ''}/>`)
    .join('')}</components>`;

describe('units', () => {
  // 3MF Core Specification, chapter 3.1, with the yard and pound agreement of 1959 for inch and foot; from memory.
  test.each([
    ['micron', 0.001],
    ['millimeter', 1],
    ['centimeter', 10],
    ['inch', 25.4],
    ['foot', 304.8],
    ['meter', 1000],
  ])('%s', (name, unit) => {
    const file = read(packageOf(modelOf(undefined, undefined, `unit="${name}"`)));
    expect(file.unit).toBeCloseTo(unit, 12);
    // In the file's own unit.
    expect(Math.max(...file.mesh.positions)).toBe(1);
  });
  test('millimetres where none is said; others are refused', () => {
    expect(read(packageOf(modelOf(undefined, undefined, ''))).unit).toBe(1);
    for (const unit of ['mile', 'Inch', '', '__proto__'])
      expect(refusal(packageOf(modelOf(undefined, undefined, `unit="${unit}"`)))).toMatch(
        /^three-mf-unit: "3D\/3dmodel.model" in the package, line 1: its unit is /,
      );
  });
});

describe('placing', () => {
  const box = (bytes: Uint8Array): number[][] => {
    const { positions } = read(bytes).mesh;
    return [Math.min, Math.max].map((of) =>
      [0, 1, 2].map((k) => of(...positions.filter((_, i) => i % 3 === k))),
    );
  };
  const placed = (transform: string): Uint8Array =>
    packageOf(modelOf(undefined, `<item objectid="1" transform="${transform}"/>`));

  test('a transform is rows, and its last row moves', () => {
    expect(box(placed('1 0 0 0 1 0 0 0 1 5 6 7'))).toEqual([
      [5, 6, 7],
      [6, 7, 8],
    ]);
    // x goes to y, y to z, z to x; twice as large along the new x.
    expect(box(placed('0 1 0 0 0 3 2 0 0 0 0 0'))).toEqual([
      [0, 0, 0],
      [2, 1, 3],
    ]);
    expect(volume(placed('0 1 0 0 0 3 2 0 0 0 0 0'))).toBeCloseTo(6 / 6, 6);
  });

  test('mirrored objects stay outside out', () => {
    expect(volume(placed('-1 0 0 0 1 0 0 0 1 0 0 0'))).toBeCloseTo(1 / 6, 6);
    expect(volume(placed('0 1 0 1 0 0 0 0 1 0 0 0'))).toBeCloseTo(1 / 6, 6);
    // Mirrored twice: in the component, and again in the item.
    const mirror = '-1 0 0 0 1 0 0 0 1 0 0 0';
    const twice = modelOf(
      object(1, tetrahedron) + object(2, components([1, mirror])),
      `<item objectid="2" transform="${mirror}"/>`,
    );
    expect(volume(packageOf(twice))).toBeCloseTo(1 / 6, 6);
    expect(box(packageOf(twice))).toEqual([
      [0, 0, 0],
      [1, 1, 1],
    ]);
  });

  test('a component is moved first, then what holds it', () => {
    const model = modelOf(
      object(1, tetrahedron) + object(2, components([1, '1 0 0 0 1 0 0 0 1 1 0 0'])),
      '<item objectid="2" transform="0 1 0 -1 0 0 0 0 1 0 0 10"/>',
    );
    expect(box(packageOf(model))).toEqual([
      [-1, 1, 10],
      [0, 2, 11],
    ]);
  });

  test('components, several items and several levels come as one mesh', () => {
    const model = modelOf(
      object(1, tetrahedron) +
        object(2, components([1], [1, '2 0 0 0 2 0 0 0 2 9 0 0'])) +
        object(3, components([2], [2, '1 0 0 0 1 0 0 0 1 0 50 0'], [1])),
      '<item objectid="3"/><item objectid="1"/>',
    );
    expect(read(packageOf(model)).mesh.triangles.length / 3).toBe(4 * 6);
    expect(volume(packageOf(model))).toBeCloseTo((2 * 9 + 2) / 6, 4);
  });

  test('support is no part of the shape; what is not built is left out', () => {
    const model = modelOf(
      object(1, tetrahedron) + object(2, tetrahedron, 'type="support"') + object(4, tetrahedron),
      '<item objectid="1"/><item objectid="2"/>',
    );
    expect(volume(packageOf(model))).toBeCloseTo(1 / 6, 6);
  });
});

describe('parts and their names', () => {
  test('the model is where the relationships say, whatever the case or escapes', () => {
    const at = (target: string, name: string): Uint8Array =>
      makeZip([
        { name, data: utf8(modelOf()) },
        { name: '_RELS/.rels', data: utf8(relationsOf(target)) },
        { name: '3D/3dmodel.model', data: utf8('not the model') },
      ]);
    for (const [target, name] of [
      ['/other/part.model', 'other/part.model'],
      ['other/part.model', 'other/part.model'],
      ['/Other/Part.MODEL', 'other/part.model'],
      ['/a%20b.model', 'a b.model'],
    ] as const)
      expect(volume(at(target, name))).toBeCloseTo(1 / 6, 6);
  });

  test('objects in parts of their own are followed', () => {
    const model = modelOf(
      object(1, '<components><component p:path="/3D/Objects/a.model" objectid="7"/></components>'),
      '<item objectid="1"/><item objectid="7" p:path="/3D/Objects/a.model" transform="1 0 0 0 1 0 0 0 1 5 0 0"/>',
      'unit="millimeter" requiredextensions="p"',
    );
    const part = modelOf(object(7, components([9])) + object(9, tetrahedron), '');
    expect(volume(packageOf(model, { name: '3D/Objects/a.model', data: utf8(part) }))).toBeCloseTo(2 / 6, 5);
    expect(refusal(packageOf(model))).toMatch(/^three-mf-part: The package has no "3d\/objects\/a.model"/);
    const inch = modelOf(object(7, tetrahedron), '', 'unit="inch"');
    expect(refusal(packageOf(model, { name: '3D/Objects/a.model', data: utf8(inch) }))).toMatch(
      /^three-mf-unit: /,
    );
  });

  test('stored entries, further files, comments and folders do no harm', () => {
    const bytes = makeZip(
      [
        { name: '3D/', data: new Uint8Array(), method: 0 },
        { name: '_rels/.rels', data: utf8(relationsOf('/3D/3dmodel.model')), method: 0 },
        { name: '3D/3dmodel.model', data: utf8(modelOf()), method: 0 },
        { name: 'Metadata/thumbnail.png', data: Uint8Array.of(1, 2, 3), flags: 1, method: 99 },
      ],
      { comment: utf8('PK\u0005\u0006 not the end') },
    );
    expect(volume(bytes)).toBeCloseTo(1 / 6, 6);
  });
});

describe('XML', () => {
  const encoded = (text: string, high: 0 | 1): Uint8Array =>
    Uint8Array.from({ length: 2 * text.length }, (_, i) => {
      const code = text.charCodeAt(i >> 1);
      return i % 2 === high ? code >> 8 : code & 255;
    });

  test('UTF-8 with a mark, UTF-16 with a mark or without', () => {
    const text = modelOf(undefined, undefined, undefined, '');
    for (const bytes of [
      utf8(`\ufeff${text}`),
      encoded(`\ufeff${text}`, 0),
      encoded(`\ufeff${text}`, 1),
      encoded(text, 0),
      encoded(text, 1),
    ])
      expect(volume(packageOf(bytes))).toBeCloseTo(1 / 6, 6);
  });

  test('a prefix for the core, other namespaces, metadata, comments, lines', () => {
    const core = modelOf()
      .replaceAll(/<(\/?)(?=[a-z])/g, '<$1c:')
      .replace('xmlns=', 'xmlns:c=');
    expect(volume(packageOf(core))).toBeCloseTo(1 / 6, 6);
    const rich = modelOf(
      `<!-- a comment --><x:colours xmlns:x="urn:x"><x:one/><object id="1"/></x:colours><basematerials id="5"><base name="a" ` +
        `displaycolor="#FFF"/></basematerials>${object(1, tetrahedron, 'pid="5" pindex="0" name="&lt;&#x41;&gt;"')}`,
    ).replaceAll('><', '>\r\n <');
    expect(
      volume(packageOf(rich.replace('<resources>', '<metadata name="Title">A<b/></metadata><resources>'))),
    ).toBeCloseTo(1 / 6, 6);
  });

  test('refusals name part and line', () => {
    const lines = (text: string): Uint8Array => packageOf(text.replaceAll('><', '>\n<'));
    const change = (from: string, to: string): string => refusal(lines(modelOf().replace(from, to)));
    expect(change('x="0"', 'x="nan"')).toMatch(
      /^mesh-number: "3D\/3dmodel.model" in the package, line 7: the coordinate nan is not a finite number/,
    );
    expect(change('x="0"', 'x="1e39"')).toMatch(/^mesh-number: .*too large/);
    expect(change('x="0"', 'x="0,5"')).toMatch(/^three-mf-xml: .*"0,5".*not a comma/);
    expect(change('x="0" ', '')).toMatch(/^three-mf-xml: .*line 7: a coordinate is expected, but ""/);
    expect(change('v1="0"', 'v1="-1"')).toMatch(/^mesh-index: .*line 13: a triangle names the vertex "-1"/);
    expect(change('v1="0"', 'v1="1.5"')).toMatch(/^mesh-index/);
    expect(change('v1="0"', 'v1="4"')).toMatch(
      /^mesh-index: Triangle 1 of object 1 names vertex 4, but it has 4/,
    );
    expect(change('v1="1"', 'v1="9999999999"')).toMatch(/^mesh-index: Triangle 4 of object 1/);
    expect(change('objectid="1"', 'objectid="2"')).toMatch(
      /^three-mf-object: Item 1 of the build, line \d+: there is no such/,
    );
    expect(change('<object id="1"', '<object id="one"')).toMatch(/^three-mf-object: .*"one"/);
    expect(change('</model>', '')).toMatch(/^three-mf-xml: .*not well-formed/);
    expect(change('</mesh>', '</mash>')).toMatch(/^three-mf-xml: .*line \d+: it is not well-formed XML/);
    expect(change('<mesh>', '<mesh><object id="2"/>')).toMatch(
      /^three-mf-xml: .*a "object" stands in "mesh"/,
    );
    expect(change('http://schemas.microsoft.com/3dmanufacturing/core/2015/02', 'urn:x')).toMatch(
      /^three-mf-xml: .*no model/,
    );
    expect(change('<item', '<item transform="1 0 0"')).toMatch(/^three-mf-transform: .*not twelve numbers/);
    expect(change('<item', '<item transform="1 0 0 0 1 0 0 0 0 0 0 0"')).toMatch(
      /^three-mf-transform: .*flattens/,
    );
    expect(change('<item', '<item transform="1 0 0 0 nan 0 0 0 1 0 0 0"')).toMatch(/^three-mf-transform/);
    expect(change('<item', '<item transform="1e30 0 0 0 1e30 0 0 0 1e30 3e38 3e38 3e38"')).toBe('read');
    expect(change('<item', '<item transform="3e38 0 0 0 1 0 0 0 1 3e38 0 0"')).toMatch(
      /^mesh-number: Vertex 2 of the build/,
    );
    expect(change('<item objectid="1"/>', '')).toMatch(/^mesh-empty: .*list of what to build is empty/);
  });

  test('extensions that a model cannot be read without are refused by name, where they change a shape', () => {
    const required = (prefix: string): Uint8Array =>
      packageOf(
        modelOf(
          undefined,
          undefined,
          `xmlns:b="urn:lattice" xmlns:m="http://schemas.microsoft.com/3dmanufacturing/material/2015/02" requiredextensions="${prefix}"`,
        ),
      );
    expect(volume(required('m p'))).toBeCloseTo(1 / 6, 6);
    expect(refusal(required('m b'))).toMatch(/^three-mf-extension: .*"urn:lattice"/);
    expect(refusal(required('none'))).toMatch(/^three-mf-extension: .*"none"/);
  });

  test('no entity is expanded, and a DOCTYPE is refused with its line', () => {
    const laughs = Array.from({ length: 9 }, (_, i) => `<!ENTITY l${i + 1} "${`&l${i};`.repeat(10)}">`).join(
      '',
    );
    const doctype = (declared: string): string => `<?xml version="1.0"?>\n<!DOCTYPE model [${declared}]>\n`;
    for (const before of [
      doctype(`<!ENTITY l0 "0">${laughs}`),
      doctype('<!ENTITY file SYSTEM "file:///etc/passwd">'),
      '<!DOCTYPE model SYSTEM "http://example.org/x.dtd">',
      '<!DOCTYPE model>',
    ]) {
      const model = modelOf(
        object(1, tetrahedron.replace('x="0"', 'x="&l9;"')),
        undefined,
        undefined,
        before,
      );
      expect(refusal(packageOf(model))).toMatch(/^three-mf-doctype: .*line \d: it has a DOCTYPE/);
    }
    expect(refusal(packageOf(modelOf(object(1, tetrahedron.replace('x="0"', 'x="&l9;"')))))).toMatch(
      /^three-mf-xml: /,
    );
  });
});
