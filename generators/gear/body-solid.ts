import { sampleCurve } from '../../core/solid/sample-curve.js';
import type { Kernel, Polygon, Solid, Vec2 } from '../../core/solid/types.js';
import type { BodySizes } from './body-sizes.js';

/** How far cutting tools run past what they cut, and joined pieces into each other, mm. */
const overrun = 1;

/** Adds hub, recesses and bore to the toothed disc. */
export function shapeBody(kernel: Kernel, toothed: Solid, sizes: BodySizes, tolerance: number): Solid {
  let body = toothed;
  const middle = (sizes.lowerFace + sizes.upperFace) / 2;
  // Beside a recess the hub's wall is cut together with the recess, so its blank is a little larger.
  const blank =
    sizes.hubRadius + (sizes.web ? Math.min(0.5, (sizes.web.outerRadius - sizes.web.innerRadius) / 4) : 0);
  if (sizes.upperEnd > sizes.upperFace) {
    body = body.add(kernel.frustum([0, 0], middle, blank, sizes.upperEnd, blank, tolerance));
  }
  if (sizes.lowerEnd < sizes.lowerFace) {
    body = body.add(kernel.frustum([0, 0], sizes.lowerEnd, blank, middle, blank, tolerance));
  }
  if (sizes.web) {
    const { lowerFloor, upperFloor } = sizes.web;
    body = body.subtract(
      kernel.revolve(recess(sizes, upperFloor, sizes.upperEnd + overrun, tolerance), tolerance),
      kernel.revolve(recess(sizes, lowerFloor, sizes.lowerEnd - overrun, tolerance), tolerance),
    );
  }
  if (sizes.boreRadius > 0) {
    const r = sizes.boreRadius;
    body = body.subtract(
      kernel.frustum([0, 0], sizes.lowerEnd - overrun, r, sizes.upperEnd + overrun, r, tolerance),
    );
  }
  return body;
}

/** The (r, z) outline of a ring-shaped recess from its floor out to `mouth`, above or below, counter-clockwise. */
function recess(sizes: BodySizes, floor: number, mouth: number, tolerance: number): Polygon {
  const { innerRadius, outerRadius, fillet } = sizes.web as NonNullable<BodySizes['web']>;
  const up = Math.sign(mouth - floor);
  const corner = (r: number, from: number, to: number): readonly Vec2[] =>
    fillet === 0
      ? [[r, floor]]
      : sampleCurve(
          {
            from,
            to,
            at: (t) => [
              r + Math.sign(innerRadius + outerRadius - 2 * r) * fillet + fillet * Math.cos(t),
              floor + up * fillet * (1 + Math.sin(t)),
            ],
          },
          tolerance,
          2,
        ).points;
  const outline: Vec2[] = [
    ...corner(innerRadius, -Math.PI, -Math.PI / 2),
    ...corner(outerRadius, -Math.PI / 2, 0),
    [outerRadius, mouth],
    [innerRadius, mouth],
  ];
  return up > 0 ? outline : outline.reverse();
}
