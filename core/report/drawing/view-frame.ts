import type { Facing } from '../../part/drawing-notes.js';
import type { Vec2, Vec3 } from '../../solid/types.js';

/** The directions of a view in the part's coordinates: unit, right × up = toward the eye. */
export interface ViewFrame {
  readonly right: Vec3;
  readonly up: Vec3;
  readonly toward: Vec3;
}

/** Where a view stands on the sheet: column to the right, row downward; the main view is 0, 0. */
export interface Cell {
  readonly column: number;
  readonly row: number;
}

const directions: Readonly<Record<Facing, Vec3>> = {
  '+x': [1, 0, 0],
  '-x': [-1, 0, 0],
  '+y': [0, 1, 0],
  '-y': [0, -1, 0],
  '+z': [0, 0, 1],
  '-z': [0, 0, -1],
};

const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1] + 0,
  a[2] * b[0] - a[0] * b[2] + 0,
  a[0] * b[1] - a[1] * b[0] + 0,
];
const negative = (v: Vec3): Vec3 => [0 - v[0], 0 - v[1], 0 - v[2]];

const frameOf = (toward: Vec3, up: Vec3): ViewFrame => ({ right: cross(up, toward), up, toward });

/** The main view's frame; an `up` along the line of sight counts as none. */
export function mainFrame(from: Facing, up?: Facing): ViewFrame {
  const toward = directions[from];
  const usual: Facing = from === '+z' || from === '-z' ? '+y' : '+z';
  const wanted = directions[up ?? usual];
  return frameOf(toward, dot(wanted, toward) === 0 ? wanted : directions[usual]);
}

/**
 * A further view's frame and its cell beside the main view, by first-angle projection (ISO 128-3, ISO 5456-2): seen
 * from the left it stands on the right, seen from above it stands below. The rear view and a second view from the
 * front stand at the far right.
 */
export function viewBeside(
  main: ViewFrame,
  from: Facing,
): { readonly frame: ViewFrame; readonly cell: Cell } {
  const toward = directions[from];
  const [across, up] = [dot(toward, main.right), dot(toward, main.up)];
  if (across !== 0) return { frame: frameOf(toward, main.up), cell: { column: -across, row: 0 } };
  if (up !== 0)
    return {
      frame: frameOf(toward, up > 0 ? negative(main.toward) : main.toward),
      cell: { column: 0, row: up },
    };
  return { frame: frameOf(toward, main.up), cell: { column: 2, row: 0 } };
}

export const onView = (frame: ViewFrame, p: Vec3): Vec2 => [dot(frame.right, p), dot(frame.up, p)];
export const nearness = (frame: ViewFrame, p: Vec3): number => dot(frame.toward, p);
