import { maths } from '../../maths/maths.js';
import type { Vec3 } from '../../solid/types.js';
import { type LengthUnit, millimetresPerInch } from '../../units/index.js';
import type { Unnamed } from './describe.js';
import { axes, type Facing, facings, formatPlace, othersOf, type SurfacePlace } from './place.js';
import type { MeshSurface } from './surface.js';

/** A face smaller than this share of the largest that looks the same way is not what `top face` means. */
const trifle = 0.03;

/**
 * Names by position, in the unit of the job. Figures are rounded to 0.1 mm (0.01 in), and finer only where two surfaces
 * would share a name; a diameter is added where several lie about one axis.
 */
export function nameSurfaces(found: readonly Unnamed[], unit: LengthUnit): MeshSurface[] {
  const outermost = findOutermost(found);
  const chosen: (SurfacePlace | undefined)[] = found.map(() => undefined);
  const names: string[] = found.map(() => '');
  let open = found.map((_, i) => i);
  for (const attempt of attempts) {
    for (const i of open) {
      chosen[i] = placeOf(found[i]!, outermost.has(found[i]!), attempt, unit);
      names[i] = formatPlace(chosen[i]!, unit);
    }
    const counts = new Map<string, number>();
    for (const name of names) counts.set(name, (counts.get(name) ?? 0) + 1);
    open = open.filter((i) => counts.get(names[i]!)! > 1);
    if (open.length === 0) break;
  }
  // Two of one name in spite of all: only the larger one has it.
  const used = new Set<string>();
  return found.flatMap((surface, i): MeshSurface[] => {
    const name = names[i]!;
    if (used.has(name)) return [];
    used.add(name);
    const named = { name, place: chosen[i]! };
    return surface.kind === 'plane'
      ? [{ ...surface, ...named, outermost: outermost.has(surface) }]
      : [{ ...surface, ...named }];
  });
}

interface Attempt {
  /** Decimals in mm; one more in inches. */
  readonly digits: number;
  readonly withDiameter: boolean;
  readonly byCentre: boolean;
}

const attempts: readonly Attempt[] = [
  { digits: 1, withDiameter: false, byCentre: false },
  { digits: 1, withDiameter: true, byCentre: false },
  { digits: 1, withDiameter: true, byCentre: true },
  { digits: 2, withDiameter: true, byCentre: true },
  { digits: 3, withDiameter: true, byCentre: true },
];

function findOutermost(found: readonly Unnamed[]): Set<Unnamed> {
  const outermost = new Set<Unnamed>();
  for (const facing of facings) {
    const faces = found.filter((s) => s.kind === 'plane' && s.facing === facing);
    const least = trifle * Math.max(0, ...faces.map((s) => s.area));
    const best = faces
      .filter((s) => s.area >= least)
      .reduce<Unnamed | null>((a, b) => (a && outwards(a, facing) >= outwards(b, facing) ? a : b), null);
    if (best) outermost.add(best);
  }
  return outermost;
}

const outwards = (surface: Unnamed, facing: Facing): number =>
  levelOf(surface.centre, facing) * senseOf(facing);

const senseOf = (facing: Facing): number =>
  facing === 'up' || facing === 'right' || facing === 'back' ? 1 : -1;

/** The coordinate a face is known by, mm. */
export const levelOf = (centre: Vec3, facing: Facing): number =>
  centre[facing === 'up' || facing === 'down' ? 2 : facing === 'left' || facing === 'right' ? 0 : 1];

function placeOf(surface: Unnamed, isOutermost: boolean, attempt: Attempt, unit: LengthUnit): SurfacePlace {
  const round = (mm: number): number => roundIn(mm, unit, attempt.digits);
  const centre = surface.centre.map(round) as unknown as Vec3;
  if (surface.kind === 'plane') {
    if (isOutermost) return { kind: 'outermost', facing: surface.facing! };
    if (surface.facing === null || attempt.byCentre)
      return { kind: 'centre', form: 'face', at: centre, diameter: null };
    return { kind: 'level', facing: surface.facing, at: round(levelOf(surface.centre, surface.facing)) };
  }
  const { form, along } = surface;
  const diameter = attempt.withDiameter ? round(2 * surface.radius) : null;
  if (along === null || attempt.byCentre) return { kind: 'centre', form, at: centre, diameter };
  const [i, j] = othersOf[axes[axes.indexOf(along)]!];
  return { kind: 'axis', form, along, at: [centre[i], centre[j]], diameter };
}

function roundIn(mm: number, unit: LengthUnit, digits: number): number {
  const per = unit === 'mm' ? 1 : millimetresPerInch;
  const step = maths.pow(10, unit === 'mm' ? digits : digits + 1);
  return (Math.round((mm / per) * step) / step) * per + 0;
}
