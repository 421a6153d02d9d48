/** The exact tooth of a gear's case and the least triangles of its toothed body; see `least-triangles.ts`. */
import { gearFromRack } from '../../core/gear/basic-rack.js';
import { internalForm, usualCutterTeeth } from '../../core/gear/internal-form.js';
import {
  type CurvePoint,
  type Flat,
  fewestChords,
  fewestSides,
  leastTriangles,
  withLean,
} from './least-triangles.js';
import { rackOracle } from './rack-oracle.js';

const degrees = Math.PI / 180;
/** mm */
export const normalModule = 2;
export const faceWidth = 24;

const arc = (radius: number, from: number, to: number, steps = 400): readonly Flat[] =>
  Array.from({ length: steps + 1 }, (_, i): Flat => {
    const t = from + ((to - from) * i) / steps;
    return [radius * Math.cos(t), radius * Math.sin(t)];
  });

export const turned = ([x, y]: Flat, angle: number): Flat => [
  x * Math.cos(angle) - y * Math.sin(angle),
  x * Math.sin(angle) + y * Math.cos(angle),
];

export interface GearCase {
  readonly part: 'spur-gear' | 'helical-gear' | 'double-helical-gear' | 'ring-gear';
  readonly teeth: number;
  readonly tolerance: number;
  readonly x: number;
  /** Degrees. */
  readonly beta: number;
}

const specOf = ({ teeth, beta, x }: GearCase) =>
  gearFromRack('A', { normalModule, teeth, helixAngle: beta * degrees, profileShift: x });

/** Polylines of exact curves err by far less than the tolerance that chords are counted for. */
const fineness = 1 / 500;

/** One pitch of the exact outline, and what the bound needs besides. */
interface Outline {
  /** From corner to corner through a space, and over the land beside it. */
  readonly space: readonly CurvePoint[];
  readonly land: readonly CurvePoint[];
  readonly cornerRadius: number;
  /** Outside of a ring, mm; 0 for a gear. */
  readonly outside: number;
  /** rad/mm */
  readonly rate: number;
}

export function outlineOf(c: GearCase): Outline {
  const spec = specOf(c);
  const radius = (normalModule * c.teeth) / Math.cos(spec.helixAngle) / 2;
  const rate = Math.tan(spec.helixAngle) / radius;
  if (c.part !== 'ring-gear') {
    const tipDiameter = 2 * radius + 2 * normalModule * (1 + c.x);
    const { profile, tipRadius } = rackOracle({ ...spec, tipDiameter }, c.tolerance * fineness);
    const flank = [...profile].reverse().map(({ x, y }): Flat => [x, y]);
    return { ...around(flank, c.teeth, Math.PI / c.teeth, rate), cornerRadius: tipRadius, outside: 0, rate };
  }
  const made = internalForm(spec, usualCutterTeeth(c.teeth));
  if (!made.ok) throw new Error('no ring');
  const { curves, rootRadius, tipRadius } = made.space;
  const flank = [...curves]
    .reverse()
    .flatMap(({ from, to, at }) => Array.from({ length: 601 }, (_, i) => at(to + ((from - to) * i) / 600)))
    .map(([x, y]): Flat => [x, -y]);
  const outside = tipRadius + 1.2 * 2.25 * normalModule;
  return { ...around(flank, c.teeth, 0, rate), cornerRadius: rootRadius, outside, rate };
}

/**
 * @param flank dense, from the corner at the open end of a space to its bottom
 * @param spaceAt angle of the middle of that space, rad
 */
function around(flank: readonly Flat[], teeth: number, spaceAt: number, rate: number) {
  const [corner, root] = [flank[0] as Flat, flank.at(-1) as Flat];
  const angle = ([x, y]: Flat): number => Math.atan2(y, x);
  const other = (p: Flat): Flat => turned([p[0], -p[1]], 2 * spaceAt);
  const bottom = arc(Math.hypot(...root), angle(root), 2 * spaceAt - angle(root));
  const middle = spaceAt - Math.PI / teeth;
  const land = arc(Math.hypot(...corner), angle(corner), 2 * middle - angle(corner));
  return {
    space: withLean([...flank, ...bottom.slice(1, -1), ...[...flank].reverse().map(other)], rate),
    land: withLean(land, rate),
  };
}

export function leastOfGear(c: GearCase): number {
  const { space, land, cornerRadius, outside, rate } = outlineOf(c);
  const halves = c.part === 'double-helical-gear' ? 2 : 1;
  return leastTriangles(
    {
      chords: (strip) => fewestChords(land, c.tolerance, strip) + fewestChords(space, c.tolerance, strip),
      teeth: c.teeth,
      cornerRadius,
      turns: Array.from({ length: halves }, () => (rate * faceWidth) / halves),
      cylinder: outside > 0 ? fewestSides(outside, c.tolerance) : 0,
    },
    c.tolerance,
  );
}
