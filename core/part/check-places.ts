/** Whether the gate and vent places of a part lie on its surface. */
import { maths } from '../maths/maths.js';
import { passColumns } from '../solid/columns.js';
import type { Mesh, Vec3 } from '../solid/types.js';
import type { BuiltPart } from './contract.js';
import { type Finding, stop, warn } from './finding.js';

/** What a place may lie off the mesh, mm; chords of a curved edge come on top. */
const slack = 0.05;
const around = 8;
/** The middle of the ring, and just inside its rim. */
const middle = 0.4;
const rim = 0.98;

interface Place {
  readonly kind: 'gate' | 'vent';
  readonly name: string;
  readonly at: Vec3;
  /** mm */
  readonly inner: number;
  readonly outer: number;
  readonly seat: number;
}

/**
 * A gate or vent that meets no metal would leave the mould in two: refused. A gate that meets it only in part is
 * warned of: the surface under it is to be flat.
 * @param tolerance of the mesh, mm
 */
export function checkPlaces(
  { gates, vents }: Pick<BuiltPart, 'gates' | 'vents'>,
  mesh: Mesh,
  tolerance: number,
): readonly Finding[] {
  const places: readonly Place[] = [
    ...gates.map(
      ({ name, at, innerDiameter, outerDiameter, seat = 0 }): Place => ({
        kind: 'gate',
        ...{ name, at, inner: innerDiameter / 2, outer: outerDiameter / 2, seat },
      }),
    ),
    ...vents.map(
      ({ name, at, footDiameter, seat = 0 }): Place => ({
        kind: 'vent',
        ...{ name, at, inner: 0, outer: footDiameter / 2, seat },
      }),
    ),
  ];
  return places.flatMap((place) => checkPlace(place, mesh, slack + 2 * tolerance));
}

function checkPlace(place: Place, mesh: Mesh, near: number): readonly Finding[] {
  const { kind, name, at, seat } = place;
  const isOn = (point: readonly [number, number]): boolean =>
    topsAt(mesh, point).some((z) => z <= at[2] + near && z >= at[2] - seat - near);
  if (!ring(place, middle).some(isOn))
    return [
      stop(
        `${kind}-off-part`,
        `The ${kind} place "${name}" ${whereItIs(place, mesh)}`,
        'Put it on the surface, in each state: sizes with stock lie farther out',
      ),
    ];
  // A vent is thin: its foot sinks a little into a gentle curve.
  if (kind === 'vent' || ring(place, rim).every(isOn)) return [];
  return [
    warn(
      'gate-not-flat',
      `The surface at the gate place "${name}" is not flat as far as its outerDiameter of ${(2 * place.outer).toFixed(1)} mm reaches`,
      'Give a smaller outerDiameter, or another place',
    ),
  ];
}

/** Points on a circle inside the place; its centre too where nothing is cored there. */
function ring({ at, inner, outer }: Place, share: number): readonly (readonly [number, number])[] {
  const radius = inner + share * (outer - inner);
  const points = Array.from({ length: around }, (_, i): readonly [number, number] => {
    const angle = (2 * Math.PI * (i + 0.37)) / around;
    return [at[0] + radius * maths.cos(angle), at[1] + radius * maths.sin(angle)];
  });
  return inner > 0 ? points : [[at[0], at[1]], ...points];
}

const heightsAt = (mesh: Mesh, [x, y]: readonly [number, number]): Float64Array =>
  passColumns(mesh, Float64Array.of(x), Float64Array.of(y)).heights;

/** Where an upright leaves the metal, mm. */
const topsAt = (mesh: Mesh, point: readonly [number, number]): readonly number[] =>
  [...heightsAt(mesh, point)].filter((_, i) => i % 2 === 1);

function whereItIs(place: Place, mesh: Mesh): string {
  const z = place.at[2];
  const heights = [...heightsAt(mesh, ring(place, middle)[0] as readonly [number, number])];
  const above = heights.findIndex((height) => height > z);
  if (heights.length === 0) return 'lies beside the part';
  const over = above < 0 ? heights.length : above;
  if (over % 2 === 1) return `lies inside the metal, ${((heights[over] as number) - z).toFixed(2)} mm deep`;
  return over === 0
    ? 'lies under the part'
    : `hangs ${(z - (heights[over - 1] as number)).toFixed(2)} mm above the surface`;
}
