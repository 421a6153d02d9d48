import type { DimensionRow } from '../../job/summary.js';
import { maths } from '../../maths/maths.js';
import type { AngleNote, LengthNote } from '../../part/drawing-notes.js';
import type { Vec2, Vec3 } from '../../solid/types.js';
import type { Format } from '../format.js';
import type { CutMark, DrawnView, Edge, Stroke } from './drawn-part.js';
import { hatchLines } from './hatch.js';
import { noObstacles, type Obstacles, reachOf } from './obstacles.js';
import { type LeaderItem, placeLeaders } from './place-leaders.js';
import { arrowLength, type LengthItem, placeLengths } from './place-lengths.js';
import {
  type Area,
  areaOfMark,
  areaOfPoints,
  type Block,
  type Mark,
  makeBlock,
  makeText,
  noArea,
  type TextMark,
  unite,
} from './sheet-marks.js';
import { sizedText, symbolsOf } from './size-text.js';
import { onView } from './view-frame.js';

/** Size of the letters of cutting planes and of section titles, mm. */
const letterSize = 5;

/** One view at a scale, with its dimensions, about its own origin: where the part's origin comes to lie. */
export function viewBlock(view: DrawnView, scale: number, rows: readonly DimensionRow[], f: Format): Block {
  const paper = ([u, v]: Vec2): Vec2 => [u * scale, -v * scale];
  const strokes = view.strokes.map((stroke) => onPaper(stroke, scale));
  const hatched = view.hatched.map(([a, b]): Edge => [paper(a), paper(b)]);
  const shape = strokes.filter(
    (mark) => !('style' in mark) || mark.style === 'visible' || mark.style === 'hidden',
  );
  const outline = shape.map(areaOfMark).reduce(unite, noArea);
  const obstacles = noObstacles();
  for (const mark of strokes) {
    if ('points' in mark && mark.style === 'chain' && mark.points.length === 2)
      obstacles.extensions.push(mark.points as unknown as Edge);
  }
  const cuts = view.cuts.map((cut) => cutMarks(cut, outline, paper, obstacles));

  const lengths: LengthItem[] = [];
  const leaders: LeaderItem[] = [];
  const extra: Mark[] = [];
  for (const note of view.dimensions) {
    const words = sizedText(note, rows, f);
    if (words === undefined) continue;
    const symbol = symbolsOf(note).join(' ');
    const said = symbol === '' ? { words } : { words, symbol };
    const at = (p: Vec3): Vec2 => paper(onView(view.frame, p));
    if ('side' in note)
      lengths.push({ ...said, ...lengthEnds(note, at), side: note.side, half: note.half ?? false });
    else if ('legs' in note) {
      const arc = angleArc(note, at);
      obstacles.reserved.push(arc.area);
      extra.push(...arc.marks);
      leaders.push({ ...said, at: arc.middle, radius: 0, arrow: false });
    } else {
      leaders.push({
        ...said,
        at: at(note.at),
        radius: (note.radius ?? 0) * scale,
        arrow: true,
        ...(note.outward ? { outward: unitOnPaper(onView(view.frame, note.outward)) } : {}),
      });
    }
  }
  const placedLengths = placeLengths(lengths, outline, obstacles);
  const reach = reachOf(shape.flatMap(pointsOf));
  const placedLeaders = placeLeaders(leaders, reach, outline, obstacles);
  const block = makeBlock(
    [
      ...hatchLines(hatched).map((points): Mark => ({ style: 'thin', points })),
      ...strokes,
      ...cuts.flatMap((c) => c.marks),
      ...extra,
      ...placedLengths.marks,
      ...placedLeaders.marks,
    ],
    [...cuts.flatMap((c) => c.texts), ...placedLengths.texts, ...placedLeaders.texts],
  );
  return view.letter === undefined ? block : withTitle(block, view.letter, outline);
}

const lengthEnds = (note: LengthNote, at: (p: Vec3) => Vec2) => ({ from: at(note.from), to: at(note.to) });

const unitOnPaper = ([u, v]: Vec2): Vec2 => {
  const length = maths.hypot(u, v) || 1;
  return [u / length, -v / length];
};

function onPaper(stroke: Stroke, scale: number): Mark {
  const style = stroke.kind;
  if ('points' in stroke)
    return {
      style,
      points: stroke.points.map(([u, v]): Vec2 => [u * scale, -v * scale]),
      ...(stroke.closed ? { closed: true } : {}),
    };
  const { centre, radius, from, to } = stroke;
  return {
    style,
    centre: [centre[0] * scale, -centre[1] * scale],
    radius: radius * scale,
    ...(from === undefined || to === undefined ? {} : { from, to }),
  };
}

function pointsOf(mark: Mark): readonly Vec2[] {
  if ('points' in mark) return mark.points;
  if ('tip' in mark) return [mark.tip];
  const { centre, radius, from = 0, to = 2 * Math.PI } = mark;
  const steps = 36;
  return Array.from({ length: steps + 1 }, (_, i): Vec2 => {
    const angle = from + ((to - from) * i) / steps;
    return [centre[0] + radius * maths.cos(angle), centre[1] - radius * maths.sin(angle)];
  });
}

/** Thick ends of a cutting plane outside the view, arrows in the direction of sight, its letter at their tails. */
function cutMarks(cut: CutMark, outline: Area, paper: (p: Vec2) => Vec2, obstacles: Obstacles) {
  const at = paper(cut.at);
  const level = cut.along[0] !== 0;
  const [low, high] = level ? [outline.x0, outline.x1] : [outline.y0, outline.y1];
  const point = (along: number): Vec2 => (level ? [along, at[1]] : [at[0], along]);
  const look: Vec2 = [cut.look[0], -cut.look[1]];
  const marks: Mark[] = [{ style: 'chain', points: [point(low - 2.5), point(high + 2.5)] }];
  const texts: TextMark[] = [];
  for (const [inner, outer] of [
    [low - 2.5, low - 6.5],
    [high + 2.5, high + 6.5],
  ] as const) {
    const tip = point(outer);
    const start: Vec2 = [tip[0] - look[0] * 6, tip[1] - look[1] * 6];
    marks.push(
      { style: 'cutting', points: [point(inner), tip] },
      { style: 'thin', points: [start, tip] },
      { tip, direction: look },
    );
    const middle: Vec2 = [tip[0] - look[0] * 8.6, tip[1] - look[1] * 8.6];
    const letter = makeText(cut.letter, [middle[0], middle[1] + 0.36 * letterSize], {
      size: letterSize,
      anchor: 'middle',
      bold: true,
    });
    texts.push(letter);
    obstacles.texts.push(letter.box);
    obstacles.lines.push([start, tip]);
  }
  return { marks, texts };
}

/** The arc of an angle with its two legs drawn on as far as it. */
function angleArc(note: AngleNote, at: (p: Vec3) => Vec2): { marks: Mark[]; middle: Vec2; area: Area } {
  const corner = at(note.corner);
  const legs = note.legs.map((leg) => {
    const [x, y] = at(leg);
    return {
      angle: maths.atan2(corner[1] - y, x - corner[0]),
      length: maths.hypot(x - corner[0], y - corner[1]),
    };
  }) as [{ angle: number; length: number }, { angle: number; length: number }];
  const radius = Math.max(9, Math.min(20, 0.8 * Math.max(legs[0].length, legs[1].length)));
  const around = (angle: number, r: number): Vec2 => [
    corner[0] + r * maths.cos(angle),
    corner[1] - r * maths.sin(angle),
  ];
  const turn = maths.atan2(
    maths.sin(legs[1].angle - legs[0].angle),
    maths.cos(legs[1].angle - legs[0].angle),
  );
  const [from, to] = turn > 0 ? [legs[0].angle, legs[0].angle + turn] : [legs[0].angle + turn, legs[0].angle];
  // Arrows of a short arc point inward from outside.
  const way = (to - from) * radius > 3 * arrowLength ? 1 : -1;
  const tails = way > 0 ? 0 : arrowLength / radius;
  const heads: readonly Mark[] = [
    { tip: around(from, radius), direction: [way * maths.sin(from), way * maths.cos(from)] },
    { tip: around(to, radius), direction: [-way * maths.sin(to), -way * maths.cos(to)] },
  ];
  const drawnOn = legs.map(
    ({ angle }): Mark => ({ style: 'thin', points: [corner, around(angle, radius + 1.6)] }),
  );
  return {
    marks: [...drawnOn, { style: 'thin', centre: corner, radius, from, to }, ...heads],
    middle: around((from + to) / 2, radius),
    area: areaOfPoints(
      [from - tails, from, (from + to) / 2, to, to + tails].map((angle) => around(angle, radius)),
    ),
  };
}

/** `A–A` over a section. */
function withTitle(block: Block, letter: string, outline: Area): Block {
  const title = makeText(`${letter}–${letter}`, [(outline.x0 + outline.x1) / 2, block.area.y0 - 2], {
    size: letterSize,
    anchor: 'middle',
    bold: true,
  });
  return makeBlock(block.marks, [...block.texts, title]);
}
