import { maths } from '../../maths/maths.js';
import type { Vec2 } from '../../solid/types.js';
import {
  crossesArea,
  type Obstacles,
  type Reach,
  type Segment,
  segmentsCross,
  touchesReach,
} from './obstacles.js';
import { type Area, dimensionSize, type Mark, makeText, overlaps, type TextMark } from './sheet-marks.js';
import { textWidth } from './text-width.js';

/** A text with its arrow to a point, or to a circle about it, on paper. */
export interface LeaderItem {
  readonly at: Vec2;
  readonly radius: number;
  /** Unit direction in which the line best leaves. */
  readonly outward?: Vec2;
  readonly words: string;
  readonly symbol?: string;
  /** Whether it ends in an arrowhead. */
  readonly arrow: boolean;
}

/** Level piece of the line before the words, mm. */
const shoulder = 2.5;
const beforeText = 0.8;
const offOutline = 1.5;
const directions = 24;
const firstReach = 5;
const reachStep = 2.5;
const mostReaches = 90;
const clear = 0.9;

interface Placed {
  readonly text: TextMark;
  readonly line: readonly [Vec2, Vec2, Vec2];
  readonly direction: Vec2;
}

/**
 * Leaders, each in the direction and with the reach that brings its words clear of the outline and of everything
 * placed before, at the least length, fewest crossings and smallest growth of the view.
 */
export function placeLeaders(
  items: readonly LeaderItem[],
  shape: Reach,
  outline: Area,
  obstacles: Obstacles,
) {
  const marks: Mark[] = [];
  const texts: TextMark[] = [];
  let grown = obstacles.texts.reduce(
    (a, b) => ({
      x0: Math.min(a.x0, b.x0),
      y0: Math.min(a.y0, b.y0),
      x1: Math.max(a.x1, b.x1),
      y1: Math.max(a.y1, b.y1),
    }),
    outline,
  );
  for (const item of items) {
    const placed = bestPlace(item, shape, grown, obstacles);
    if (!placed) continue;
    const { text, line, direction } = placed;
    texts.push(text);
    marks.push({ style: 'thin', points: line });
    if (item.arrow) marks.push({ tip: line[0], direction: [-direction[0], -direction[1]] });
    obstacles.texts.push(text.box);
    obstacles.leaders.push([line[0], line[1]], [line[1], line[2]]);
    grown = {
      x0: Math.min(grown.x0, text.box.x0),
      y0: Math.min(grown.y0, text.box.y0),
      x1: Math.max(grown.x1, text.box.x1),
      y1: Math.max(grown.y1, text.box.y1),
    };
  }
  return { marks, texts };
}

function bestPlace(item: LeaderItem, shape: Reach, grown: Area, obstacles: Obstacles): Placed | undefined {
  let best: Placed | undefined;
  let bestCost = Infinity;
  const width = textWidth(item.words, dimensionSize);
  for (let k = 0; k < directions; k++) {
    const angle = (2 * Math.PI * (k + 0.5)) / directions;
    const direction: Vec2 = [maths.cos(angle), maths.sin(angle)];
    for (let step = 0; step < mostReaches; step++) {
      const reach = firstReach + step * reachStep;
      const turned = item.outward
        ? 14 * (1 - direction[0] * item.outward[0] - direction[1] * item.outward[1])
        : 0;
      if (reach * 0.6 + turned >= bestCost) break;
      const box = boxAt(item, direction, reach, width);
      if (touchesReach(shape, box, offOutline)) continue;
      const bare = turned + bareCost(box, reach, grown);
      if (bare >= bestCost) continue;
      const placed = placeAt(item, direction, reach);
      const cost = bare + crossingCost(placed, obstacles);
      if (cost < bestCost) {
        best = placed;
        bestCost = cost;
      }
    }
  }
  return best;
}

function placeAt(item: LeaderItem, direction: Vec2, reach: number): Placed {
  const [dx, dy] = direction;
  const start: Vec2 = [item.at[0] + item.radius * dx, item.at[1] + item.radius * dy];
  const bend: Vec2 = [start[0] + reach * dx, start[1] + reach * dy];
  const way = dx >= 0 ? 1 : -1;
  const end: Vec2 = [bend[0] + way * shoulder, bend[1]];
  return {
    direction,
    line: [start, bend, end],
    text: makeText(item.words, [end[0] + way * beforeText, end[1] + 0.36 * dimensionSize], {
      size: dimensionSize,
      anchor: way > 0 ? 'start' : 'end',
      ...(item.symbol === undefined ? {} : { symbol: item.symbol }),
    }),
  };
}

/** The box of its words, for the many places that come to nothing. */
function boxAt({ at, radius }: LeaderItem, [dx, dy]: Vec2, reach: number, width: number): Area {
  const way = dx >= 0 ? 1 : -1;
  const x = at[0] + (radius + reach) * dx + way * (shoulder + beforeText);
  const y = at[1] + (radius + reach) * dy;
  return {
    x0: way > 0 ? x : x - width,
    x1: way > 0 ? x + width : x,
    y0: y - dimensionSize / 2,
    y1: y + dimensionSize / 2,
  };
}

/** What the place costs in length and in growth of the view, before anything in its way is looked at. */
const bareCost = (box: Area, reach: number, grown: Area): number =>
  reach * 0.6 +
  1.2 *
    (Math.max(0, grown.x0 - box.x0) +
      Math.max(0, box.x1 - grown.x1) +
      Math.max(0, grown.y0 - box.y0) +
      Math.max(0, box.y1 - grown.y1));

/**
 * What crossings add: little for extension lines, more for dimension lines, and so much for lines under words and
 * leaders that cross that they happen only where there is no other way. Infinity where its words would meet others.
 */
function crossingCost({ text, line }: Placed, o: Obstacles): number {
  for (const t of o.texts) if (overlaps(t, text.box, clear)) return Infinity;
  for (const r of o.reserved) if (overlaps(r, text.box)) return Infinity;
  const own: readonly Segment[] = [
    [line[0], line[1]],
    [line[1], line[2]],
  ];
  let cost = 0;
  for (const t of o.texts) if (own.some((s) => crossesArea(s, t, clear / 2))) cost += 200;
  for (const l of o.leaders)
    if (crossesArea(l, text.box, clear) || own.some((s) => segmentsCross(s, l))) cost += 200;
  for (const l of o.lines) {
    if (crossesArea(l, text.box, clear / 2)) cost += 200;
    for (const s of own) if (segmentsCross(s, l)) cost += 8;
  }
  for (const e of o.extensions) {
    if (crossesArea(e, text.box, 0.4)) cost += 12;
    for (const s of own) if (segmentsCross(s, e)) cost += 3;
  }
  return cost;
}
