import { mostGates } from '../../core/foundry/gating/index.js';
import { maths } from '../../core/maths/maths.js';
import { findGatePlaces, type GateSearch, readGateGround } from '../../core/mesh/entry/index.js';
import { matchPlace, readPlace } from '../../core/mesh/surfaces/index.js';
import type { BuildKit, GatePlace, VentPlace } from '../../core/part/contract.js';
import { type Finding, note, stop } from '../../core/part/finding.js';
import type { Mesh } from '../../core/solid/types.js';
import { formatLength, type LengthUnit, parseLength } from '../../core/units/index.js';
import { carryFlags } from './carry.js';
import type { MeshParameters } from './parameters.js';
import type { PreparedMesh } from './prepare.js';
import { asDrawn, standing } from './stand-up.js';

type Prepared = PreparedMesh & { readonly ok: true };

/** Where metal enters the casting as it stands, best first, and where air may leave it. */
export type FoundGates =
  | {
      readonly ok: true;
      readonly places: readonly GatePlace[];
      readonly vents: readonly VentPlace[];
      readonly findings: readonly Finding[];
    }
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
  if (wishes.length > mostGates)
    return {
      ok: false,
      findings: [
        stop(
          'too-many-gates',
          `${wishes.length} places are named for gates`,
          `name ${mostGates} at most`,
          'gateAt',
        ),
      ],
    };
  const ground = readGateGround(mesh);
  const unmarked = findGatePlaces(mesh, shared, ground);
  // Where all that looks up is to be machined, its stock takes the stub.
  const spots = unmarked.ok ? unmarked : findGatePlaces(mesh, {}, ground);
  const rest = spots.ok ? spots.places : [];
  if (wishes.length === 0) {
    const found = tell(spots, rest.slice(1), prepared, unit);
    return found.ok && !unmarked.ok ? { ...found, findings: [onMarked] } : found;
  }
  const places: GatePlace[] = [];
  for (const [i, wish] of wishes.entries()) {
    const wanted = readWish(wish, prepared, mesh, unit);
    if ('message' in wanted)
      return { ok: false, findings: [stop('gate-unclear', wanted.message, wanted.remedy, 'gateAt')] };
    const searched = findGatePlaces(mesh, { ...shared, wanted, count: 1 }, ground);
    // Who names a machined surface wants the gate on it; its stock takes the stub.
    const anyway = searched.ok
      ? searched
      : findGatePlaces(mesh, { ...allowing(shared, wanted), count: 1 }, ground);
    const found = tell(anyway.ok ? anyway : searched, [], prepared, unit, (at) =>
      wishes.with(i, at).join('; '),
    );
    if (!found.ok) return found;
    places.push(
      ...found.places.map((place) => ({ ...place, name: wishes.length > 1 ? `place ${i + 1}` : place.name })),
    );
  }
  const vents = rest.filter((spot) => places.every((gate) => areApart(spot, gate))).map(ventOf);
  return { ok: true, places, vents, findings: [] };
}

const onMarked = note(
  'gate-on-marked',
  'nothing unmarked looks up and holds a gate: metal enters on a marked surface',
  'machine the stub away with its stock, or name another place with gateAt',
  'gateAt',
  'marks',
);

const areApart = (a: GatePlace, b: GatePlace): boolean =>
  maths.hypot(a.at[0] - b.at[0], a.at[1] - b.at[1]) > (a.outerDiameter + b.outerDiameter) / 2;

/** Where a gate could stand, air can leave. */
const ventOf = ({ at, outerDiameter, seat }: GatePlace, i: number): VentPlace => ({
  name: `high place ${i + 1}`,
  at,
  footDiameter: outerDiameter,
  ...(seat === undefined ? {} : { seat }),
});

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
    const { turned } = prepared;
    const [x = 0, y = 0, z] = values;
    const [sx, sy, sz] = standing(turned, [x, y, z ?? 0]);
    if (z !== undefined) return { at: [sx, sy, sz] };
    // In plan alone it is a place only where up is as drawn.
    if (turned.rotation[2][2] !== 1)
      return { message: `"${wish}" has no height, and the part is turned`, remedy: 'write x, y, z as drawn' };
    return { at: [sx, sy] };
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

/** A search that may also use what is machined: of a face, that face. */
function allowing({ avoid }: GateSearch, wanted: Wanted): GateSearch {
  if (!avoid || 'at' in wanted) return { wanted };
  return { wanted, avoid: avoid.map((flag, f) => (wanted.face[f] === 1 ? 0 : flag)) };
}

/** Refusals speak of places as drawn. @param mended `gateAt` with a place that serves */
function tell(
  found: ReturnType<typeof findGatePlaces>,
  further: readonly GatePlace[],
  { turned }: Prepared,
  unit: LengthUnit,
  mended = (at: string): string => at,
): FoundGates {
  if (found.ok) return { ok: true, places: found.places, vents: further.map(ventOf), findings: [] };
  const { refusal, nearest } = found;
  if (!nearest) return { ok: false, findings: [{ ...refusal, parameters: ['gateAt', 'up'] }] };
  const at = asDrawn(turned, nearest.at)
    .map((v) => formatLength(v, unit, { showUnit: false, digits: unit === 'in' ? 3 : 1 }))
    .join(', ');
  return {
    ok: false,
    findings: [
      stop(
        refusal.code,
        `${refusal.message} Places in it are as the part stands.`,
        `The nearest that serves is ${at} as drawn.`,
        'gateAt',
        { gateAt: mended(at) },
      ),
    ],
  };
}
