import { findAlloy } from '../../foundry/alloys/index.js';
import type { PartSummary } from '../../job/summary.js';
import { createFormat, type Format, type View } from '../format.js';
import { arrangeViews, heightOf, standIn, widthOf } from './arrange-views.js';
import { type DataRow, dataBlock } from './data-block.js';
import type { DrawnPart } from './drawn-part.js';
import {
  type Area,
  type Block,
  dimensionSize,
  joinBlocks,
  makeBlock,
  makeText,
  shiftBlock,
} from './sheet-marks.js';
import { dataValue, sizeValue, symbolsOf } from './size-text.js';
import { formatBlock } from './svg.js';
import { projectionSymbol, titleBlock } from './title-block.js';
import { viewBlock } from './view-block.js';

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

/** ISO 5455, and 1:20 for the largest. */
const scales = [10, 5, 2, 1, 1 / 2, 1 / 5, 1 / 10, 1 / 20] as const;

export const formatScale = (scale: number): string =>
  scale >= 1 ? `${scale}:1` : `1:${Math.round(1 / scale)}`;

/** What both A4 (297 × 210) and US Letter (279.4 × 215.9) have, so that either prints the whole at true size. */
const papers = [
  { width: 279, height: 210 },
  { width: 210, height: 279 },
] as const;
const border = 10;
const air = 5;

/**
 * The drawing of a finished part on one sheet, landscape or portrait, whichever takes the larger scale.
 * @param part its summary: the values of all sizes are those of `dimensions`
 */
export function drawSheet(part: PartSummary, drawn: DrawnPart, view: View): Sheet {
  const f = createFormat(view);
  const atScale = viewsAtScales(part, drawn, f);
  const rows = dataRows(part, drawn, f, true);
  let best:
    | { scale: number; paper: (typeof papers)[number]; views: Block; table: Block; room: Area }
    | undefined;
  for (const scale of scales) {
    for (const paper of papers) {
      const frame = frameOf(paper);
      if (!bareFits(drawn, scale, frame)) continue;
      const views = atScale(scale);
      const foot = titleBlock(wordsOf(part, scale, f), widthOf(frame)).area;
      const above = { ...frame, y1: frame.y1 - heightOf(foot) };
      for (const { table, room } of tablePlaces(drawn.dataTitle, rows, above)) {
        if (widthOf(views.area) > widthOf(room) || heightOf(views.area) > heightOf(room)) continue;
        best = { scale, paper, views, table, room };
        break;
      }
      if (best) break;
    }
    if (best) break;
  }
  if (!best) throw new RangeError(`${part.name}: its drawing fits no sheet at 1:20`);
  const { scale, paper, views, table, room } = best;
  const frame = frameOf(paper);
  const foot = titleBlock(wordsOf(part, scale, f), widthOf(frame));
  const border: Block = makeBlock(
    [
      {
        style: 'frame',
        closed: true,
        points: [
          [frame.x0, frame.y0],
          [frame.x1, frame.y0],
          [frame.x1, frame.y1],
          [frame.x0, frame.y1],
        ],
      },
    ],
    [],
  );
  return {
    ...paper,
    frame,
    scale,
    block: joinBlocks([
      border,
      standIn(views, room),
      table,
      shiftBlock(foot, [frame.x0, frame.y1 - heightOf(foot.area)]),
    ]),
  };
}

/** Whether the shapes alone, without dimensions, could fit: most scales need no more than that to be ruled out. */
const bareFits = ({ views }: DrawnPart, scale: number, room: Area): boolean =>
  views.every(({ size: [w, h] }) => w * scale < widthOf(room) && h * scale < heightOf(room));

/** Draws each scale once. */
function viewsAtScales(part: PartSummary, drawn: DrawnPart, f: Format): (scale: number) => Block {
  const made = new Map<number, Block>();
  return (scale) => {
    let block = made.get(scale);
    if (!block) {
      block = arrangeViews(
        drawn.views,
        drawn.views.map((view) => viewBlock(view, scale, part.dimensions, f)),
      );
      made.set(scale, block);
    }
    return block;
  };
}

const frameOf = ({ width, height }: { width: number; height: number }): Area => ({
  x0: border,
  y0: border,
  x1: width - border,
  y1: height - border,
});

/** The table at the right, or at the foot in columns, with the room that it leaves. */
function tablePlaces(title: string, rows: readonly DataRow[], within: Area) {
  const inner = { x0: within.x0 + air, y0: within.y0 + air, x1: within.x1 - air, y1: within.y1 - air };
  if (rows.length === 0) return [{ table: dataBlock(title, rows, 1), room: inner }];
  return [
    ...[1, 2].map((columns) => {
      const table = dataBlock(title, rows, columns);
      const x = inner.x1 - widthOf(table.area);
      return {
        table: shiftBlock(table, [x - table.area.x0, inner.y0 - table.area.y0]),
        room: { ...inner, x1: x - air },
        fits: heightOf(table.area) <= heightOf(inner),
      };
    }),
    ...[2, 3, 4].map((columns) => {
      const table = dataBlock(title, rows, columns);
      const y = inner.y1 - heightOf(table.area);
      return {
        table: shiftBlock(table, [inner.x0 - table.area.x0, y - table.area.y0]),
        room: { ...inner, y1: y - air },
        fits: widthOf(table.area) <= widthOf(inner),
      };
    }),
  ].filter(({ fits }) => fits);
}

/** The part's own data, and the sizes that no view shows. */
function dataRows(part: PartSummary, drawn: DrawnPart, f: Format, sizes: boolean): readonly DataRow[] {
  const onViews = new Set(drawn.views.flatMap((v) => v.dimensions.flatMap(symbolsOf)));
  return [
    ...drawn.data.map(
      (note): DataRow => ({
        symbol: note.symbol ?? '',
        name: note.name,
        value: dataValue(note, f),
        isSize: false,
      }),
    ),
    ...(sizes ? part.dimensions.filter((row) => !onViews.has(row.symbol)) : []).map(
      (row): DataRow => ({
        symbol: row.symbol,
        name: row.name,
        value: sizeValue(row.part, row.unit, f),
        isSize: true,
      }),
    ),
  ];
}

const unitWords = (f: Format): string => (f.view.lengthUnit === 'mm' ? 'millimetres' : 'inches');

function wordsOf(part: PartSummary, scale: number, f: Format) {
  const grade = part.castingTolerance?.grade;
  return {
    name: part.name,
    title: part.title,
    material: [findAlloy(part.alloy)?.title ?? part.alloy, `finished ${f.mass(part.mass.part)}`],
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

/** `drawing.svg`. */
export function formatSheet(part: PartSummary, drawn: DrawnPart, view: View): string {
  const { block, width, height } = drawSheet(part, drawn, view);
  return formatBlock(block, width, height, `Drawing: ${part.name}`);
}

/** What the text of a traveller leaves across an A4 page, mm. */
const figureWidth = 184;
const tallestFigure = 165;

/**
 * The same drawing to stand over an inspection sheet: the views at true scale with the part's data, without frame
 * and title block, since the paper round it says the rest.
 */
export function drawFigure(part: PartSummary, drawn: DrawnPart, view: View): Sheet {
  const f = createFormat(view);
  const atScale = viewsAtScales(part, drawn, f);
  const rows = dataRows(part, drawn, f, false);
  const scale =
    scales.find((s) => {
      if (!bareFits(drawn, s, { x0: 0, y0: 0, x1: figureWidth, y1: tallestFigure })) return false;
      const { area } = atScale(s);
      return widthOf(area) <= figureWidth - 2 && heightOf(area) <= tallestFigure;
    }) ?? 1 / 20;
  const views = atScale(scale);
  const bottom = 1 + heightOf(views.area);
  const placed = standIn(views, { x0: 0, x1: figureWidth, y0: 1, y1: bottom });
  const table = [3, 2, 1]
    .map((columns) => dataBlock(drawn.dataTitle, rows, columns))
    .find((t) => widthOf(t.area) <= figureWidth - 2) as Block;
  const y = bottom + air;
  const placedTable = shiftBlock(table, [1, y]);
  const end = rows.length === 0 ? bottom + 2 : y + heightOf(table.area) + 2;
  const caption = makeBlock(projectionSymbol([11, end + 5]), [
    makeText(
      `Scale ${formatScale(scale)}, finished part, ${unitWords(f)}, first-angle projection`,
      [24, end + 5 + 0.36 * dimensionSize],
      { size: dimensionSize },
    ),
  ]);
  const height = end + 11;
  return {
    width: figureWidth,
    height,
    frame: { x0: 0, y0: 0, x1: figureWidth, y1: height },
    scale,
    block: joinBlocks([placed, placedTable, caption]),
  };
}

export function formatFigure(part: PartSummary, drawn: DrawnPart, view: View): string {
  const { block, width, height } = drawFigure(part, drawn, view);
  return formatBlock(block, width, height, `Drawing: ${part.name}`);
}
