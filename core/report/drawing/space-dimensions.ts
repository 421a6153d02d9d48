import type { Vec3 } from '../../solid/types.js';

/** A dimension of a part as it stands in space, mm, with its text. */
export type SpaceDimension =
  | {
      readonly kind: 'length';
      readonly text: string;
      /** Ends of what is measured, and of the dimension line that stands beside it. */
      readonly from: Vec3;
      readonly to: Vec3;
      readonly lineFrom: Vec3;
      readonly lineTo: Vec3;
    }
  | {
      readonly kind: 'leader';
      readonly text: string;
      /** Where the arrow ends, and where the text stands. */
      readonly at: Vec3;
      readonly textAt: Vec3;
    }
  | {
      readonly kind: 'angle';
      readonly text: string;
      readonly corner: Vec3;
      /** Points along the arc from leg to leg. */
      readonly arc: readonly Vec3[];
    };
