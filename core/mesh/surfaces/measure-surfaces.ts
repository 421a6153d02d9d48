import { maths } from '../../maths/maths.js';
import type { Dimension } from '../../part/contract.js';
import { lengthDimension } from '../../part/dimension.js';
import { dot, minus, times } from '../../shape/vector.js';
import type { Box } from '../../solid/types.js';
import { dimensionAxis } from './dimension-axis.js';
import type { CylinderSurface, MeshSurface, PlaneSurface } from './surface.js';

/** mm that a surface has been moved outward, off the metal. */
export type AmountOf = (surface: MeshSurface) => number;

const mostRows = 24;
const mostBores = 8;
const mostBosses = 4;
const mostSteps = 6;
/** Parallel within 0.1°. */
const parallel = 0.9999985;
/** A plug gauge is at hand up to here, mm. */
const largestPlug = 30;

/**
 * What an inspector would measure on the surfaces, the most useful first, 24 rows at most: distances between opposite
 * outermost faces, bores with the depth of blind ones, bosses, centre distances of parallel bores, further steps. Which rows there are
 * depends on the surfaces alone; their values on how far each surface was moved outward as well (nothing for the part
 * itself), so that part and casting have the same rows.
 *
 * @param box of the mesh; says what is far apart
 */
export function measureSurfaces(
  surfaces: readonly MeshSurface[],
  box: Box,
  amountOf: AmountOf = () => 0,
): readonly Dimension[] {
  const planes = surfaces.filter((s) => s.kind === 'plane');
  const cylinders = surfaces.filter((s) => s.kind === 'cylinder');
  const bores = cylinders.filter((s) => s.form === 'bore').slice(0, mostBores);
  const bosses = cylinders.filter((s) => s.form === 'boss').slice(0, mostBosses);
  const close = 1e-4 * maths.hypot(...minus(box.max, box.min));
  return [
    ...overall(planes, amountOf),
    ...bores.flatMap((bore, i) => boreRows(bore, i + 1, planes, close, amountOf)),
    ...bosses.map((boss, i) =>
      lengthDimension(
        `d_${i + 1}`,
        `diameter of ${boss.name}`,
        atLeastNought(2 * (boss.radius + amountOf(boss))),
        'xy',
        'calliper or micrometer',
      ),
    ),
    ...centreDistances(bores, close),
    ...steps(planes, amountOf),
  ].slice(0, mostRows);
}

const atLeastNought = (mm: number): number => Math.max(0, mm);

const pairs = [
  ['H', 'down', 'up'],
  ['L', 'left', 'right'],
  ['W', 'front', 'back'],
] as const;

function overall(planes: readonly PlaneSurface[], amountOf: AmountOf): Dimension[] {
  const find = (facing: PlaneSurface['facing']) => planes.find((p) => p.outermost && p.facing === facing);
  return pairs.flatMap(([symbol, from, to]) => {
    const [a, b] = [find(from), find(to)];
    if (!a || !b || !areOpposite(a, b)) return [];
    const distance = a.offset + b.offset;
    if (!(distance > 0)) return [];
    return [
      lengthDimension(
        symbol,
        `${a.name} to ${b.name}`,
        atLeastNought(distance + amountOf(a) + amountOf(b)),
        dimensionAxis(b.normal),
        'calliper',
      ),
    ];
  });
}

const areOpposite = (a: PlaneSurface, b: PlaneSurface): boolean => dot(a.normal, b.normal) < -parallel;

function boreRows(
  bore: CylinderSurface,
  number: number,
  planes: readonly PlaneSurface[],
  close: number,
  amountOf: AmountOf,
): Dimension[] {
  const diameter = 2 * bore.radius;
  const rows = [
    lengthDimension(
      `D_${number}`,
      `diameter of ${bore.name}`,
      atLeastNought(diameter - 2 * amountOf(bore)),
      'xy',
      diameter > largestPlug ? 'inside micrometer' : 'plug gauge or inside calliper',
    ),
  ];
  if (bore.through === false) {
    const ends = bore.extent.map((at) =>
      planes.find((p) => {
        const along = dot(p.normal, bore.direction);
        return Math.abs(along) > parallel && Math.abs(p.offset * along - at) < close;
      }),
    );
    // Mouth and floor look the same way; outward, the mouth's deepens the bore and the floor's fills it.
    const sign = ends.map((p) => (p ? Math.sign(dot(p.normal, bore.direction)) : 0));
    const moved = sign[1]! * amount(ends[1], amountOf) - sign[0]! * amount(ends[0], amountOf) || 0;
    const axis = dimensionAxis(bore.direction);
    const depth = bore.extent[1] - bore.extent[0] + moved;
    rows.push(
      lengthDimension(`h_${number}`, `depth of ${bore.name}`, atLeastNought(depth), axis, 'depth gauge'),
    );
  }
  return rows;
}

const amount = (surface: MeshSurface | undefined, amountOf: AmountOf): number =>
  surface ? amountOf(surface) : 0;

/** Every pair of a few bores; of many, each with the nearest before it. Surfaces moved outward leave the axes where they are. */
function centreDistances(bores: readonly CylinderSurface[], close: number): Dimension[] {
  const rows: Dimension[] = [];
  for (const [j, b] of bores.entries()) {
    const before = bores.slice(0, j).flatMap((a, i) => {
      if (Math.abs(dot(a.direction, b.direction)) < parallel) return [];
      const between = minus(b.centre, a.centre);
      const along = dot(between, a.direction);
      const across = minus(between, times(a.direction, along));
      const distance = maths.hypot(...across);
      return distance > close ? [{ a, i, distance, axis: dimensionAxis(across) }] : [];
    });
    before.sort((x, y) => x.distance - y.distance);
    for (const { a, i, distance, axis } of bores.length > 4 ? before.slice(0, 1) : before)
      rows.push(
        lengthDimension(
          `a_${i + 1}${j + 1}`,
          `centres of ${a.name} and ${b.name}`,
          distance,
          axis,
          'pins in the bores, calliper over them, less half of each',
        ),
      );
  }
  return rows;
}

/** Other faces, each to the outermost opposite one, or for lack of that to the outermost that looks the same way. */
function steps(planes: readonly PlaneSurface[], amountOf: AmountOf): Dimension[] {
  const rows: Dimension[] = [];
  for (const face of planes) {
    if (face.outermost || face.facing === null || rows.length === mostSteps) continue;
    const outer = planes.filter((p) => p.outermost);
    const axis = dimensionAxis(face.normal);
    const symbol = `t_${rows.length + 1}`;
    const opposite = outer.find((p) => areOpposite(p, face) && p.offset + face.offset > 0);
    const same = outer.find((p) => dot(p.normal, face.normal) > parallel && p.offset > face.offset);
    if (opposite)
      rows.push(
        lengthDimension(
          symbol,
          `${opposite.name} to ${face.name}`,
          atLeastNought(opposite.offset + face.offset + amountOf(opposite) + amountOf(face)),
          axis,
          'calliper',
        ),
      );
    else if (same)
      rows.push(
        lengthDimension(
          symbol,
          `${same.name} to ${face.name}`,
          atLeastNought(same.offset - face.offset + amountOf(same) - amountOf(face)),
          axis,
          'depth gauge',
        ),
      );
  }
  return rows;
}
