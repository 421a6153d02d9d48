/** What the view is given to show: plain data, as the workers send it. */

import type { KeepOut } from '../../../core/plate/contract.js';
import type { SpaceDimension } from '../../../core/report/drawing/space-dimensions.js';
import type { FieldVolume } from '../../../core/report/freeze/field-volume.js';
import type { Mesh, Vec3 } from '../../../core/solid/types.js';

/** How a surface shines: metal as poured and finished, printed plastic, plastic of the gating. */
export type Finish = 'metal' | 'plastic' | 'gating';

/** Where a body stands: a turn about Z (rad), then a shift, mm. */
export interface Standing {
  readonly turn: number;
  readonly at: Vec3;
}

export interface Body {
  /** The same body, changed, has the same id. What stands before a `/` names the piece that is looked at. */
  readonly id: string;
  readonly mesh: Mesh;
  readonly finish: Finish;
  /** `#rrggbb` */
  readonly colour: string;
  readonly standing?: Standing;
  /** A translucent skin over what lies in it: stock. */
  readonly skin?: boolean;
  /** Coloured by the field, where there is one. */
  readonly painted?: boolean;
}

/** A point shown over everything, such as a contact between teeth. */
export interface Mark {
  readonly at: Vec3;
  readonly label?: string;
  readonly kind: 'contact' | 'late' | 'thin';
}

/** A straight line shown over everything, such as the line of action. */
export interface Ray {
  readonly from: Vec3;
  readonly to: Vec3;
  readonly kind: 'action' | 'axis';
}

export interface ViewContent {
  readonly bodies: readonly Body[];
  /** A print bed under them, its front left corner at the origin, mm. */
  readonly bed?: {
    /** Rectangle where left out. */
    readonly shape?: 'rectangle' | 'circle';
    readonly width: number;
    readonly depth: number;
    readonly keepOuts?: readonly KeepOut[];
  };
  readonly dimensions?: readonly SpaceDimension[];
  readonly field?: FieldVolume;
  readonly marks?: readonly Mark[];
  readonly rays?: readonly Ray[];
}

/** A plane square to an axis: what lies beyond it, on its positive side, is cut away. */
export interface SectionPlane {
  readonly axis: 'x' | 'y' | 'z';
  /** mm */
  readonly at: number;
  /** What lies on its negative side is cut away instead. */
  readonly flipped?: boolean;
}
