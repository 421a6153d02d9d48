import { gearGeometry } from '../../gear/gear-geometry.js';
import { checkInternalPair, type InternalPairCheck } from '../../gear/internal-pair-check.js';
import type { Mesh } from '../../gear/mesh-backlash.js';
import { checkPair, type PairCheck } from '../../gear/pair-check.js';
import { shorten, tipRelief } from '../../gear/pair-try.js';
import { checkRackPair, type RackPairCheck } from '../../gear/rack-pair.js';
import { maths } from '../../maths/maths.js';
import type { ToothedMember } from './member.js';
import { isFirst } from './member.js';

/** The check of its kind of pair. */
export type MeshCheck =
  | ({ readonly kind: 'external' } & PairCheck)
  | ({ readonly kind: 'internal' } & InternalPairCheck)
  | ({ readonly kind: 'rack' } & RackPairCheck);

/** `mateRounding`: of the tips of the mate, mm. */
export function checkMesh(mesh: Mesh, chosen: ToothedMember, mateRounding = 0): MeshCheck {
  const { kind, gear, mate, distance } = mesh;
  const faceWidth = chosen.gearType === 'double-helical' ? chosen.faceWidth / 2 : chosen.faceWidth;
  if (kind === 'external')
    return {
      kind,
      ...checkPair(gear, mate, {
        centreDistance: distance,
        faceWidth,
        tipRounding: [chosen.tipRounding, mateRounding],
      }),
    };
  if (kind === 'internal') {
    const cutter = chosen.cutterTeeth === undefined ? {} : { cutterTeeth: chosen.cutterTeeth };
    return { kind, ...checkInternalPair(gear, mate, { centreDistance: distance, faceWidth, ...cutter }) };
  }
  return { kind, ...checkRackPair(gear, mate, { mountingDistance: distance, faceWidth }) };
}

/** Most that the mate's tips are shortened to clear a fillet, in modules: beyond it other teeth serve better. */
const mostRelief = 0.3;

/** The same mesh with the mate's tips ending where the chosen part's flanks do; itself where nothing is in the way. */
export function relieved(mesh: Mesh, check: MeshCheck, chosen: ToothedMember): Mesh {
  const relief = reliefOf(mesh, check, isFirst(chosen));
  if (!(relief > 1e-6) || relief > mostRelief * mesh.gear.normalModule) return mesh;
  return isFirst(chosen)
    ? { ...mesh, mate: shorten(mesh.mate, relief) }
    : { ...mesh, gear: shorten(mesh.gear, relief) };
}

function reliefOf({ gear, mate }: Mesh, check: MeshCheck, chosenFirst: boolean): number {
  if (check.kind === 'external') return tipRelief(mate, check.facts?.gear.belowInvolute ?? 0);
  if (check.kind === 'internal')
    // A ring's tips have been shortened before.
    return chosenFirst ? 0 : tipRelief(gear, check.facts?.beyondRingInvolute ?? 0);
  if (!chosenFirst) return tipRelief(gear, check.facts?.beyondRackFlank ?? 0);
  // A height on the rack is sin α_t of its place on the line of action.
  const below = check.facts?.belowPinionInvolute ?? 0;
  return Math.max(0, below) * maths.sin(gearGeometry(gear).transversePressureAngle);
}
