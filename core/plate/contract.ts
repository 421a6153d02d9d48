import type { PlatePlacement } from '../job/summary.js';
import type { Polygon } from '../solid/types.js';

/** One pattern to place. */
export interface NestItem {
  readonly name: string;
  /** Of `quantity`, from 1. */
  readonly copy: number;
  /** The silhouette seen from above about the pattern's own origin, mm; holes clockwise. */
  readonly outline: readonly Polygon[];
  /** What stands on the bed, mm, for the brim; the outline where left out. */
  readonly foot?: readonly Polygon[];
  /** mm */
  readonly height: number;
  /** Patterns of different groups share no bed. */
  readonly group?: string;
}

/** A zone of the bed that patterns keep out of, mm from its front left corner. */
export type KeepOut = KeepOutArea & {
  /** mm; where given, only patterns higher than this keep out. */
  readonly above?: number;
};
type KeepOutArea =
  /** A rectangle by its front left corner. */
  | { readonly x: number; readonly y: number; readonly width: number; readonly depth: number }
  /** A circle by its centre. */
  | { readonly x: number; readonly y: number; readonly diameter: number };

/** A print bed, mm. */
export interface NestBed {
  /** A circle has the diameter `width`, which is `depth` too. Default rectangle. */
  readonly shape?: 'rectangle' | 'circle';
  readonly width: number;
  readonly depth: number;
  readonly height: number;
  /** Stays free along every edge. */
  readonly margin: number;
  /** Between patterns, whose brims keep off each other alone; default 3. */
  readonly gap?: number;
  /** Printed round each foot; brims keep off each other and stay inside the margin. Default 0. */
  readonly brim?: number;
  readonly keepOuts?: readonly KeepOut[];
}

export interface NestOptions {
  /** A whole number; another one tries other arrangements. Default 1. */
  readonly seed?: number;
  /** Attempts after the first layout; default by the amount of work, or by `isTimeUp` alone where that is given. */
  readonly rounds?: number;
  /** Where given, attempts go on, after `rounds` if these are told, until it says true. One layout is always made. */
  readonly isTimeUp?: () => boolean;
}

/** A pattern that fits on no bed at any turn. */
export interface NestRefusal {
  readonly name: string;
  readonly copies: readonly number[];
  /** One sentence: the pattern's size, the room there is, and by how much it is too large, in which direction. */
  readonly reason: string;
  /** mm too large along the bed's width, depth and height, at the best turn; 0 where it fits. */
  readonly overBy: { readonly width: number; readonly depth: number; readonly height: number };
}

export interface NestResult {
  /** One list a bed: by group, in each the fullest bed first; within a bed in the order the items came in. */
  readonly plates: readonly (readonly PlatePlacement[])[];
  /** Of each plate, the group its patterns belong to. */
  readonly groups: readonly (string | undefined)[];
  /** Of each plate, the share of the room inside the margins that its silhouettes cover. */
  readonly densities: readonly number[];
  readonly refused: readonly NestRefusal[];
  readonly seed: number;
  /** Attempts made: the same number gives the same result again, without a clock. */
  readonly rounds: number;
}
