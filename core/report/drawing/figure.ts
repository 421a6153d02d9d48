import { createFormat, type View } from '../format.js';
import { heightOf, standIn, widthOf } from './arrange-views.js';
import { dataBlock } from './data-block.js';
import type { DrawnPart } from './drawn-part.js';
import type { DrawingSubject, Sheet } from './sheet.js';
import { dimensionSize, joinBlocks, makeBlock, makeText, shiftBlock } from './sheet-marks.js';
import { formatBlock } from './svg.js';
import { projectionSymbol } from './title-block.js';
import { bareSize, formatScale, ownRows, scales, viewsAtScale } from './views-at-scale.js';

/** What the text of a traveller leaves across an A4 page, mm. */
const figureWidth = 184;
const tallest = 165;
const air = 5;
const edge = 1;

/**
 * The same drawing to stand over an inspection sheet: the views at true scale with the part's own data, without
 * frame and title block, since the paper round it says the rest and the sheet below lists the sizes.
 */
export function drawFigure(subject: DrawingSubject, drawn: DrawnPart, view: View): Sheet {
  const f = createFormat(view);
  const viewsAt = viewsAtScale(drawn, subject.dimensions, f);
  const bare = bareSize(drawn);
  const room = figureWidth - 2 * edge;
  const scale =
    scales.find((s) => {
      if (bare[0] * s > room || bare[1] * s > tallest) return false;
      const { area } = viewsAt(s);
      return widthOf(area) <= room && heightOf(area) <= tallest;
    }) ?? (scales.at(-1) as number);
  const views = viewsAt(scale);
  const viewsEnd = edge + heightOf(views.area);
  const rows = ownRows(drawn, f);
  const table =
    [3, 2].map((n) => dataBlock(drawn.dataTitle, rows, n)).find((t) => widthOf(t.area) <= room) ??
    dataBlock(drawn.dataTitle, rows, 1);
  const tableAt = viewsEnd + air;
  const end = rows.length === 0 ? viewsEnd + 2 : tableAt + heightOf(table.area) + 2;
  const middle = end + 5;
  const unit = f.view.lengthUnit === 'mm' ? 'millimetres' : 'inches';
  const caption = makeBlock(projectionSymbol([11, middle]), [
    makeText(
      `Scale ${formatScale(scale)}, finished part, ${unit}, first-angle projection`,
      [24, middle + 0.36 * dimensionSize],
      { size: dimensionSize },
    ),
  ]);
  const height = middle + 6;
  return {
    width: figureWidth,
    height,
    frame: { x0: 0, y0: 0, x1: figureWidth, y1: height },
    scale,
    block: joinBlocks([
      standIn(views, { x0: 0, x1: figureWidth, y0: edge, y1: viewsEnd }),
      shiftBlock(table, [edge - table.area.x0, tableAt - table.area.y0]),
      caption,
    ]),
  };
}

export function formatFigure(subject: DrawingSubject, drawn: DrawnPart, view: View): string {
  const { block, width, height } = drawFigure(subject, drawn, view);
  return formatBlock(block, width, height, `Drawing: ${subject.name}`);
}
