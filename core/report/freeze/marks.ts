import { maths } from '../../maths/maths.js';
import type { Vec2 } from '../../solid/types.js';

/** A place to be marked on a picture, mm on paper, y down. */
export interface PictureMark {
  readonly at: Vec2;
  readonly text: string;
  /** Late places are rings, thin ones triangles. */
  readonly kind: 'late' | 'thin';
  /** Not in the plane or surface that is seen: dashed. */
  readonly hidden: boolean;
}

/** A rectangle on paper. */
export interface Frame {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

const ring = 1.5;
const badge = 1.75;
/** Steps outward that a badge is tried at. */
const distances = [4.6, 6, 8, 10.5, 13.5, 17, 22, 28, 35] as const;

const n = (v: number): string => String(Math.round(v * 100) / 100 + 0);
const distance = (a: Vec2, b: Vec2): number => maths.hypot(a[0] - b[0], a[1] - b[1]);

/** Distance from `p` to the line from `a` to `b`. */
function fromLine(p: Vec2, a: Vec2, b: Vec2): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const t = Math.max(
    0,
    Math.min(1, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / Math.max(dx * dx + dy * dy, 1e-9)),
  );
  return distance(p, [a[0] + t * dx, a[1] + t * dy]);
}

/** How strict a place for a number is: clear of everything; across other marks' lines; of other numbers alone. */
const rules = ['all', 'heads', 'numbers'] as const;

/**
 * Where each mark's number stands: clear of all marks, of other numbers and of the lines to them, inside the frame, as
 * near as it can be; where marks crowd, clear of other numbers at least. Missing where there is no room at all.
 */
export function placeBadges(marks: readonly PictureMark[], frame: Frame): readonly (Vec2 | undefined)[] {
  const placed: { readonly from: Vec2; readonly to: Vec2 }[] = [];
  const isClear = (rule: (typeof rules)[number], at: Vec2, to: Vec2): boolean => {
    const numbers = placed.every((p) => distance(p.to, to) > 2 * badge + 0.4);
    if (rule === 'numbers' || !numbers) return numbers;
    const heads =
      marks.every((m) => distance(m.at, to) > ring + badge + 0.4) &&
      placed.every((p) => fromLine(p.to, at, to) > badge + 0.2);
    if (rule === 'heads' || !heads) return heads;
    return (
      marks.every((m) => m.at === at || fromLine(m.at, at, to) > ring + 0.2) &&
      placed.every((p) => fromLine(to, p.from, p.to) > badge + 0.2)
    );
  };
  return marks.map(({ at }) => {
    const tried = aroundAt(at).filter((to) => isInside(to, frame));
    for (const rule of rules) {
      const to = tried.find((t) => isClear(rule, at, t));
      if (to === undefined) continue;
      placed.push({ from: at, to });
      return to;
    }
    return undefined;
  });
}

const isInside = ([x, y]: Vec2, { x0, y0, x1, y1 }: Frame): boolean => {
  const room = badge + 0.3;
  return x > x0 + room && x < x1 - room && y > y0 + room && y < y1 - room;
};

/** Outward; at each distance up and to the right first, then to either side of that in turn. */
const aroundAt = (at: Vec2): readonly Vec2[] =>
  distances.flatMap((d) =>
    Array.from({ length: 16 }, (_, turn): Vec2 => {
      const step = turn % 2 === 0 ? turn / 2 : -(turn + 1) / 2;
      const angle = Math.PI / 4 + (step * Math.PI) / 8;
      return [at[0] + d * maths.cos(angle), at[1] - d * maths.sin(angle)];
    }),
  );

/** A black line over a broader white one: seen on any colour. */
const twice = (shape: string, dashed: boolean): string =>
  `${shape.replace('/>', ' fill="none" stroke="#fff" stroke-width="1"/>')}${shape.replace('/>', ` fill="none" stroke="#000" stroke-width="0.45"${dashed ? ' stroke-dasharray="0.9 0.6"' : ''}/>`)}`;

const shapeOf = ({ kind, at: [x, y] }: Pick<PictureMark, 'kind' | 'at'>): string =>
  kind === 'late'
    ? `<circle cx="${n(x)}" cy="${n(y)}" r="${ring}"/>`
    : `<path d="M${n(x)} ${n(y - 1.8)}l1.65 2.85h-3.3Z" stroke-linejoin="round"/>`;

/** One mark by itself, for the key. */
export const markShape = (kind: PictureMark['kind'], at: Vec2, hidden = false): string =>
  twice(shapeOf({ kind, at }), hidden);

/** Rings and triangles with their numbers, as SVG. */
export function drawMarks(marks: readonly PictureMark[], frame: Frame): string {
  const badges = placeBadges(marks, frame);
  const lines = marks.map(({ at }, i) => {
    const to = badges[i];
    if (to === undefined) return '';
    const d = distance(at, to);
    const [ux, uy] = [(to[0] - at[0]) / d, (to[1] - at[1]) / d];
    const path = `<path d="M${n(at[0] + ux * ring)} ${n(at[1] + uy * ring)}L${n(to[0])} ${n(to[1])}"/>`;
    return twice(path, false);
  });
  const heads = marks.map(({ text, kind }, i) => {
    const to = badges[i];
    if (to === undefined) return '';
    const [x, y] = to;
    const round = kind === 'late' ? badge : 0.4;
    return (
      `<rect x="${n(x - badge)}" y="${n(y - badge)}" width="${2 * badge}" height="${2 * badge}" rx="${round}" fill="#fff" stroke="#000" stroke-width="0.35"/>` +
      `<text x="${n(x)}" y="${n(y + 0.95)}" font-size="2.7" font-weight="bold" text-anchor="middle">${text}</text>`
    );
  });
  return [...lines, ...marks.map((m) => twice(shapeOf(m), m.hidden)), ...heads].join('\n');
}
