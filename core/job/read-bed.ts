import { listSchemaFields } from '../part/field-list.js';
import type { KeepOut } from '../plate/contract.js';
import { formatLength } from '../units/index.js';
import { measureRoom, meetsBed } from './bed-room.js';
import { bedFields, keepOutFields, mostKeepOuts } from './bed-schema.js';
import type { PrintBed } from './job.js';
import { child, emptyGroup, type JobReader, nodeIs, type Path } from './job-reader.js';
import { present } from './present.js';
import type { Place } from './read-shop.js';
import type { YamlNode } from './yaml-tree.js';

const bedNames = listSchemaFields(bedFields).map((field) => field.name);
const zoneNames = listSchemaFields(keepOutFields).map((field) => field.name);

/** mm²: less than the foot of any pattern. */
const leastRoom = 10;
/** What a nozzle needs between patterns where the margin is less. */
const leastGap = 3;

/** The print bed, all defaults where it is not given. Undefined if any of it is refused. */
export function readBed({ reader, node, path: at }: Place): PrintBed | undefined {
  const path = [...at, 'bed'];
  const group = child(node, 'bed') === undefined ? emptyGroup : reader.group(node, path);
  if (group === undefined) return undefined;
  reader.checkKeys(group, path, [...bedNames, 'keepOut']);
  const given = reader.fields(bedFields, group, path, false);
  const zones = readKeepOuts(reader, group, [...path, 'keepOut']);
  if (given === undefined || !checkShape(reader, group, path, given.shape)) return undefined;
  const { diameter, gap = Math.max(given.margin, leastGap), ...rest } = given;
  const round = diameter === undefined ? {} : { width: diameter, depth: diameter };
  const bed: PrintBed = { ...rest, ...round, gap, keepOuts: zones };
  const { margin } = bed;
  if (2 * margin >= Math.min(bed.width, bed.depth)) {
    const remedy = `less than half of its ${bed.shape === 'circle' ? 'diameter' : 'width and depth'}`;
    reader.refuse(
      'out-of-range',
      [...path, 'margin'],
      child(group, 'margin'),
      'leaves no room on the bed',
      remedy,
    );
    return undefined;
  }
  return checkKeepOuts(reader, bed, [...path, 'keepOut']) ? bed : undefined;
}

/** A circle has a diameter, a rectangle width and depth, and neither what is the other's. */
function checkShape(reader: JobReader, group: YamlNode, path: Path, shape: PrintBed['shape']): boolean {
  const has = (key: string): boolean => child(group, key) !== undefined;
  const strange = (shape === 'circle' ? ['width', 'depth'] : ['diameter']).find(has);
  if (strange !== undefined) {
    const [message, remedy] =
      shape === 'circle'
        ? [
            'is of a rectangle, the bed is a circle',
            has('diameter') ? 'leave it out' : 'give the diameter instead',
          ]
        : [
            'is of a circle, the bed is a rectangle',
            'write shape: circle beside it, or give width and depth instead',
          ];
    reader.refuse('given-twice', [...path, strange], child(group, strange), message, remedy);
  } else if (shape === 'circle' && !has('diameter'))
    reader.missing([...path, 'diameter'], 'a round bed needs it, like 200mm');
  else return true;
  return false;
}

/** Zones that are refused are left out. */
function readKeepOuts(reader: JobReader, group: YamlNode, path: Path): readonly KeepOut[] {
  const items = reader.list(group, path, mostKeepOuts, 'zones') ?? [];
  return items.flatMap((item, i) => readKeepOut(reader, item, [...path, String(i)]) ?? []);
}

function readKeepOut(reader: JobReader, item: YamlNode, path: Path): KeepOut | undefined {
  const holds = 'give x, y, and width and depth or a diameter';
  if (item.kind !== 'map') {
    reader.refuse('wrong-type', path, item, nodeIs(item), holds);
    return undefined;
  }
  reader.checkKeys(item, path, zoneNames);
  const given = reader.fields(keepOutFields, item, path, false);
  const has = (key: string): boolean => child(item, key) !== undefined;
  const isRound = has('diameter');
  const strange = isRound && ['width', 'depth'].find(has);
  if (strange)
    reader.refuse(
      'given-twice',
      [...path, strange],
      child(item, strange),
      'is given beside a diameter',
      'keep width and depth, or the diameter',
    );
  const wanted = isRound ? ['x', 'y'] : ['x', 'y', 'width', 'depth'];
  const missing = wanted.find((key) => !has(key));
  if (missing !== undefined) reader.missing([...path, missing], holds);
  if (given === undefined || strange || missing !== undefined) return undefined;
  const { x = 0, y = 0, width = 0, depth = 0, diameter, ...rest } = given;
  return { x, y, ...(diameter === undefined ? { width, depth } : { diameter }), ...present(rest) };
}

function checkKeepOuts(reader: JobReader, bed: PrintBed, path: Path): boolean {
  const unit = reader.lengthUnit;
  const says = (mm: number): string => formatLength(mm, unit);
  let all = true;
  bed.keepOuts.forEach((zone, i) => {
    const at = [...path, String(i)];
    const { above } = zone;
    if (!meetsBed(bed, zone)) {
      const size =
        bed.shape === 'circle'
          ? `${says(bed.width)} across, measured from the front left corner of the square about it`
          : `${says(bed.width)} × ${says(bed.depth)}, measured from its front left corner`;
      reader.refuse('out-of-range', at, undefined, 'lies outside the bed', `the bed is ${size}`);
    } else if (above !== undefined && above >= bed.height) {
      const most = `less than the bed's height, ${says(bed.height)}`;
      reader.refuse(
        'out-of-range',
        [...at, 'above'],
        undefined,
        `is ${says(above)}, which keeps nothing out`,
        most,
      );
    } else return;
    all = false;
  });
  if (all && measureRoom(bed) < leastRoom) {
    reader.refuse(
      'out-of-range',
      path,
      undefined,
      'leaves no room on the bed',
      'make the zones or the margin smaller',
    );
    return false;
  }
  return all;
}
