import type { GatePlace } from '../../part/contract.js';
import type { Finding } from '../../part/finding.js';
import type { Vec2, Vec3 } from '../../solid/types.js';

export interface GateSearch {
  /** 1 for each triangle that no gate may touch: machined, or to stay as it is. */
  readonly avoid?: Uint8Array;
  /** Where the gate is wanted: a point, mm, or 1 for each triangle of a face. */
  readonly wanted?: { readonly at: Vec2 | Vec3 } | { readonly face: Uint8Array };
  /** Places at most; 5 where left out. */
  readonly count?: number;
  /** mm across a foot: at least, and what would do. From the gating's own rules where left out. */
  readonly least?: number;
  readonly diameter?: number;
}

export type GatePlaces =
  | {
      readonly ok: true;
      /** Best first; the first serves alone. */
      readonly places: readonly GatePlace[];
      /** The heaviest section: the ball that fits in it, mm. */
      readonly heaviest: { readonly diameter: number; readonly at: Vec3 };
    }
  | {
      readonly ok: false;
      readonly refusal: Finding;
      /** The nearest place that serves, or the best there is of those not asked for. */
      readonly nearest?: GatePlace;
    };
