import type { BacklashRequest } from '../../gear/backlash-plan.js';
import type { BasicRackName } from '../../gear/basic-rack.js';
import type { ApexShape, Hand } from '../../gear/helix.js';
import type { MeshKind } from '../../gear/mesh-backlash.js';
import type { ModuleChoice } from '../../gear/pair-request.js';
import type { GearSpec } from '../../gear/spec.js';

export const memberKinds = ['gear', 'ring', 'rack'] as const;
export type MemberKind = (typeof memberKinds)[number];

/** A toothed part as it is; nothing of it is changed for its mate. Lengths mm. */
export interface ToothedMember {
  readonly kind: MemberKind;
  readonly gearType: 'spur' | 'helical' | 'double-helical';
  /** A rack has no profile shift: 0. */
  readonly spec: GearSpec;
  readonly rackProfile: BasicRackName;
  readonly module: ModuleChoice;
  /** Of the lower half of a double-helical gear. */
  readonly hand: Hand;
  /** As it is given; the width is that of the rounding or groove, worked out where it is not given. */
  readonly apex: { readonly shape: ApexShape; readonly width: number };
  readonly faceWidth: number;
  readonly tipRounding: number;
  /** Of a ring, where it is given. */
  readonly cutterTeeth?: number;
  /** Of a ring, outside its roots. */
  readonly rimThickness?: number;
}

/** What is asked of a mate; lengths mm. */
export interface MateWish {
  readonly kind: MemberKind;
  /** Where it is left out it follows from the ratio or the centre distance; of a rack from its pinion. */
  readonly teeth?: number;
  /** Turns of the chosen gear for one of its mate: z_mate / z_chosen. */
  readonly ratio?: number;
  /** To be met exactly; on a rack from the pinion's axis to the pitch line. */
  readonly centreDistance?: number;
  /** The least for flanks dressed to size when left out. */
  readonly backlash?: BacklashRequest;
}

/** How two kinds of toothed parts mesh; null where they do not. */
export function meshOf(chosen: MemberKind, mate: MemberKind): MeshKind | null {
  if (chosen === 'gear') return mate === 'gear' ? 'external' : mate === 'ring' ? 'internal' : 'rack';
  if (mate !== 'gear') return null;
  return chosen === 'ring' ? 'internal' : 'rack';
}

/** Whether the chosen part is the mesh's `gear`: the pinion, where there is one. */
export const isFirst = (chosen: ToothedMember): boolean => chosen.kind === 'gear';

/** Mates lean the other way, but a ring the same as its pinion. */
export const mateHand = (chosen: ToothedMember, mate: MemberKind): Hand => {
  if (meshOf(chosen.kind, mate) === 'internal') return chosen.hand;
  return chosen.hand === 'left' ? 'right' : 'left';
};
