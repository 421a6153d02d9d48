/** Turning a gear from tooth to tooth at the bench. */

/** One step of a dividing head: whole turns of its crank and holes on a circle of its plate. */
export interface Division {
  readonly turns: number;
  readonly holes: number;
  /** Holes in the circle; 1 when whole turns do. */
  readonly circle: number;
}

const wormRatio = 40;
/** Hole circles of the usual three plates for a 40 : 1 head (Machinery's Handbook, simple indexing, from memory). */
const circles: readonly number[] = [15, 16, 17, 18, 19, 20, 21, 23, 27, 29, 31, 33, 37, 39, 41, 43, 47, 49];

/** 40/z turns a tooth, on the smallest circle that has them; undefined where plain indexing has none. */
export function divisionFor(teeth: number): Division | undefined {
  const turns = Math.floor(wormRatio / teeth);
  const left = wormRatio - turns * teeth;
  if (left === 0) return { turns, holes: 0, circle: 1 };
  const circle = circles.find((n) => (left * n) % teeth === 0);
  return circle === undefined ? undefined : { turns, holes: (left * circle) / teeth, circle };
}

/** Teeth, counted from 1, at which the index is looked at: all of a few, else one near each eighth of the round. */
export function indexTeeth(teeth: number): readonly number[] {
  const marks = teeth <= 12 ? teeth : 8;
  return Array.from({ length: marks }, (_, i) => 1 + Math.round((i * teeth) / marks));
}
