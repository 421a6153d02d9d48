import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { unzipSync } from 'fflate';

/**
 * A reader of 3MF packages from the published core specification alone: parts found through the relationships, one
 * mesh an object, build items with 4 × 3 transforms of row vectors. Shares nothing with the program.
 */
export interface ThreeMfItem {
  readonly name: string;
  /** Nine numbers a triangle, as the object has them, and placed on the bed. */
  readonly own: Float64Array;
  readonly corners: Float64Array;
}

export interface ThreeMfContent {
  readonly unit: string;
  readonly title: string;
  readonly objectNames: readonly string[];
  readonly items: readonly ThreeMfItem[];
}

interface XmlModel {
  readonly model: {
    readonly '@unit'?: string;
    readonly metadata?: readonly { readonly '@name': string; readonly '#text': string }[];
    readonly resources: {
      readonly object: readonly {
        readonly '@id': string;
        readonly '@name'?: string;
        readonly '@type'?: string;
        readonly mesh: {
          readonly vertices: {
            readonly vertex: readonly {
              readonly '@x': string;
              readonly '@y': string;
              readonly '@z': string;
            }[];
          };
          readonly triangles: {
            readonly triangle: readonly {
              readonly '@v1': string;
              readonly '@v2': string;
              readonly '@v3': string;
            }[];
          };
        };
      }[];
    };
    readonly build: {
      readonly item: readonly { readonly '@objectid': string; readonly '@transform'?: string }[];
    };
  };
}

const lists = new Set(['metadata', 'object', 'vertex', 'triangle', 'item', 'Relationship']);
const parser = new XMLParser({
  ignoreAttributes: false,
  attributeNamePrefix: '@',
  parseAttributeValue: false,
  parseTagValue: false,
  isArray: (name) => lists.has(name),
});

export function read3mf(bytes: Uint8Array): ThreeMfContent {
  const entries = unzipSync(bytes);
  const text = (path: string): string => {
    const entry = entries[path];
    if (!entry) throw new Error(`no ${path} in the package`);
    return new TextDecoder('utf-8', { fatal: true }).decode(entry);
  };
  if (!text('[Content_Types].xml').includes('application/vnd.ms-package.3dmanufacturing-3dmodel+xml')) {
    throw new Error('the model has no content type');
  }
  const relations = parser.parse(text('_rels/.rels')) as {
    Relationships: { Relationship: readonly { '@Target': string; '@Type': string }[] };
  };
  const start = relations.Relationships.Relationship.find(
    (r) => r['@Type'] === 'http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel',
  );
  if (!start) throw new Error('no relationship to a model');
  const xml = text(start['@Target'].replace(/^\//, ''));
  const valid = XMLValidator.validate(xml);
  if (valid !== true) throw new Error(valid.err.msg);
  const { model } = parser.parse(xml) as XmlModel;

  const objects = new Map(model.resources.object.map((object) => [object['@id'], object]));
  const items = model.build.item.map((item): ThreeMfItem => {
    const object = objects.get(item['@objectid']);
    if (!object) throw new Error(`no object ${item['@objectid']}`);
    const m = (item['@transform'] ?? '1 0 0 0 1 0 0 0 1 0 0 0').trim().split(/\s+/).map(Number);
    if (m.length !== 12 || !m.every(Number.isFinite)) throw new Error('a transform is not twelve numbers');
    // Decimals stand for float32 values, as a slicer reads them.
    const points = object.mesh.vertices.vertex.map((v) =>
      [v['@x'], v['@y'], v['@z']].map((text) => Math.fround(Number(text))),
    );
    const placed = points.map(([x, y, z]) =>
      [0, 1, 2].map(
        (k) =>
          (x as number) * (m[k] as number) +
          (y as number) * (m[3 + k] as number) +
          (z as number) * (m[6 + k] as number) +
          (m[9 + k] as number),
      ),
    );
    const corners = (from: readonly number[][]): Float64Array =>
      Float64Array.from(
        object.mesh.triangles.triangle.flatMap((t) =>
          [t['@v1'], t['@v2'], t['@v3']].flatMap((v) => from[Number(v)] as number[]),
        ),
      );
    return { name: object['@name'] ?? '', own: corners(points), corners: corners(placed) };
  });
  return {
    unit: model['@unit'] ?? 'millimeter',
    title: model.metadata?.find((row) => row['@name'] === 'Title')?.['#text'] ?? '',
    objectNames: model.resources.object.map((object) => object['@name'] ?? ''),
    items,
  };
}

/**
 * The triangles as sorted lines of text that no order of triangles or of their corners changes, rounded to float32.
 * Triangles with two corners in one place are left out, as a file may.
 */
export function triangleLines(...meshes: readonly ArrayLike<number>[]): string {
  const rows: string[] = [];
  for (const corners of meshes) {
    for (let t = 0; t < corners.length; t += 9) {
      const points = [0, 3, 6].map((k) =>
        [0, 1, 2].map((i) => Math.fround(corners[t + k + i] as number) + 0).join(' '),
      ) as [string, string, string];
      const [a, b, c] = points;
      if (a === b || b === c || c === a) continue;
      const first = a < b ? (a < c ? 0 : 2) : b < c ? 1 : 2;
      rows.push(`${points[first]}, ${points[(first + 1) % 3]}, ${points[(first + 2) % 3]}`);
    }
  }
  return rows.sort().join('\n');
}
