import type { LengthNote } from '../../part/drawing-notes.js';
import type { Vec2 } from '../../solid/types.js';
import { crossesArea, type Obstacles, type Segment, sameLane } from './obstacles.js';
import { type Area, dimensionSize, type Mark, makeText, overlaps, type TextMark } from './sheet-marks.js';
import { textWidth } from './text-width.js';

/** A length to draw, on paper: its two points and its words. */
export interface LengthItem {
  readonly side: LengthNote['side'];
  readonly half: boolean;
  readonly from: Vec2;
  readonly to: Vec2;
  readonly words: string;
  readonly symbol?: string;
}

export const arrowLength = 2.8;
/** First dimension line from the outline, and one from the next (ISO 129-1 wants them clear; common practice). */
const firstLane = 8.5;
const nextLane = 7;
const mostLanes = 14;
/** Extension lines start and end clear of the outline and past the dimension line. */
const footGap = 0.8;
const pastLine = 1.6;
/** Tails of arrows that point inward from outside. */
const tail = 5.5;
/** Clear round a text. */
const clear = 0.9;
/** How far the line of a half dimension runs past the axis. */
const pastAxis = 4;
const mostPastAxis = 14;

interface Placed {
  readonly text: TextMark;
  readonly line: Segment;
  readonly extensions: readonly Segment[];
  readonly marks: readonly Mark[];
}

/**
 * Dimension lines beside the outline, the shorter ones nearer. Each takes the nearest lane, and there the place for
 * its words, where they meet nothing; every line placed becomes an obstacle for the next.
 */
export function placeLengths(items: readonly LengthItem[], outline: Area, obstacles: Obstacles) {
  const marks: Mark[] = [];
  const texts: TextMark[] = [];
  const bySize = [...items].sort((a, b) => spanOf(a) - spanOf(b));
  bySize.forEach((item, i) => {
    // Extension lines of the longer ones will run past on the same side.
    const coming = bySize
      .slice(i + 1)
      .filter((other) => other.side === item.side)
      .flatMap((other) => extensionsOf(other, levelOf(other.side, mostLanes, outline)));
    const placed = bestPlace(item, outline, {
      ...obstacles,
      extensions: [...obstacles.extensions, ...coming],
    });
    marks.push(...placed.marks);
    texts.push(placed.text);
    obstacles.texts.push(placed.text.box);
    obstacles.lines.push(placed.line);
    obstacles.extensions.push(...placed.extensions);
  });
  return { marks, texts };
}

const isAcross = (side: LengthNote['side']): boolean => side === 'above' || side === 'below';

/** Both ends along the measure; a half dimension breaks off past the axis, where its words have found room. */
function ends(item: LengthItem): readonly [number, number] {
  const { side, from, to, half } = item;
  const k = isAcross(side) ? 0 : 1;
  const [a, b] = [from[k], to[k]];
  if (!half) return [a, b];
  const reach = Math.abs(a - b) / 2;
  const wanted = textWidth(item.words, dimensionSize) + arrowLength + 1.2 - reach;
  const past = Math.max(pastAxis, Math.min(wanted, mostPastAxis));
  return [(a + b) / 2 + Math.sign(a - b) * past, b];
}

const spanOf = (item: LengthItem): number => {
  const [a, b] = ends(item);
  return Math.abs(a - b);
};

function bestPlace(item: LengthItem, outline: Area, obstacles: Obstacles): Placed {
  let best: Placed | undefined;
  let bestCost = Infinity;
  for (let lane = 0; lane < mostLanes; lane++) {
    for (const where of [0, 1, -1] as const) {
      const placed = placeAt(item, outline, lane, where);
      if (!placed || !isFree(placed, obstacles)) continue;
      const cost = lane * 10 + Math.abs(where) * 3 + crossings(placed, obstacles) * 8;
      if (cost < bestCost) {
        best = placed;
        bestCost = cost;
      }
    }
    if (bestCost <= (lane + 1) * 10) break;
  }
  return best ?? ((placeAt(item, outline, mostLanes, 0) ?? placeAt(item, outline, mostLanes, 1)) as Placed);
}

function levelOf(side: LengthNote['side'], lane: number, outline: Area): number {
  const offset = firstLane + lane * nextLane;
  return {
    above: outline.y0 - offset,
    below: outline.y1 + offset,
    left: outline.x0 - offset,
    right: outline.x1 + offset,
  }[side];
}

const extensionsOf = (item: LengthItem, level: number): readonly Segment[] =>
  [item.from, item.to].filter((_, i) => !(item.half && i === 0)).map((p) => extension(p, item.side, level));

/**
 * @param where words between the ends, or beyond the greater (1) or the lesser (−1); between them also where they
 *   only just do not fit, if there is no other way
 */
function placeAt(item: LengthItem, outline: Area, lane: number, where: 0 | 1 | -1): Placed | undefined {
  const across = isAcross(item.side);
  const level = levelOf(item.side, lane, outline);
  const point = (along: number): Vec2 => (across ? [along, level] : [level, along]);
  const width = textWidth(item.words, dimensionSize);
  const [first, second] = ends(item);
  const [low, high] = [Math.min(first, second), Math.max(first, second)];
  const gap = high - low;
  const heads = (item.half ? 1 : 2) * arrowLength;
  const arrowsInside = gap >= heads + (where === 0 ? width + 1 : 1.5);
  if (where === 0 && gap < width + 0.8) return undefined;
  if (where !== 0 && arrowsInside && gap >= heads + width + 1) return undefined;
  const out = arrowsInside ? 0 : tail;
  // A half dimension has one arrow; its other end breaks off.
  const openLow = item.half && first < second;
  const openHigh = item.half && first > second;
  let [from, to] = [low - (openLow ? 0 : out), high + (openHigh ? 0 : out)];
  // Clear of the one arrow.
  const aside = arrowsInside ? ((openLow ? -1 : 0) + (openHigh ? 1 : 0)) * (arrowLength / 2) : 0;
  let middle = (low + high) / 2 + aside;
  if (where > 0) {
    middle = to + 1 + width / 2;
    to = middle + width / 2;
  } else if (where < 0) {
    middle = from - 1 - width / 2;
    from = middle - width / 2;
  }
  const text = across
    ? makeText(item.words, [middle, level - 1.1], {
        size: dimensionSize,
        anchor: 'middle',
        ...symbolOf(item),
      })
    : makeText(item.words, [level - 1.1, middle], {
        size: dimensionSize,
        anchor: 'middle',
        upward: true,
        ...symbolOf(item),
      });
  const line: Segment = [point(from), point(to)];
  const extensions = extensionsOf(item, level);
  const head = (along: number, inward: number): Mark => {
    const way = inward * (arrowsInside ? -1 : 1);
    return { tip: point(along), direction: across ? [way, 0] : [0, way] };
  };
  return {
    text,
    line,
    extensions,
    marks: [
      { style: 'thin', points: line },
      ...extensions.map((points): Mark => ({ style: 'thin', points })),
      ...(openLow ? [] : [head(low, 1)]),
      ...(openHigh ? [] : [head(high, -1)]),
    ],
  };
}

const symbolOf = (item: LengthItem) => (item.symbol === undefined ? {} : { symbol: item.symbol });

function extension([x, y]: Vec2, side: LengthNote['side'], level: number): Segment {
  if (isAcross(side)) {
    const way = Math.sign(level - y);
    return [
      [x, y + way * footGap],
      [x, level + way * pastLine],
    ];
  }
  const way = Math.sign(level - x);
  return [
    [x + way * footGap, y],
    [level + way * pastLine, y],
  ];
}

const isFree = (placed: Placed, { texts, lines, leaders, reserved }: Obstacles): boolean =>
  !reserved.some((r) => overlaps(placed.text.box, r) || crossesArea(placed.line, r)) &&
  !texts.some((t) => overlaps(placed.text.box, t, clear) || crossesArea(placed.line, t, clear)) &&
  !lines.some(
    (l) => crossesArea(l, placed.text.box, clear / 2) || sameLane(l, placed.line, nextLane - 1, 1),
  ) &&
  !leaders.some((l) => crossesArea(l, placed.text.box, clear));

const crossings = (placed: Placed, { texts, extensions }: Obstacles): number =>
  extensions.filter((e) => crossesArea(e, placed.text.box, 0.4)).length +
  placed.extensions.reduce((n, e) => n + texts.filter((t) => crossesArea(e, t, 0.4)).length, 0);
