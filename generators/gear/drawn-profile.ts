import { maths } from '../../core/maths/maths.js';
import type { DrawnLine } from '../../core/part/drawing-notes.js';
import type { Vec2, Vec3 } from '../../core/solid/types.js';
import type { BodySizes } from './body-sizes.js';

/** A corner of a half section, [z, r], and the radius of the fillet in it. */
type Corner = readonly [z: number, r: number, fillet?: number];

/** A length of the teeth along the axis. */
export type ToothedLength = readonly [z0: number, z1: number];

/** In the section plane, the axis on Z and radii upward on Y. */
export const inSection = (z: number, r: number): Vec3 => [0, r, z];

/**
 * Half section of the body below the teeth, from the bore's lower end round to its upper end: hub, web, rim up to the
 * root circle, grooves between toothed lengths.
 * @param boreReach from the axis to the bore's surface in the section plane, 0 without a bore
 */
export function bodyProfile(
  sizes: BodySizes,
  boreReach: number,
  lengths: readonly ToothedLength[],
  coreRadius: number,
  screwDrawn: boolean,
): readonly Vec3[] {
  const { lowerFace, upperFace, lowerEnd, upperEnd, rootRadius, hubRadius, web, hubFillet } = sizes;
  const hub = (up: 1 | -1): readonly Corner[] => {
    const [face, end] = up > 0 ? [upperFace, upperEnd] : [lowerFace, lowerEnd];
    const floor = web && (up > 0 ? web.upperFloor : web.lowerFloor);
    const wall: readonly Corner[] =
      web && floor !== null
        ? [
            [face, web.outerRadius],
            [floor, web.outerRadius, web.fillet],
            [floor, hubRadius, web.fillet],
          ]
        : end === face
          ? []
          : [[face, hubRadius, hubFillet]];
    const top: readonly Corner[] = end === face && !web ? [] : [[end, hubRadius]];
    const outward = [...wall, ...bossProfile(sizes, up, screwDrawn), ...top, [end, boreReach] as const];
    return up > 0 ? outward : [...outward].reverse();
  };
  const rim = lengths.flatMap(([z0, z1], i): Corner[] => [
    ...(i > 0 ? [[z0, coreRadius] as const] : []),
    [z0, rootRadius],
    [z1, rootRadius],
    ...(i + 1 < lengths.length ? [[z1, coreRadius] as const] : []),
  ]);
  return rounded([...hub(-1), ...rim, ...hub(1)]).map(([z, r]) => inSection(z, r));
}

/** A setscrew's boss on the hub, outward from the side face. */
function bossProfile({ setscrew, hubRadius }: BodySizes, up: 1 | -1, isDrawn: boolean): readonly Corner[] {
  if (!isDrawn || !setscrew?.boss || setscrew.height > 0 !== up > 0) return [];
  const { height, boss } = setscrew;
  const [near, far] = [height - up * boss.radius, height + up * boss.radius];
  return [
    [near, hubRadius],
    [near, boss.reach],
    [far, boss.reach],
    [far, hubRadius],
  ];
}

/** The outline with its fillets: arcs tangent to both sides of right-angled corners. */
function rounded(corners: readonly Corner[]): readonly Vec2[] {
  return corners.flatMap(([z, r, fillet = 0], i): Vec2[] => {
    const [before, after] = [corners[i - 1], corners[i + 1]];
    if (fillet < 0.02 || !before || !after) return [[z, r]];
    const toward = ([a, b]: Corner): Vec2 => {
      const length = maths.hypot(a - z, b - r) || 1;
      return [(a - z) / length, (b - r) / length];
    };
    const [p, q] = [toward(before), toward(after)];
    const steps = 12;
    return Array.from({ length: steps + 1 }, (_, k): Vec2 => {
      const t = ((Math.PI / 2) * k) / steps;
      const [s, c] = [fillet * (1 - maths.sin(t)), fillet * (1 - maths.cos(t))];
      return [z + p[0] * s + q[0] * c, r + p[1] * s + q[1] * c];
    });
  });
}

/** The teeth in section, not cut: from root to tip over each length, chamfered at the side faces. */
export const toothProfiles = (sizes: BodySizes, lengths: readonly ToothedLength[]): readonly DrawnLine[] =>
  lengths.map(([z0, z1]): DrawnLine => {
    const { rootRadius: root, tipRadius: tip, edgeChamfer } = sizes;
    const c0 = z0 === sizes.lowerFace ? edgeChamfer : 0;
    const c1 = z1 === sizes.upperFace ? edgeChamfer : 0;
    return {
      kind: 'visible',
      points: [
        inSection(z0, root),
        inSection(z0, tip - c0),
        ...(c0 > 0 ? [inSection(z0 + c0, tip)] : []),
        ...(c1 > 0 ? [inSection(z1 - c1, tip)] : []),
        inSection(z1, tip - c1),
        inSection(z1, root),
      ],
    };
  });

/** The lower half seen from outside: teeth as a plain cylinder (ISO 2203), hubs. */
export function outsideHalf(
  sizes: BodySizes,
  lengths: readonly ToothedLength[],
  coreRadius: number,
): readonly DrawnLine[] {
  const { tipRadius: tip, edgeChamfer, hubRadius, hubFillet, web } = sizes;
  const line = (...points: Vec2[]): DrawnLine => ({
    kind: 'visible',
    points: points.map(([z, r]) => inSection(z, -r)),
  });
  const teeth = lengths.map(([z0, z1]) => {
    const c0 = z0 === sizes.lowerFace ? edgeChamfer : 0;
    const c1 = z1 === sizes.upperFace ? edgeChamfer : 0;
    return line(
      [z0, 0],
      [z0, tip - c0],
      ...(c0 > 0 ? [[z0 + c0, tip] as const] : []),
      ...(c1 > 0 ? [[z1 - c1, tip] as const] : []),
      [z1, tip - c1],
      [z1, 0],
    );
  });
  const grooves = lengths
    .slice(1)
    .map(([z], i) => line([(lengths[i] as ToothedLength)[1], coreRadius], [z, coreRadius]));
  const hubs = [
    [sizes.upperFace, sizes.upperEnd],
    [sizes.lowerFace, sizes.lowerEnd],
  ] as const;
  return [
    ...teeth,
    ...grooves,
    ...hubs.flatMap(([face, end]) => {
      if (face === end) return [];
      const corners: Corner[] = [
        [face, web ? hubRadius : hubRadius + hubFillet],
        ...(web ? [] : [[face, hubRadius, hubFillet] as const]),
        [end, hubRadius],
        [end, 0],
      ];
      return [line(...rounded(corners))];
    }),
  ];
}
