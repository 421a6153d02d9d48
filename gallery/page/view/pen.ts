import type { Vec3 } from '../../../core/solid/types.js';
import type { Projector, Seen } from './projector.js';

/** Red, green, blue, opacity, 0 to 1. */
export type InkColour = readonly [number, number, number, number];

/** What is drawn in lines of a constant width, turned into triangles that face the reader. */
export class Pen {
  /** x, y in CSS pixels and depth; three corners a triangle. */
  readonly corners: number[] = [];
  readonly colours: number[] = [];

  constructor(readonly see: Projector) {}

  /** A straight line, `width` pixels wide; nothing where an end is behind the reader. */
  line(from: Vec3, to: Vec3, width: number, colour: InkColour): void {
    const [a, b] = [this.see(from), this.see(to)];
    if (a && b) this.stroke(a, b, width, colour);
  }

  stroke(a: Seen, b: Seen, width: number, colour: InkColour): void {
    const length = Math.hypot(b.x - a.x, b.y - a.y);
    if (length < 1e-6) return;
    const [nx, ny] = [((a.y - b.y) / length) * (width / 2), ((b.x - a.x) / length) * (width / 2)];
    const corner = (at: Seen, side: number): Seen => ({
      x: at.x + side * nx,
      y: at.y + side * ny,
      depth: at.depth,
    });
    this.triangle(corner(a, 1), corner(a, -1), corner(b, -1), colour);
    this.triangle(corner(a, 1), corner(b, -1), corner(b, 1), colour);
  }

  /** A filled arrowhead with its point at `at`, coming from `from`. */
  arrow(at: Vec3, from: Vec3, size: number, colour: InkColour): void {
    const [tip, tail] = [this.see(at), this.see(from)];
    if (!tip || !tail) return;
    const length = Math.hypot(tail.x - tip.x, tail.y - tip.y);
    if (length < 1e-6) return;
    const [dx, dy] = [(tail.x - tip.x) / length, (tail.y - tip.y) / length];
    const wing = (side: number): Seen => ({
      x: tip.x + size * dx - side * size * 0.28 * dy,
      y: tip.y + size * dy + side * size * 0.28 * dx,
      depth: tip.depth,
    });
    this.triangle(tip, wing(1), wing(-1), colour);
  }

  /** A round spot. */
  spot(at: Vec3, radius: number, colour: InkColour): void {
    const seen = this.see(at);
    if (!seen) return;
    const sides = 20;
    const rim = (i: number): Seen => ({
      x: seen.x + radius * Math.cos((2 * Math.PI * i) / sides),
      y: seen.y + radius * Math.sin((2 * Math.PI * i) / sides),
      depth: seen.depth,
    });
    for (let i = 0; i < sides; i++) this.triangle(seen, rim(i), rim(i + 1), colour);
  }

  triangle(a: Seen, b: Seen, c: Seen, colour: InkColour): void {
    for (const at of [a, b, c]) {
      this.corners.push(at.x, at.y, at.depth);
      this.colours.push(...colour);
    }
  }
}
