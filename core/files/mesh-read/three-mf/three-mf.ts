import type { MeshFile } from '../../../mesh/mesh-file.js';
import { FormatError } from '../../format-error.js';
import type { MeshLimits } from '../limits.js';
import { readZipDirectory, type ZipDirectory } from '../package/directory.js';
import { partKey } from '../package/part-name.js';
import { unfoldEntry } from '../package/unfold.js';
import { shortName } from '../package/words.js';
import { assembleBuild } from './assemble.js';
import { type Model, type ModelObject, type ModelPlacing, ModelReader } from './model.js';
import { type XmlElement, type XmlHandler, XmlReader } from './xml-reader.js';

const modelRelation = 'http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel';
const relations = 'http://schemas.openxmlformats.org/package/2006/relationships';

/**
 * Reads what a 3MF package builds: from its relationships to the model part, from there to parts with more objects.
 *
 * @throws FormatError for a package that is damaged, encrypted, too large or no 3MF, and for a model that is wrong.
 */
export function read3mf(bytes: Uint8Array, limits: MeshLimits): Omit<MeshFile, 'format'> {
  const directory = readZipDirectory(bytes, limits);
  const budget = { left: limits.unfoldedBytes };
  const readPart = (name: string, from: string, handler: XmlHandler): void => {
    const entry = directory.get(name);
    if (!entry) missingPart(name, from);
    const xml = new XmlReader(entry.name, limits, handler);
    unfoldEntry(bytes, entry, limits, budget, (piece) => xml.write(piece));
    xml.end();
  };

  const root = findModel(directory, readPart);
  const counts = { vertices: 0, triangles: 0, placings: 0 };
  const objects = new Map<string, ModelObject>();
  const readModel = (name: string, from: string): Model => {
    const reader = new ModelReader(name, directory.get(name)?.name ?? name, limits, counts);
    readPart(name, from, reader);
    const model = reader.model();
    for (const [key, object] of model.objects) objects.set(key, object);
    return model;
  };
  const rootModel = readModel(root, 'its relationships');
  const { unit } = rootModel;

  const componentsOf = (model: Model): ModelPlacing[] =>
    [...model.objects.values()].flatMap((object) => [...object.components]);
  const read = new Set([root]);
  const placings = [...rootModel.items, ...componentsOf(rootModel)];
  for (let placing = placings.pop(); placing; placing = placings.pop()) {
    const { part, where } = placing;
    if (read.has(part)) continue;
    read.add(part);
    const model = readModel(part, where);
    if (model.unit !== unit) otherUnit(part);
    for (const further of componentsOf(model)) placings.push(further);
  }
  return { unit, mesh: assembleBuild(rootModel.items, objects, limits) };
}

/** The model part that the package's relationships name. */
function findModel(
  directory: ZipDirectory,
  readPart: (name: string, from: string, handler: XmlHandler) => void,
): string {
  if (!directory.has('_rels/.rels')) {
    throw new FormatError(
      'three-mf-part',
      'The file is a zip, but no 3MF: it has no relationships ("_rels/.rels").',
      'Unpack it, and give the mesh file that is in it; or export the part as 3MF.',
    );
  }
  const targets: string[] = [];
  readPart('_rels/.rels', '', {
    open(element: XmlElement) {
      if (element.name !== 'Relationship' || element.namespace !== relations) return;
      if (element.attribute('Type') !== modelRelation) return;
      const target = element.attribute('Target') ?? '';
      if (element.attribute('TargetMode') === 'External') {
        throw new FormatError(
          'zip-path',
          `The package says its model is outside of it, at "${shortName(target)}".`,
          'Export the part with its model in the file.',
        );
      }
      targets.push(partKey(target));
    },
    close() {},
  });
  if (targets.length === 1) return targets[0]!;
  throw new FormatError(
    'three-mf-part',
    targets.length === 0
      ? 'The relationships of the package name no model.'
      : 'The relationships of the package name several models.',
    'Export the part again; a 3MF has one model to start from.',
  );
}

function missingPart(name: string, from: string): never {
  throw new FormatError(
    'three-mf-part',
    `The package has no "${shortName(name)}", which is named by ${from}.`,
    'Export the file again.',
  );
}

function otherUnit(part: string): never {
  throw new FormatError(
    'three-mf-unit',
    `"${shortName(part)}" in the package has another unit than its model.`,
    'Export the file again; all its parts have one unit.',
  );
}
