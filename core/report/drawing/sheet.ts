import { findAlloy } from '../../foundry/alloys/index.js';
import type { PartSummary } from '../../job/summary.js';
import { createFormat, type Format, type View } from '../format.js';
import { heightOf, standIn, widthOf } from './arrange-views.js';
import { type DataRow, dataBlock } from './data-block.js';
import type { DrawnPart } from './drawn-part.js';
import { type Area, type Block, joinBlocks, makeBlock, shiftBlock } from './sheet-marks.js';
import { formatBlock } from './svg.js';
import { type TitleWords, titleBlock, titleHeight } from './title-block.js';
import { bareSize, formatScale, ownRows, scales, unshownRows, viewsAtScale } from './views-at-scale.js';

/** What a drawing says of its part beside the views; `dimensions` give the values of all sizes by symbol. */
export type DrawingSubject = Pick<
  PartSummary,
  'name' | 'title' | 'alloy' | 'dimensions' | 'castingTolerance' | 'mass'
>;

/** A drawing on its paper, mm. */
export interface Sheet {
  readonly width: number;
  readonly height: number;
  /** Nothing is drawn outside it. */
  readonly frame: Area;
  readonly block: Block;
  /** Paper size / part size. */
  readonly scale: number;
}

interface Paper {
  readonly width: number;
  readonly height: number;
}

/**
 * What A4 (297 × 210) and US Letter (279.4 × 215.9) have in common, so that either prints the whole at true size;
 * and the larger sheets of ISO 216 for what no A4 holds.
 */
const papers: readonly Paper[] = [
  [279, 210],
  [420, 297],
  [594, 420],
  [841, 594],
  [1189, 841],
].flatMap(([long = 0, short = 0]) => [
  { width: long, height: short },
  { width: short, height: long },
]);
const border = 10;
const air = 5;

/**
 * The drawing of a finished part on one sheet, landscape or portrait, whichever takes the larger scale.
 * @throws RangeError where the views fit no sheet at any scale
 */
export function drawSheet(subject: DrawingSubject, drawn: DrawnPart, view: View): Sheet {
  const f = createFormat(view);
  const rows = [...ownRows(drawn, f), ...unshownRows(drawn, subject.dimensions, f)];
  const viewsAt = viewsAtScale(drawn, subject.dimensions, f);
  const tables = tablesOf(drawn.dataTitle, rows);
  const bare = bareSize(drawn);
  for (let size = 0; size < papers.length; size += 2) {
    for (const scale of scales) {
      for (const paper of papers.slice(size, size + 2)) {
        const frame = frameOf(paper);
        if (bare[0] * scale > widthOf(frame) || bare[1] * scale > heightOf(frame)) continue;
        const above = { ...frame, y1: frame.y1 - titleHeight(widthOf(frame)) };
        const placed = placeTable(tables, inside(above), viewsAt(scale));
        if (!placed) continue;
        const foot = shiftBlock(titleBlock(wordsOf(subject, scale, f), widthOf(frame)), [frame.x0, above.y1]);
        return { ...paper, frame, scale, block: joinBlocks([frameLine(frame), ...placed, foot]) };
      }
    }
  }
  throw new RangeError(`the drawing of ${subject.name} fits no sheet`);
}

/** `drawing.svg`. */
export function formatSheet(subject: DrawingSubject, drawn: DrawnPart, view: View): string {
  const { block, width, height } = drawSheet(subject, drawn, view);
  return formatBlock(block, width, height, `Drawing: ${subject.name}`);
}

const frameOf = ({ width, height }: Paper): Area => ({
  x0: border,
  y0: border,
  x1: width - border,
  y1: height - border,
});

const inside = (a: Area): Area => ({ x0: a.x0 + air, y0: a.y0 + air, x1: a.x1 - air, y1: a.y1 - air });

const frameLine = ({ x0, y0, x1, y1 }: Area): Block =>
  makeBlock(
    [
      {
        style: 'frame',
        closed: true,
        points: [
          [x0, y0],
          [x1, y0],
          [x1, y1],
          [x0, y1],
        ],
      },
    ],
    [],
  );

/** The table of the data in so many columns, each made once. */
function tablesOf(title: string, rows: readonly DataRow[]): (columns: number) => Block {
  const made = new Map<number, Block>();
  return (columns) => {
    const table = made.get(columns) ?? dataBlock(title, rows, columns);
    made.set(columns, table);
    return table;
  };
}

/** Views and table in a room: the table at the right, else along the foot; undefined where they do not fit. */
function placeTable(
  tables: (columns: number) => Block,
  room: Area,
  views: Block,
): readonly Block[] | undefined {
  const fits = (block: Block, area: Area): boolean =>
    widthOf(block.area) <= widthOf(area) && heightOf(block.area) <= heightOf(area);
  const put = (table: Block, x: number, y: number): Block =>
    shiftBlock(table, [x - table.area.x0, y - table.area.y0]);
  for (const columns of [1, 2, 3]) {
    const table = tables(columns);
    const x = room.x1 - widthOf(table.area);
    const left = { ...room, x1: widthOf(table.area) > 0 ? x - air : room.x1 };
    if (fits(table, room) && fits(views, left)) return [standIn(views, left), put(table, x, room.y0)];
  }
  for (const columns of [2, 3, 4, 1]) {
    const table = tables(columns);
    const y = room.y1 - heightOf(table.area);
    const over = { ...room, y1: y - air };
    if (fits(table, room) && fits(views, over)) return [standIn(views, over), put(table, room.x0, y)];
  }
  return undefined;
}

function wordsOf(subject: DrawingSubject, scale: number, f: Format): TitleWords {
  const grade = subject.castingTolerance?.grade;
  return {
    name: subject.name,
    title: subject.title,
    material: [findAlloy(subject.alloy)?.title ?? subject.alloy, `finished ${f.mass(subject.mass.part)}`],
    sizes: [
      'Dimensions of the finished part at 20 °C; the casting carries stock.',
      ...(grade === undefined
        ? []
        : [`As cast, where left rough: ISO 8062-3 DCTG ${grade}. Machined sizes as the fit needs.`]),
    ],
    scale: formatScale(scale),
    unit: f.view.lengthUnit === 'mm' ? 'sizes in mm' : 'sizes in inches',
  };
}
