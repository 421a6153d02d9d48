import { maths } from '../../maths/maths.js';
import type { Vec2 } from '../../solid/types.js';

type Loops = readonly (readonly Vec2[])[];

/** Pieces that an outline is looked at in, mm, and how far off the other it must be to count as inside. */
const piece = 0.4;
const off = 0.15;

/**
 * Where the outlines of castings run inside the outlines of all metal: at gates and vents, where the saw goes. Where both
 * run together nothing is left. mm on paper.
 */
export function seamsOf(castings: Loops, metal: Loops): Loops {
  const sides = metal.flatMap((loop) => loop.map((a, i) => [a, loop[(i + 1) % loop.length]!] as const));
  const isOff = (p: Vec2): boolean => sides.every(([a, b]) => farther(p, a, b));
  const seams: Vec2[][] = [];
  for (const loop of castings) {
    let open: Vec2[] | undefined;
    for (const [i, a] of loop.entries()) {
      const b = loop[(i + 1) % loop.length]!;
      const count = Math.max(1, Math.ceil(maths.hypot(b[0] - a[0], b[1] - a[1]) / piece));
      const at = (k: number): Vec2 => [
        a[0] + ((b[0] - a[0]) * k) / count,
        a[1] + ((b[1] - a[1]) * k) / count,
      ];
      for (let k = 0; k < count; k++) {
        if (!isOff(at(k + 0.5))) {
          open = undefined;
          continue;
        }
        if (open === undefined) {
          open = [at(k)];
          seams.push(open);
        }
        open.push(at(k + 1));
      }
    }
  }
  return seams;
}

/** Whether a point is farther than `off` from the line between two others. */
function farther(p: Vec2, a: Vec2, b: Vec2): boolean {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const [px, py] = [p[0] - a[0], p[1] - a[1]];
  const t = Math.max(0, Math.min(1, (px * dx + py * dy) / Math.max(dx * dx + dy * dy, 1e-12)));
  return (px - t * dx) ** 2 + (py - t * dy) ** 2 > off * off;
}
