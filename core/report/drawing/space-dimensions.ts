import type { DimensionRow } from '../../job/summary.js';
import { maths } from '../../maths/maths.js';
import type { AngleNote, LeaderNote, LengthNote } from '../../part/drawing-notes.js';
import type { Box, Vec3 } from '../../solid/types.js';
import type { LengthUnit } from '../../units/index.js';
import { createFormat } from '../format.js';
import type { DrawnPart } from './drawn-part.js';
import { sizedText, symbolsOf } from './size-text.js';
import { distanceApart, placeLanes, type Segment3 } from './space-lanes.js';
import { nearness, onView, type ViewFrame } from './view-frame.js';

/** A dimension of a part as it stands in space, mm, with its text. */
export type SpaceDimension =
  | {
      readonly kind: 'length';
      readonly text: string;
      /** Ends of what is measured, and of the dimension line that stands beside it. */
      readonly from: Vec3;
      readonly to: Vec3;
      readonly lineFrom: Vec3;
      readonly lineTo: Vec3;
    }
  | {
      readonly kind: 'leader';
      readonly text: string;
      /** Where the arrow ends, and where the text stands. */
      readonly at: Vec3;
      readonly textAt: Vec3;
    }
  | {
      readonly kind: 'angle';
      readonly text: string;
      readonly corner: Vec3;
      /** Points along the arc from leg to leg. */
      readonly arc: readonly Vec3[];
    };

/** From one dimension line to the next, share of the part's diagonal: 6 mm for a part of 100 mm. */
const laneShare = 0.06;
const leastLane = 1.5;
/** Of arcs, share of the diagonal. */
const arcRadius = [0.08, 0.25] as const;
const arcSteps = 16;

/** One note in its view, with its words. */
interface Said<N> {
  readonly note: N;
  readonly text: string;
  readonly frame: ViewFrame;
}

/**
 * The sizes that the finished part's drawing shows, as they stand in space about the part: the lines of lengths clear
 * beside it in the plane of their view, the shorter ones nearer; the words of leaders clear of it. Sizes for the
 * inspection sheet alone are left out, and each is shown once.
 * @param bounds of the finished part, mm
 */
export function spaceDimensions(
  drawing: Pick<DrawnPart, 'views'>,
  rows: readonly DimensionRow[],
  bounds: Box,
  unit: LengthUnit,
): readonly SpaceDimension[] {
  const { lengths, leaders, angles } = saidOf(drawing, rows, unit);
  const size = [0, 1, 2].map((k) => bounds.max[k]! - bounds.min[k]!);
  const diagonal = maths.hypot(...size);
  const lane = Math.max(leastLane, laneShare * diagonal);
  const placedLengths = placeLanes(
    lengths.map(({ note, frame }) => laneItem(note, frame)),
    bounds,
    lane,
  ).map(([lineFrom, lineTo], i): SpaceDimension => {
    const { note, text } = lengths[i]!;
    return { kind: 'length', text, from: note.from, to: note.to, lineFrom, lineTo };
  });
  const taken: Segment3[] = placedLengths.flatMap((d) =>
    d.kind === 'length' ? [[d.lineFrom, d.lineTo] as const] : [],
  );
  const placedLeaders = leaders.map((said): SpaceDimension => {
    const placed = placeLeader(said, bounds, lane, taken);
    taken.push([placed.textAt, placed.textAt]);
    return { kind: 'leader', text: said.text, ...placed };
  });
  return [...placedLengths, ...placedLeaders, ...angles.map((said) => placeAngle(said, diagonal))];
}

/** The notes that are shown, each size once. */
function saidOf(drawing: Pick<DrawnPart, 'views'>, rows: readonly DimensionRow[], unit: LengthUnit) {
  const format = createFormat({ lengthUnit: unit, degrees: 'C' });
  const details = new Set(rows.filter((row) => row.detail).map((row) => row.symbol));
  const seen = new Set<string>();
  const lengths: Said<LengthNote>[] = [];
  const leaders: Said<LeaderNote>[] = [];
  const angles: Said<AngleNote>[] = [];
  for (const { dimensions, frame } of drawing.views) {
    for (const note of dimensions) {
      const text = sizedText(note, rows, format);
      const symbols = symbolsOf(note);
      if (text === undefined || (symbols.length > 0 && symbols.every((s) => details.has(s)))) continue;
      const key = symbols.length > 0 ? symbols.join(' ') : text;
      if (seen.has(key)) continue;
      seen.add(key);
      if ('side' in note) {
        // Two sizes that are one here, such as the widths of two things alike.
        const span = spanKey(note, frame, text);
        if (!seen.has(span)) lengths.push({ note, text, frame });
        seen.add(span);
      } else if ('legs' in note) angles.push({ note, text, frame });
      else leaders.push({ note, text, frame });
    }
  }
  return { lengths, leaders, angles };
}

const plus = (a: Vec3, b: Vec3, by = 1): Vec3 => [a[0] + b[0] * by, a[1] + b[1] * by, a[2] + b[2] * by];
const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const minus = (v: Vec3): Vec3 => [0 - v[0], 0 - v[1], 0 - v[2]];
const between = (a: Vec3, b: Vec3): Vec3 => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2];

/** The same for lines that say the same of the same stretch of one axis. */
function spanKey({ from, to, side }: LengthNote, { right, up }: ViewFrame, text: string): string {
  const along = side === 'above' || side === 'below' ? right : up;
  const axis = along.findIndex((v) => v !== 0) as 0 | 1 | 2;
  const ends = [from[axis], to[axis]].sort((a, b) => a - b);
  return `${text} along ${axis} ${ends.map((v) => v.toFixed(3)).join(' ')}`;
}

/** A place of the view, at a depth of its own. */
const inSpace = ({ right, up, toward }: ViewFrame, u: number, v: number, depth: number): Vec3 =>
  plus(plus(plus([0, 0, 0], right, u), up, v), toward, depth);

/** Where the line goes: outward from the side it stands at, along the measure at the depth of what it measures. */
function laneItem(note: LengthNote, frame: ViewFrame) {
  const { right, up } = frame;
  const across = note.side === 'above' || note.side === 'below';
  const outward = { above: up, below: minus(up), left: minus(right), right }[note.side];
  const along = across ? right : up;
  const middle = between(note.from, note.to);
  const end = (p: Vec3): Vec3 => plus(middle, along, dot(along, p) - dot(along, middle));
  return { outward, ends: [end(note.from), end(note.to)] as Segment3 };
}

/** Words straight out from the arrow to clear of the part, and on until clear of what stands there. */
function placeLeader(
  { note, frame }: Said<LeaderNote>,
  bounds: Box,
  lane: number,
  taken: readonly Segment3[],
): { readonly at: Vec3; readonly textAt: Vec3 } {
  const [u, v] = leavingOf(note, frame, bounds);
  const direction = inSpace(frame, u, v, 0);
  const at = plus(note.at, direction, note.radius ?? 0);
  let reach = leaveBox(at, direction, bounds) + 1.5 * lane;
  const free = (textAt: Vec3): boolean =>
    taken.every((s) => distanceApart(s, [textAt, textAt]) >= 1.2 * lane);
  for (let tries = 0; tries < 12 && !free(plus(at, direction, reach)); tries++) reach += lane / 2;
  return { at, textAt: plus(at, direction, reach) };
}

/** Unit direction in the view: as the note has it, else away from the part's middle. */
function leavingOf(note: LeaderNote, frame: ViewFrame, { min, max }: Box): readonly [number, number] {
  const middle = between(min, max);
  const wanted = note.outward ? onView(frame, note.outward) : ([0, 0] as const);
  const away = onView(frame, plus(note.at, middle, -1));
  for (const [u, v] of [wanted, away]) {
    const length = maths.hypot(u, v);
    if (length > 1e-6) return [u / length, v / length];
  }
  return [Math.SQRT1_2, Math.SQRT1_2];
}

/** How far from a place until a ray is out of the box; 0 where it stands outside. */
function leaveBox(from: Vec3, direction: Vec3, { min, max }: Box): number {
  let reach = Number.POSITIVE_INFINITY;
  for (const k of [0, 1, 2] as const) {
    if (Math.abs(direction[k]) < 1e-9) continue;
    reach = Math.min(reach, ((direction[k] > 0 ? max[k] : min[k]) - from[k]) / direction[k]);
  }
  return Math.max(0, reach);
}

function placeAngle({ note, text, frame }: Said<AngleNote>, diagonal: number): SpaceDimension {
  const [cu, cv] = onView(frame, note.corner);
  const legs = note.legs.map((leg) => {
    const [u, v] = onView(frame, leg);
    return { angle: maths.atan2(v - cv, u - cu), length: maths.hypot(u - cu, v - cv) };
  });
  const [a, b] = [legs[0]!, legs[1]!];
  const longest = 0.8 * Math.max(a.length, b.length);
  const radius = Math.max(arcRadius[0] * diagonal, Math.min(arcRadius[1] * diagonal, longest));
  const turn = maths.atan2(maths.sin(b.angle - a.angle), maths.cos(b.angle - a.angle));
  const depth = nearness(frame, note.corner);
  const arc = Array.from({ length: arcSteps + 1 }, (_, i): Vec3 => {
    const angle = a.angle + (turn * i) / arcSteps;
    return inSpace(frame, cu + radius * maths.cos(angle), cv + radius * maths.sin(angle), depth);
  });
  return { kind: 'angle', text, corner: note.corner, arc };
}
