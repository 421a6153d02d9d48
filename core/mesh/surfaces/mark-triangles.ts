import type { SurfaceClass } from '../../part/stock.js';
import type { Mesh } from '../../solid/types.js';
import type { LengthUnit } from '../../units/index.js';
import { formatMark, type Mark } from './marks.js';
import { matchPlace } from './match-place.js';
import { axes } from './place.js';
import type { MeshSurface } from './surface.js';
import { triangleArea } from './triangle-area.js';

/** What became of one mark. */
export interface MarkNote {
  /** As it would be written. */
  readonly mark: string;
  readonly gets: SurfaceClass | number;
  /** Names of the surfaces it took; empty for a box or a side. */
  readonly surfaces: readonly string[];
  /** Triangles it took, and those that no later mark took from it. */
  readonly triangles: number;
  readonly kept: number;
  /** Of what it kept, mm². */
  readonly area: number;
}

export type TrianglesMarked =
  | {
      readonly ok: true;
      /** One a triangle; `skin` where no mark says otherwise. */
      readonly classes: readonly SurfaceClass[];
      /** One a triangle, mm outward; NaN where its class decides. */
      readonly amounts: Float64Array;
      readonly notes: readonly MarkNote[];
    }
  | {
      readonly ok: false;
      readonly problem: {
        readonly message: string;
        readonly remedy: string /** Index of the mark. */;
        readonly mark: number;
      };
    };

/** A triangle whose middle lies on a box's side to within this, mm, is in it; on the plane of `above` and `below`, in neither. */
const edge = 1e-3;

/**
 * What every triangle gets by the marks, the later one where two meet: a class takes an earlier amount away, an amount
 * overrules the class. A triangle lies in a box, or above or below a plane, when its middle does; none is cut.
 * A mark that takes no triangle is a problem.
 */
export function markTriangles(
  mesh: Mesh,
  surfaces: readonly MeshSurface[],
  marks: readonly Mark[],
  lengthUnit: LengthUnit = 'mm',
): TrianglesMarked {
  const count = mesh.triangles.length / 3;
  const classes: SurfaceClass[] = new Array<SurfaceClass>(count).fill('skin');
  const amounts = new Float64Array(count).fill(NaN);
  const owner = new Int32Array(count).fill(-1);
  const taken: { readonly names: readonly string[]; readonly triangles: number }[] = [];
  for (const [i, mark] of marks.entries()) {
    const found = select(mesh, surfaces, mark, lengthUnit);
    if (!found.ok) return { ok: false, problem: { ...found.problem, mark: i } };
    for (const f of found.triangles) {
      owner[f] = i;
      if (typeof mark.gets === 'number') amounts[f] = mark.gets;
      else {
        classes[f] = mark.gets;
        amounts[f] = NaN;
      }
    }
    taken.push({ names: found.names, triangles: found.triangles.length });
  }
  const kept = new Float64Array(marks.length);
  const areas = new Float64Array(marks.length);
  for (let f = 0; f < count; f++) {
    const i = owner[f]!;
    if (i < 0) continue;
    kept[i]!++;
    areas[i]! += triangleArea(mesh, f);
  }
  const notes = marks.map((mark, i) => ({
    mark: formatMark(mark, lengthUnit),
    gets: mark.gets,
    surfaces: taken[i]!.names,
    triangles: taken[i]!.triangles,
    kept: kept[i]!,
    area: areas[i]!,
  }));
  return { ok: true, classes, amounts, notes };
}

type Selection =
  | { readonly ok: true; readonly triangles: Uint32Array; readonly names: readonly string[] }
  | { readonly ok: false; readonly problem: { readonly message: string; readonly remedy: string } };

function select(mesh: Mesh, surfaces: readonly MeshSurface[], mark: Mark, unit: LengthUnit): Selection {
  const { place } = mark;
  const written = formatMark(mark, unit);
  const none = (why: string, remedy: string): Selection => ({
    ok: false,
    problem: { message: `"${written}" meets nothing: ${why}`, remedy },
  });
  const all = (chosen: readonly MeshSurface[]): Selection => ({
    ok: true,
    triangles: Uint32Array.from(chosen.flatMap((s) => Array.from(s.triangles))),
    names: chosen.map((s) => s.name),
  });
  switch (place.kind) {
    case 'everything':
      return within(mesh, () => true);
    case 'all': {
      const chosen = surfaces.filter((s) => (s.kind === 'plane' ? 'face' : s.form) === place.form);
      return chosen.length > 0
        ? all(chosen)
        : none('no such surface was found', 'name a box or a side of it instead');
    }
    case 'box': {
      const found = within(mesh, (at) =>
        at.every((v, k) => place.min[k]! - edge <= v && v <= place.max[k]! + edge),
      );
      return found.triangles.length > 0
        ? found
        : none('no triangle has its middle in the box', 'make the box larger, or name a surface');
    }
    case 'side': {
      const k = axes.indexOf(place.axis);
      const sign = place.side === 'above' ? 1 : -1;
      const found = within(mesh, (at) => sign * (at[k]! - place.at) > edge);
      return found.triangles.length > 0
        ? found
        : none(`nothing lies ${place.side} it`, 'choose a height within the part');
    }
    default: {
      const match = matchPlace(surfaces, place, unit);
      return match.ok
        ? all([match.surface])
        : { ok: false, problem: { message: match.message, remedy: match.remedy } };
    }
  }
}

/** Triangles by their middles. */
function within(
  { positions: p, triangles: t }: Mesh,
  holds: (at: readonly number[]) => boolean,
): Extract<Selection, { ok: true }> {
  const found: number[] = [];
  const at = [0, 0, 0];
  for (let f = 0; f < t.length; f += 3) {
    for (let k = 0; k < 3; k++)
      at[k] = (p[3 * t[f]! + k]! + p[3 * t[f + 1]! + k]! + p[3 * t[f + 2]! + k]!) / 3;
    if (holds(at)) found.push(f / 3);
  }
  return { ok: true, triangles: Uint32Array.from(found), names: [] };
}
