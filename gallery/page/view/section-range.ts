import { measureBounds } from '../../../core/solid/mesh-bounds.js';
import type { Box, Vec3 } from '../../../core/solid/types.js';
import type { Body, SectionPlane, Standing } from './content.js';

export const axisIndex = { x: 0, y: 1, z: 2 } as const;

/** Places along the axis where a section cuts the bodies, mm; null where there are none. */
export function sectionRange(
  bodies: readonly Body[],
  axis: SectionPlane['axis'],
): { readonly min: number; readonly max: number } | null {
  const box = boundsOf(bodies);
  if (!box) return null;
  const k = axisIndex[axis];
  return { min: box.min[k], max: box.max[k] };
}

/** The box about all bodies as they stand, mm. A turned body counts with the box about its turned box. */
export function boundsOf(bodies: readonly Pick<Body, 'mesh' | 'standing'>[]): Box | null {
  return joinBoxes(
    bodies.flatMap(({ mesh, standing }) => {
      const box = measureBounds(mesh);
      return box ? [standing ? standingBox(box, standing) : box] : [];
    }),
  );
}

/** The box about all boxes; null where there are none. */
export function joinBoxes(boxes: readonly Box[]): Box | null {
  if (boxes.length === 0) return null;
  const end = (pick: (...v: number[]) => number, side: 'min' | 'max'): Vec3 => [
    pick(...boxes.map((b) => b[side][0])),
    pick(...boxes.map((b) => b[side][1])),
    pick(...boxes.map((b) => b[side][2])),
  ];
  return { min: end(Math.min, 'min'), max: end(Math.max, 'max') };
}

/** Box about a box that was turned about Z and shifted. */
export function standingBox({ min, max }: Box, { turn, at }: Standing): Box {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const xs: number[] = [];
  const ys: number[] = [];
  for (const x of [min[0], max[0]]) {
    for (const y of [min[1], max[1]]) {
      xs.push(c * x - s * y + at[0]);
      ys.push(s * x + c * y + at[1]);
    }
  }
  return {
    min: [Math.min(...xs), Math.min(...ys), min[2] + at[2]],
    max: [Math.max(...xs), Math.max(...ys), max[2] + at[2]],
  };
}
