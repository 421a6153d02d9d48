/** Where patterns about a sprue stand before they are drawn together. */
import { maths } from '../../maths/maths.js';
import type { Vec2 } from '../../solid/types.js';
import { runnerLean } from '../gating/runners.js';
import { leastRise, type TreePlace } from '../gating/tree.js';
import type { Stander } from './settle.js';

/** Where one pattern stands in a wedge about +X, and how large a mould it alone would make. */
interface Stand {
  readonly place: TreePlace;
  readonly size: number;
}

const degree = Math.PI / 180;

/** Ways tried to turn a pattern towards the sprue. */
const turnsTried = 36;

/** Half angles tried. A wedge is no wider than half the plan. */
const halves = Array.from({ length: 59 }, (_, i) => (3 + 1.5 * i) * degree);

/** Half of the gap from the wedge's sides, as near its tip as it goes. */
function standIn({ hull, gate }: Stander, half: number, gap: number): Stand {
  const [c, s] = [maths.cos(half), maths.sin(half)];
  let best: Stand | undefined;
  for (let i = 0; i < turnsTried; i++) {
    const turn = (2 * Math.PI * i) / turnsTried;
    const [ct, st] = [maths.cos(turn), maths.sin(turn)];
    const turned = hull.map(([x, y]): Vec2 => [ct * x - st * y, st * x + ct * y]);
    // Sides: s x ∓ c y ≥ gap/2. Touching both, or where they are nearly one line in the middle of it.
    const left = Math.max(...turned.map(([x, y]) => c * y - s * x));
    const right = Math.max(...turned.map(([x, y]) => -c * y - s * x));
    const ys = turned.map((p) => p[1]);
    const level = half > 80 * degree;
    const y = level ? -(Math.min(...ys) + Math.max(...ys)) / 2 : (right - left) / (2 * c);
    const x = (Math.max(left + c * y, right - c * y) + gap / 2) / s;
    const reach = Math.max(...turned.map((p) => maths.hypot(p[0] + x, p[1] + y)));
    const out = maths.hypot(ct * gate[0] - st * gate[1] + x, st * gate[0] + ct * gate[1] + y);
    const size = reach ** 2 * (leastRise + out * maths.tan(runnerLean));
    if (best === undefined || size < best.size * (1 - 1e-9)) best = { place: { turn, x, y }, size };
  }
  return best as Stand;
}

/** Wedges as wide as each pattern needs for the smallest mould that all fit in, in the order given. */
export function standInWedges(order: readonly Stander[], gap: number): readonly TreePlace[] {
  const tables = new Map<number, readonly Stand[]>();
  for (const stander of order)
    if (!tables.has(stander.kind))
      tables.set(
        stander.kind,
        halves.map((half) => standIn(stander, half, gap)),
      );
  const sizes = [...new Set([...tables.values()].flatMap((t) => t.map((e) => e.size)))].sort((a, b) => a - b);
  /** Half angle under which a kind makes no larger a mould than `size`; none does where it is infinite. */
  const halfFor = (kind: number, size: number): number =>
    halves[(tables.get(kind) as readonly Stand[]).findIndex((e) => e.size <= size)] ??
    Number.POSITIVE_INFINITY;
  const sum = (size: number): number => order.reduce((total, { kind }) => total + halfFor(kind, size), 0);
  let [low, high] = [0, sizes.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sum(sizes[middle] as number) <= Math.PI) high = middle;
    else low = middle + 1;
  }
  const needed = order.map(({ kind }) => halfFor(kind, sizes[low] as number));
  // What is over goes to all alike, though none has use of more than half the plan.
  const all = needed.reduce((total, half) => total + half, 0);
  const wide = needed.map((half) => Math.min(Math.PI / 2, (half * Math.PI) / all));
  let from = 0;
  return order.map((stander, i) => {
    const half = (needed[i] as number) * (Math.PI / all);
    const round = from + half;
    from += 2 * half;
    const { place } = standIn(stander, wide[i] as number, gap);
    const [c, s] = [maths.cos(round), maths.sin(round)];
    return { turn: place.turn + round, x: c * place.x - s * place.y, y: s * place.x + c * place.y };
  });
}

/** The first in the middle, the others about it as if it were not there: they are to be spread. */
export function standRoundOne(order: readonly Stander[], gap: number): readonly TreePlace[] {
  const [first, ...others] = order as readonly [Stander, ...Stander[]];
  const [x, y] = first.gate;
  return [{ turn: 0, x: -x, y: -y }, ...standInWedges(others, gap)];
}

/** One beside the other, each lying across, about the middle of them all. */
export function standInRow(order: readonly Stander[], gap: number): readonly TreePlace[] {
  const lying = new Map<number, ReturnType<typeof lieDown>>();
  for (const { kind, hull } of order) if (!lying.has(kind)) lying.set(kind, lieDown(hull));
  const all = order.map(({ kind }) => lying.get(kind)!);
  let y = -(all.reduce((sum, { width }) => sum + width, 0) + gap * (all.length - 1)) / 2;
  return all.map(({ turn, low, middle, width }) => {
    const place = { turn, x: -middle, y: y - low };
    y += width + gap;
    return place;
  });
}

/** Turned to be least wide along Y: of a convex outline a side then lies along X. */
function lieDown(hull: readonly Vec2[]) {
  const ways = hull.map((a, i) => {
    const b = hull[(i + 1) % hull.length]!;
    const turn = -maths.atan2(b[1] - a[1], b[0] - a[0]);
    const [c, s] = [maths.cos(turn), maths.sin(turn)];
    const ys = hull.map(([x, y]) => s * x + c * y);
    const xs = hull.map(([x, y]) => c * x - s * y);
    const low = Math.min(...ys);
    return { turn, low, width: Math.max(...ys) - low, middle: (Math.min(...xs) + Math.max(...xs)) / 2 };
  });
  return ways.reduce((a, b) => (b.width < a.width * (1 - 1e-9) ? b : a));
}
