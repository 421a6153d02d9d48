/**
 * Open-rectangle packing: one bed keeps the list of its maximal free rectangles, which may overlap each other.
 * Source: J. Jylänki, "A Thousand Ways to Pack the Bin", 2010, section 2.3 (MAXRECTS, best short side fit,
 * best area fit, bottom-left).
 */

export interface Rect {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

/** Where a rectangle would go, with its score: the smaller pair wins. */
export interface Candidate extends Rect {
  readonly turned: boolean;
  readonly score: number;
  readonly second: number;
}

export const fitRules = ['shortSide', 'area', 'bottomLeft'] as const;
export type FitRule = (typeof fitRules)[number];

/** Slack for sums of decimal lengths, mm: 0.1 + 0.2 must fit in 0.3. */
const epsilon = 1e-7;

export const startFree = (width: number, depth: number): readonly Rect[] => [
  { x: 0, y: 0, w: width, h: depth },
];

/** The best place for a w × h rectangle, straight or turned a quarter; null where it fits nowhere. */
export function findPlace(free: readonly Rect[], w: number, h: number, rule: FitRule): Candidate | null {
  let best: Candidate | null = null;
  for (const f of free) {
    for (const turned of w === h ? [false] : [false, true]) {
      const rw = turned ? h : w;
      const rh = turned ? w : h;
      const dw = f.w - rw;
      const dh = f.h - rh;
      if (dw < -epsilon || dh < -epsilon) continue;
      const [score, second] =
        rule === 'shortSide'
          ? [Math.min(dw, dh), Math.max(dw, dh)]
          : rule === 'area'
            ? [f.w * f.h - rw * rh, Math.min(dw, dh)]
            : [f.y + rh, f.x];
      if (best === null || score < best.score || (score === best.score && second < best.second)) {
        best = { x: f.x, y: f.y, w: rw, h: rh, turned, score, second };
      }
    }
  }
  return best;
}

/** The free rectangles left when `used` is taken out. */
export function takeOut(free: readonly Rect[], used: Rect): readonly Rect[] {
  const pieces: Rect[] = [];
  for (const f of free) {
    const apart =
      used.x >= f.x + f.w - epsilon ||
      used.x + used.w <= f.x + epsilon ||
      used.y >= f.y + f.h - epsilon ||
      used.y + used.h <= f.y + epsilon;
    if (apart) {
      pieces.push(f);
      continue;
    }
    const add = (x: number, y: number, w: number, h: number): void => {
      if (w > epsilon && h > epsilon) pieces.push({ x, y, w, h });
    };
    add(f.x, f.y, used.x - f.x, f.h);
    add(used.x + used.w, f.y, f.x + f.w - used.x - used.w, f.h);
    add(f.x, f.y, f.w, used.y - f.y);
    add(f.x, used.y + used.h, f.w, f.y + f.h - used.y - used.h);
  }
  return pieces.filter((p, i) => !pieces.some((q, j) => i !== j && inside(p, q) && (j < i || !inside(q, p))));
}

const inside = (a: Rect, b: Rect): boolean =>
  a.x >= b.x - epsilon &&
  a.y >= b.y - epsilon &&
  a.x + a.w <= b.x + b.w + epsilon &&
  a.y + a.h <= b.y + b.h + epsilon;
