/**
 * 3MF Core Specification 1.3: a zip (Open Packaging Conventions) with one model part. Chapters named below are
 * of that specification, from memory.
 */
import { strToU8, type Zippable, zipSync } from 'fflate';
import { type Placing, turnOf } from '../plate/place.js';
import type { Mesh } from '../solid/types.js';
import { checkWritable } from './check-writable.js';
import { FormatError } from './format-error.js';
import { closeRoundedMesh } from './rounded-mesh.js';
import { escapeXml } from './xml.js';

export interface ThreeMfObject {
  readonly name: string;
  readonly mesh: Mesh;
  /** One build item each. Without any, one that stands the object in the positive octant at the origin. */
  readonly placements?: readonly Placing[];
}

/** Metadata with the names the specification reserves ("Metadata"). */
export interface ThreeMfMeta {
  readonly title?: string;
  readonly description?: string;
  readonly application?: string;
}

/** A zip entry has a date; a fixed one makes the same input give the same bytes. Local time, as zip has it. */
const entryDate = (): Date => new Date(1980, 0, 1);

const contentTypes = `<?xml version="1.0" encoding="UTF-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
 <Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>
 <Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/>
</Types>
`;
const relations = `<?xml version="1.0" encoding="UTF-8"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">
 <Relationship Target="/3D/3dmodel.model" Id="rel0" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/>
</Relationships>
`;

/**
 * Writes a 3MF package: unit millimetre, one named object a pattern, one build item a placement.
 * Vertices are welded and triangles without area by their indices left out; float32 positions come back bit by
 * bit. Whether each mesh is closed is not asked here.
 *
 * @throws FormatError for no objects, a mesh no file can carry or a placement that is not finite.
 */
export function write3mf(objects: readonly ThreeMfObject[], meta: ThreeMfMeta = {}): Uint8Array {
  if (objects.length === 0) {
    throw new FormatError('three-mf-object', 'There is no object to write.', 'Give at least one.');
  }
  const resources: string[] = [];
  const items: string[] = [];
  objects.forEach((object, i) => {
    const id = i + 1;
    const name = escapeXml(object.name);
    resources.push(
      `  <object id="${id}" type="model" name="${name}">\n${meshElement(object.mesh)}  </object>\n`,
    );
    for (const placing of object.placements ?? [intoPositiveOctant(object.mesh)]) {
      items.push(`  <item objectid="${id}" transform="${formatTransform(placing, object.name)}"/>\n`);
    }
  });
  const model = [
    '<?xml version="1.0" encoding="UTF-8"?>\n',
    '<model unit="millimeter" xml:lang="en-US" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">\n',
    ...formatMeta(meta),
    ' <resources>\n',
    ...resources,
    ' </resources>\n <build>\n',
    ...items,
    ' </build>\n</model>\n',
  ].join('');
  const entries: Zippable = {
    '[Content_Types].xml': strToU8(contentTypes),
    '_rels/.rels': strToU8(relations),
    '3D/3dmodel.model': strToU8(model),
  };
  return zipSync(entries, { level: 1, mtime: entryDate() });
}

function formatMeta(meta: ThreeMfMeta): string[] {
  const rows: readonly (readonly [string, string | undefined])[] = [
    ['Title', meta.title],
    ['Description', meta.description],
    ['Application', meta.application],
  ];
  return rows.flatMap(([name, value]) =>
    value === undefined ? [] : [` <metadata name="${name}">${escapeXml(value)}</metadata>\n`],
  );
}

/** The last mesh written: a pattern made alone is written by itself and again on its plate. */
let latest: { readonly mesh: WeakRef<Mesh>; readonly element: string } | undefined;

function meshElement(mesh: Mesh): string {
  if (latest?.mesh.deref() === mesh) return latest.element;
  checkWritable(mesh);
  const closed = closeRoundedMesh(mesh);
  const element =
    `   <mesh>\n    <vertices>\n${formatVertices(closed)}    </vertices>\n` +
    `    <triangles>\n${formatTriangles(closed)}    </triangles>\n   </mesh>\n`;
  latest = { mesh: new WeakRef(mesh), element };
  return element;
}

function formatVertices({ positions: p }: Mesh): string {
  const lines: string[] = [];
  for (let i = 0; i < p.length; i += 3) {
    lines.push(
      `<vertex x="${formatFloat32(p[i]!)}" y="${formatFloat32(p[i + 1]!)}" z="${formatFloat32(p[i + 2]!)}"/>\n`,
    );
  }
  return lines.join('');
}

function formatTriangles({ triangles: t }: Mesh): string {
  const lines: string[] = [];
  for (let i = 0; i < t.length; i += 3) {
    lines.push(`<triangle v1="${t[i]}" v2="${t[i + 1]}" v3="${t[i + 2]}"/>\n`);
  }
  return lines.join('');
}

/** The shortest decimal that reads back as the same float32: nine significant digits always do. */
export function formatFloat32(value: number): string {
  for (let digits = 6; digits < 9; digits++) {
    const text = value.toPrecision(digits);
    if (Math.fround(Number(text)) === value) return String(Number(text));
  }
  return String(Number(value.toPrecision(9)));
}

/** "3D Matrices": row vectors, the rows of the rotation and then the move. */
function formatTransform(placing: Placing, name: string): string {
  const [c, s] = turnOf(placing.turn);
  const rows = [c, s, 0, -s, c, 0, 0, 0, 1, placing.x, placing.y, placing.z];
  if (!rows.every(Number.isFinite)) {
    throw new FormatError(
      'three-mf-object',
      `A placement of ${name} is not finite.`,
      'Give x, y, z and turn.',
    );
  }
  return rows.map((v) => String(v + 0)).join(' ');
}

/** "Build": printers may reject what lies outside the octant where x, y and z are positive. */
function intoPositiveOctant({ positions }: Mesh): Placing {
  const min = [0, 1, 2].map((axis) => {
    let least = Number.POSITIVE_INFINITY;
    for (let i = axis; i < positions.length; i += 3) least = Math.min(least, positions[i]!);
    return least;
  });
  return { x: -min[0]!, y: -min[1]!, z: -min[2]!, turn: 0 };
}
