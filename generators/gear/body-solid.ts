import { maths } from '../../core/maths/maths.js';
import { sampleCurve } from '../../core/solid/sample-curve.js';
import type { Kernel, Polygon, Solid, Vec2 } from '../../core/solid/types.js';
import type { BodySizes } from './body-sizes.js';
import { type BoreParameters, boreOutline } from './bore.js';
import type { HubScrew } from './setscrew.js';
import { spokeWindow, turnPolygon } from './windows.js';

/** How far cutting tools run past what they cut, and joined pieces into each other, mm. */
const overrun = 1;
/** Depth of a dimple to start a drill in, mm; its sides stand at 45°. */
const dimple = 1;

/** Adds hub, recesses, openings, bore and the rest to the toothed disc. */
export function shapeBody(
  kernel: Kernel,
  toothed: Solid,
  sizes: BodySizes,
  shape: BoreParameters['boreShape'],
  tolerance: number,
): Solid {
  let body = toothed;
  if (sizes.edgeChamfer > 0) body = body.subtract(...chamferCutters(kernel, sizes, tolerance));
  body = addHubs(kernel, body, sizes, tolerance);
  if (sizes.web) {
    const { lowerFloor, upperFloor } = sizes.web;
    body = body.subtract(
      kernel.revolve(recess(sizes, upperFloor, sizes.upperEnd + overrun, tolerance), tolerance),
      kernel.revolve(recess(sizes, lowerFloor, sizes.lowerEnd - overrun, tolerance), tolerance),
    );
  }
  if (sizes.setscrew?.boss)
    body = body.add(screwBoss(kernel, sizes.setscrew, sizes.setscrew.boss, tolerance));
  const [z0, z1] = [sizes.lowerEnd - overrun, sizes.upperEnd + overrun];
  const cuts = [
    ...openingOutlines(sizes, tolerance).map((outline) => kernel.extrude([outline], z0, z1)),
    ...boreCutter(kernel, sizes, shape, z0, z1, tolerance),
    ...(sizes.setscrew ? [screwCutter(kernel, sizes.setscrew, tolerance)] : []),
  ];
  return cuts.length > 0 ? body.subtract(...cuts) : body;
}

/** Hubs sunk half way into the disc. Beside a recess their wall is cut with it, so the blank is a little larger. */
function addHubs(kernel: Kernel, disc: Solid, sizes: BodySizes, tolerance: number): Solid {
  const middle = (sizes.lowerFace + sizes.upperFace) / 2;
  const { web } = sizes;
  const blank = sizes.hubRadius + (web ? Math.min(0.5, (web.outerRadius - web.innerRadius) / 4) : 0);
  let body = disc;
  for (const [face, end] of [
    [sizes.upperFace, sizes.upperEnd],
    [sizes.lowerFace, sizes.lowerEnd],
  ] as const) {
    if (face === end) continue;
    const profile = hubProfile(blank, middle, face, end, web ? 0 : sizes.hubFillet, tolerance);
    body = body.add(kernel.revolve(profile, tolerance));
  }
  return body;
}

/**
 * Half section of a hub with its fillet, [r, z]. The fillet stops half a tolerance short of the face it runs out on
 * and goes straight down from there: a corner in the face itself would meet it in slivers.
 */
function hubProfile(
  r: number,
  middle: number,
  face: number,
  end: number,
  fillet: number,
  tolerance: number,
): Polygon {
  const up = Math.sign(end - face);
  const short = tolerance / 2;
  const sunk = face - up * Math.min(overrun, Math.abs(face - middle) / 2);
  const foot = r + fillet - Math.sqrt(2 * fillet * short);
  const wall: readonly Vec2[] =
    fillet <= 4 * short
      ? [
          [0, middle],
          [r, middle],
        ]
      : [
          [0, sunk],
          [foot, sunk],
          ...sampleCurve(
            {
              from: maths.acos(1 - short / fillet),
              to: Math.PI / 2,
              at: (t) => [r + fillet - fillet * maths.sin(t), face + up * fillet * (1 - maths.cos(t))],
            },
            tolerance,
            2,
          ).points,
        ];
  const outline: Vec2[] = [[0, end], ...wall, [r, end]];
  return up > 0 ? outline : outline.reverse();
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
              r + Math.sign(innerRadius + outerRadius - 2 * r) * fillet + fillet * maths.cos(t),
              floor + up * fillet * (1 + maths.sin(t)),
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

/** Rings that take the tooth tips off at 45° at both side faces. */
function chamferCutters(kernel: Kernel, sizes: BodySizes, tolerance: number): readonly Solid[] {
  const c = sizes.edgeChamfer;
  const r = sizes.tipRadius;
  const ring = (face: number, up: 1 | -1): Solid => {
    const outline: Vec2[] = [
      [r - c - overrun, face + up * overrun],
      [r + overrun, face - up * (c + overrun)],
      [r + overrun, face + up * overrun],
    ];
    return kernel.revolve(up > 0 ? outline : outline.reverse(), tolerance);
  };
  return [ring(sizes.upperFace, 1), ring(sizes.lowerFace, -1)];
}

/** Outlines in plan of all that is cut through the web. */
export function openingOutlines({ openings }: BodySizes, tolerance: number): readonly Polygon[] {
  const { windows, holes } = openings;
  if (windows) {
    const window = spokeWindow(windows, tolerance);
    if (!window) return [];
    return Array.from({ length: windows.spokes }, (_, k) =>
      turnPolygon(window, (2 * Math.PI * (k + 0.5)) / windows.spokes),
    );
  }
  if (!holes) return [];
  const circle = sampleCurve(
    {
      from: 0,
      to: 2 * Math.PI,
      at: (t) => [holes.circle + holes.radius * maths.cos(t), holes.radius * maths.sin(t)],
    },
    tolerance,
    8,
  ).points.slice(0, -1);
  return Array.from({ length: holes.number }, (_, k) =>
    turnPolygon(circle, (2 * Math.PI * (k + 0.5)) / holes.number),
  );
}

function boreCutter(
  kernel: Kernel,
  sizes: BodySizes,
  shape: BoreParameters['boreShape'],
  z0: number,
  z1: number,
  tolerance: number,
): readonly Solid[] {
  const outline = boreOutline(shape, sizes.bore, tolerance);
  if (outline) return [kernel.extrude([outline], z0, z1)];
  if (sizes.bore.kind !== 'dimple') return [];
  // A cone opening downwards, so that the print needs no support for it.
  return [
    kernel.frustum([0, 0], sizes.lowerEnd - overrun, dimple + overrun, sizes.lowerEnd + dimple, 0, tolerance),
  ];
}

/** Turns a solid that stands on Z so that it lies along +X at the screw's height. */
const alongX = (solid: Solid, height: number): Solid =>
  solid.rotate('y', Math.PI / 2).translate([0, 0, height]);

function screwBoss(
  kernel: Kernel,
  screw: HubScrew,
  boss: NonNullable<HubScrew['boss']>,
  tolerance: number,
): Solid {
  return alongX(kernel.frustum([0, 0], 0, boss.radius, boss.reach, boss.radius, tolerance), screw.height);
}

function screwCutter(kernel: Kernel, screw: HubScrew, tolerance: number): Solid {
  const { holeRadius: r, face } = screw;
  return alongX(
    r > 0
      ? kernel.frustum([0, 0], 0, r, face + overrun, r, tolerance)
      : kernel.frustum([0, 0], face - dimple, 0, face + overrun, dimple + overrun, tolerance),
    screw.height,
  );
}
