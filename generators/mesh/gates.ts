import { findGatePlaces, type GateSearch } from '../../core/mesh/entry/index.js';
import { matchPlace, readPlace } from '../../core/mesh/surfaces/index.js';
import type { BuildKit, GatePlace } from '../../core/part/contract.js';
import { type Finding, stop } from '../../core/part/finding.js';
import type { Mesh, Vec2, Vec3 } from '../../core/solid/types.js';
import { formatNumber, type LengthUnit, parseLength } from '../../core/units/index.js';
import { carryFlags } from './carry.js';
import type { MeshParameters } from './parameters.js';
import type { PreparedMesh } from './prepare.js';
import { asDrawn, standing } from './stand-up.js';

type Prepared = PreparedMesh & { readonly ok: true };

/** Where metal enters the casting as it stands, best first. */
export type FoundGates =
  | { readonly ok: true; readonly places: readonly GatePlace[]; readonly findings: readonly Finding[] }
  | { readonly ok: false; readonly findings: readonly Finding[] };

/** The gates that are asked for, or those over the heaviest sections; off what is machined. */
export function gatesOn(
  mesh: Mesh,
  prepared: Prepared,
  { gateAt }: MeshParameters,
  kit: BuildKit,
): FoundGates {
  const unit = kit.lengthUnit ?? 'mm';
  const shared: GateSearch = { avoid: carryFlags(prepared.mesh, prepared.machined, mesh) };
  const wishes = gateAt
    .split(';')
    .map((wish) => wish.trim())
    .filter((wish) => wish !== '');
  if (wishes.length === 0) return tell(findGatePlaces(mesh, shared), prepared, unit);
  const places: GatePlace[] = [];
  for (const [i, wish] of wishes.entries()) {
    const wanted = readWish(wish, prepared, mesh, unit);
    if ('message' in wanted)
      return { ok: false, findings: [stop('gate-unclear', wanted.message, wanted.remedy, 'gateAt')] };
    const found = tell(findGatePlaces(mesh, { ...shared, wanted, count: 1 }), prepared, unit);
    if (!found.ok) return found;
    places.push(
      ...found.places.map((place) => ({ ...place, name: wishes.length > 1 ? `gate ${i + 1}` : place.name })),
    );
  }
  return { ok: true, places, findings: [] };
}

type Wanted = NonNullable<GateSearch['wanted']>;

/** A point or a surface as drawn, on the mesh as it stands. */
function readWish(
  wish: string,
  prepared: Prepared,
  mesh: Mesh,
  unit: LengthUnit,
): Wanted | { readonly message: string; readonly remedy: string } {
  if (/^[-+.\d]/.test(wish)) {
    const parts = wish.split(',').map((part) => parseLength(part.trim(), unit));
    const values = parts.flatMap((part) => (part.ok ? [part.value] : []));
    if (values.length < parts.length || values.length < 2 || values.length > 3)
      return { message: `"${wish}" is no place for a gate`, remedy: 'write it like 12, 30 or 12, 30, 8' };
    return { at: pointOf(values, prepared) };
  }
  const text = wish.replace(/\s+/g, ' ').toLowerCase();
  const place = readPlace(text, unit);
  if (!place.ok) return { message: `"${wish}" ${place.problem}`, remedy: place.remedy };
  const { kind } = place.value;
  if (kind === 'everything' || kind === 'all' || kind === 'box' || kind === 'side')
    return { message: `"${wish}" is no one surface`, remedy: 'name a surface, or give a point like 12, 30' };
  const match = matchPlace(prepared.surfaces, place.value, unit);
  if (!match.ok) return match;
  const face = new Uint8Array(prepared.classes.length);
  for (const f of match.surface.triangles) face[f] = 1;
  return { face: carryFlags(prepared.mesh, face, mesh) };
}

/** Two numbers mean a point in plan as it is drawn, at whatever height the surface has there: exact where it stands as drawn. */
function pointOf(values: readonly number[], { turned }: Prepared): Vec2 | Vec3 {
  const [x = 0, y = 0, z] = values;
  const upright = turned.rotation[2][2] === 1;
  const [sx, sy, sz] = standing(turned, [x, y, z ?? 0]);
  return z === undefined || upright === false ? [sx, sy] : [sx, sy, sz];
}

/** Refusals speak of places as drawn. */
function tell(found: ReturnType<typeof findGatePlaces>, { turned }: Prepared, unit: LengthUnit): FoundGates {
  if (found.ok) return { ok: true, places: found.places, findings: [] };
  const { refusal, nearest } = found;
  if (!nearest) return { ok: false, findings: [{ ...refusal, parameters: ['gateAt', 'up'] }] };
  const per = unit === 'in' ? 25.4 : 1;
  const at = asDrawn(turned, nearest.at)
    .map((v) => formatNumber(v / per, { digits: unit === 'in' ? 3 : 1 }))
    .join(', ');
  return {
    ok: false,
    findings: [
      stop(
        refusal.code,
        `${refusal.message} Places in it are as the part stands.`,
        `The nearest that serves is ${at} as drawn.`,
        'gateAt',
        {
          gateAt: at,
        },
      ),
    ],
  };
}
