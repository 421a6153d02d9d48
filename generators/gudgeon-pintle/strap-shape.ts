import { maths } from '../../core/maths/maths.js';
import type { Vec2 } from '../../core/solid/types.js';
import type { RudderSizes } from './sizes.js';

/** Half the width over the straps, mm. */
export const outerHalf = (s: Pick<RudderSizes, 'wood' | 'thickness'>): number => s.wood / 2 + s.thickness;

/** Between the boss's straight sides and its plate, mm. */
export const bossFillet = (s: Pick<RudderSizes, 'front' | 'fillet'>): number =>
  Math.min(1.5 * s.fillet, 0.9 * s.front);

/** Where a plate is flat again beside its boss and the boss's fillet, from the middle, mm. */
export const bossFoot = (s: Pick<RudderSizes, 'bossRadius' | 'front' | 'fillet'>): number =>
  s.bossRadius + bossFillet(s);

/** Inner corners of the straps, against the wood, mm. */
export const innerCorner = (s: Pick<RudderSizes, 'fillet' | 'wood'>): number =>
  Math.min(s.fillet, 0.2 * s.wood);

/** Where the straps' outer sides end, and where the line from there touches the boss: one place for a wide boss. */
export function strapShoulder(s: Pick<RudderSizes, 'wood' | 'thickness' | 'bossRadius' | 'standOff'>): {
  readonly knee: Vec2;
  readonly foot: Vec2;
} {
  const outer = outerHalf(s);
  const r = s.bossRadius;
  if (r > outer - 0.1) {
    const at: Vec2 = [Math.sqrt(Math.max(0, r * r - outer * outer)), outer];
    return { knee: at, foot: at };
  }
  const knee: Vec2 = [s.standOff, outer];
  const angle = maths.atan2(outer, knee[0]) + maths.acos(r / maths.hypot(...knee));
  return { knee, foot: [r * maths.cos(angle), r * maths.sin(angle)] };
}

/** Thickness of the web where the straps leave it, between their inner corner and the line from knee to boss, mm. */
export function webAtCorner(
  s: Pick<RudderSizes, 'wood' | 'thickness' | 'bossRadius' | 'standOff' | 'fillet'>,
): number {
  const { knee, foot } = strapShoulder(s);
  const corner = innerCorner(s);
  const [x, y] = [s.standOff + corner - knee[0], s.wood / 2 - corner - knee[1]];
  const [dx, dy] = [foot[0] - knee[0], foot[1] - knee[1]];
  const length = maths.hypot(dx, dy);
  return length < 1e-9 ? Number.POSITIVE_INFINITY : Math.abs(x * dy - y * dx) / length - corner;
}

/** Where a strap is flat past the web's corners, from the axis, mm. */
export const strapFlat = (
  s: Pick<RudderSizes, 'wood' | 'thickness' | 'bossRadius' | 'standOff' | 'fillet'>,
): number => Math.max(s.standOff + innerCorner(s), strapShoulder(s).knee[0] + s.fillet);
