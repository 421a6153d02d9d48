import { maths } from '../../maths/maths.js';
import { distanceOf } from '../../shape/vector.js';
import type { LengthUnit } from '../../units/index.js';
import { levelOf } from './name-surfaces.js';
import { formatPlace, othersOf, type SurfacePlace } from './place.js';
import type { MeshSurface } from './surface.js';

export type PlaceMatch =
  | { readonly ok: true; readonly surface: MeshSurface }
  | { readonly ok: false; readonly message: string; readonly remedy: string };

/** A name's figures are rounded: so near is as good as there, mm. */
const rounding = 0.15;
/** A surface may have moved so far since it was named, mm. */
const reach = 1;

/**
 * The surface that a name means: of its kind, the nearest within 1 mm, and clearly nearer than the next. What is not
 * found is answered with the names that come nearest.
 */
export function matchPlace(
  surfaces: readonly MeshSurface[],
  place: SurfacePlace,
  unit: LengthUnit,
): PlaceMatch {
  const wanted = formatPlace(place, unit);
  const near = surfaces
    .map((surface) => ({ surface, distance: distanceTo(surface, place) }))
    .filter(({ distance }) => distance < Infinity)
    .sort((a, b) => a.distance - b.distance);
  const within = near.filter(({ distance }) => distance <= reach);
  const [first, second] = within;
  const fits = within.filter(({ distance }) => distance <= rounding);
  if (first && fits.length <= 1 && (!second || first.distance < 0.5 * second.distance))
    return { ok: true, surface: first.surface };
  // A full name is its own surface's, however near another lies.
  const named = surfaces.find((s) => s.name === wanted);
  if (named) return { ok: true, surface: named };
  const names = (first ? within : near).slice(0, 4).map(({ surface }) => surface.name);
  if (first)
    return {
      ok: false,
      message: `"${wanted}" may mean ${names.length} surfaces`,
      remedy: `write ${names.join(' or ')}`,
    };
  return {
    ok: false,
    message: `There is no surface "${wanted}"`,
    remedy: names.length > 0 ? `nearest are ${names.join('; ')}` : othersFound(surfaces),
  };
}

const othersFound = (surfaces: readonly MeshSurface[]): string =>
  surfaces.length === 0
    ? 'no planes or cylinders were found: use box … to …, or above z …'
    : `found are ${surfaces
        .slice(0, 6)
        .map((s) => s.name)
        .join('; ')}${surfaces.length > 6 ? ` and ${surfaces.length - 6} more` : ''}`;

/** mm; infinite for a surface of another kind. */
function distanceTo(surface: MeshSurface, place: SurfacePlace): number {
  if (place.kind === 'outermost')
    return surface.kind === 'plane' && surface.outermost && surface.facing === place.facing ? 0 : Infinity;
  if (place.kind === 'level')
    return surface.kind === 'plane' && surface.facing === place.facing
      ? Math.abs(levelOf(surface.centre, place.facing) - place.at)
      : Infinity;
  const form = surface.kind === 'plane' ? 'face' : surface.form;
  if (form !== place.form) return Infinity;
  const off =
    place.diameter === null || surface.kind === 'plane' ? 0 : Math.abs(2 * surface.radius - place.diameter);
  if (place.kind === 'centre') return Math.max(off, distanceOf(surface.centre, place.at));
  if (surface.kind === 'plane' || surface.along !== place.along) return Infinity;
  const [i, j] = othersOf[place.along];
  return Math.max(off, maths.hypot(surface.centre[i] - place.at[0], surface.centre[j] - place.at[1]));
}
