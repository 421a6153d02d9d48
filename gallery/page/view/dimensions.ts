import type { SpaceDimension } from '../../../core/report/drawing/space-dimensions.js';
import { along, distanceOf } from '../../../core/shape/vector.js';
import type { Vec3 } from '../../../core/solid/types.js';
import type { InkColour, Pen } from './pen.js';
import type { Projector, Seen } from './projector.js';

/** A text and where it may stand in the picture, CSS pixels. */
export interface TextWish {
  readonly text: string;
  readonly places: readonly (readonly [x: number, y: number])[];
}

const line = 1.1;
/** Of the pale rim on which lines read over the piece. */
const rim = 3;
const arrowSize = 9;
/** A dimension seen shorter than this says nothing: the reader looks along it. */
const shortest = 16;

/** Draws the dimensions that are seen well, and says where their texts may stand. */
export function drawDimensions(
  pen: Pen,
  dimensions: readonly SpaceDimension[],
  ink: InkColour,
  halo: InkColour,
): readonly TextWish[] {
  return dimensions.flatMap((d) => {
    const wish =
      d.kind === 'length'
        ? drawLength(pen, d, ink, halo)
        : d.kind === 'leader'
          ? drawLeader(pen, d, ink, halo)
          : drawAngle(pen, d, ink, halo);
    return wish ? [wish] : [];
  });
}

/** All points of the dimensions, for a view that holds them: x, y, z each. */
export const dimensionPoints = (dimensions: readonly SpaceDimension[]): number[] =>
  dimensions.flatMap((d) =>
    d.kind === 'length'
      ? [...d.from, ...d.to, ...d.lineFrom, ...d.lineTo]
      : d.kind === 'leader'
        ? [...d.at, ...d.textAt]
        : [...d.corner, ...d.arc.flat()],
  );

type Of<K extends SpaceDimension['kind']> = Extract<SpaceDimension, { kind: K }>;

function drawLength(pen: Pen, d: Of<'length'>, ink: InkColour, halo: InkColour): TextWish | null {
  const [a, b] = [pen.see(d.lineFrom), pen.see(d.lineTo)];
  if (!a || !b) return null;
  const seen = apart(a, b);
  if (seen < shortest) return null;
  extension(pen, d.from, d.lineFrom, ink);
  extension(pen, d.to, d.lineTo, ink);
  pen.stroke(a, b, rim, halo);
  pen.stroke(a, b, line, ink);
  const size = Math.min(arrowSize, seen / 3);
  pen.arrow(d.lineFrom, d.lineTo, size, ink);
  pen.arrow(d.lineTo, d.lineFrom, size, ink);
  return { text: d.text, places: alongLine(a, b, d.text) };
}

/** About what a text takes of the picture, pixels: enough to say whether it fits between arrowheads. */
const textSize = (text: string) => ({ halfWidth: 4 * text.length + 5, halfHeight: 10 });

/** On the line where there is room between the arrowheads, else beyond its ends. */
function alongLine(a: Seen, b: Seen, text: string): TextWish['places'] {
  const seen = apart(a, b);
  const { halfWidth, halfHeight } = textSize(text);
  const half = (Math.abs(b.x - a.x) * halfWidth + Math.abs(b.y - a.y) * halfHeight) / seen;
  const clear = (half + 4) / seen;
  const on = [0.5, 0.38, 0.62, 0.25, 0.75].map((t) => between(a, b, t));
  const beyond = [1 + clear, -clear].map((t) => between(a, b, t));
  return seen > 2 * (half + arrowSize) ? [...on, ...beyond] : [...beyond, ...on];
}

/** From the piece to a little beyond the dimension line. */
function extension(pen: Pen, from: Vec3, to: Vec3, ink: InkColour): void {
  const length = distanceOf(from, to);
  if (length < 1e-6) return;
  const [a, b] = [pen.see(from), pen.see(to)];
  if (!a || !b) return;
  const seen = apart(a, b);
  if (seen < 1) return;
  const beyond = along(to, [to[0] - from[0], to[1] - from[1], to[2] - from[2]], Math.min(0.5, 5 / seen));
  pen.line(from, beyond, 0.8, [ink[0], ink[1], ink[2], 0.65 * ink[3]]);
}

function drawLeader(pen: Pen, d: Of<'leader'>, ink: InkColour, halo: InkColour): TextWish | null {
  const [a, b] = [pen.see(d.at), pen.see(d.textAt)];
  if (!a || !b) return null;
  const seen = apart(a, b);
  if (seen < shortest / 2) return null;
  pen.stroke(a, b, rim, halo);
  pen.stroke(a, b, line, ink);
  pen.arrow(d.at, d.textAt, Math.min(arrowSize, seen / 2), ink);
  const out = b.x < a.x ? -1 : 1;
  const places = [
    [b.x, b.y],
    [b.x + 14 * out, b.y],
    [b.x, b.y - 16],
    [b.x, b.y + 16],
    [b.x + 30 * out, b.y],
  ] as const;
  return { text: d.text, places };
}

function drawAngle(pen: Pen, d: Of<'angle'>, ink: InkColour, halo: InkColour): TextWish | null {
  const points = d.arc.flatMap((p) => pen.see(p) ?? []);
  if (points.length < 2 || points.length < d.arc.length) return null;
  let length = 0;
  for (let i = 1; i < points.length; i++) length += apart(points[i - 1]!, points[i]!);
  if (length < shortest) return null;
  for (const [width, colour] of [
    [rim, halo],
    [line, ink],
  ] as const) {
    for (let i = 1; i < points.length; i++) pen.stroke(points[i - 1]!, points[i]!, width, colour);
  }
  const size = Math.min(arrowSize, length / 3);
  const last = d.arc.length - 1;
  pen.arrow(d.arc[0]!, pointBack(d.arc, 0, 1, pen.see, size), size, ink);
  pen.arrow(d.arc[last]!, pointBack(d.arc, last, -1, pen.see, size), size, ink);
  for (const end of [d.arc[0]!, d.arc[last]!]) {
    pen.line(d.corner, end, 0.8, [ink[0], ink[1], ink[2], 0.65 * ink[3]]);
  }
  const at = points[Math.floor(points.length / 2)]!;
  const corner = pen.see(d.corner);
  const way = corner && apart(corner, at) > 1 ? apart(corner, at) : 1;
  const [dx, dy] = corner ? [(at.x - corner.x) / way, (at.y - corner.y) / way] : [0, -1];
  return { text: d.text, places: [0, 16, -16, 30].map((by) => [at.x + by * dx, at.y + by * dy] as const) };
}

/** The point of the arc that an arrowhead of this size reaches back to. */
function pointBack(arc: readonly Vec3[], from: number, step: 1 | -1, see: Projector, size: number): Vec3 {
  const tip = see(arc[from]!);
  let i = from + step;
  while (tip && arc[i + step]) {
    const seen = see(arc[i]!);
    if (seen && apart(tip, seen) >= size) break;
    i += step;
  }
  return arc[i]!;
}

const apart = (a: Seen, b: Seen): number => Math.hypot(b.x - a.x, b.y - a.y);
const between = (a: Seen, b: Seen, t: number): readonly [number, number] => [
  a.x + t * (b.x - a.x),
  a.y + t * (b.y - a.y),
];
