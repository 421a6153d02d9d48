import type { Vec3 } from '../solid/types.js';

/** The side of the part that a view shows: where the eye stands. */
export type Facing = '+x' | '-x' | '+y' | '-y' | '+z' | '-z';

/** ISO 128-2 kinds of line: thick for what is seen, thin, dashed for what is hidden, chain for axes and pitch lines. */
export type LineKind = 'visible' | 'thin' | 'hidden' | 'chain';

/** A line of a view, in the part's coordinates, mm. A circle lies square to the view; angles rad, from `+right` to `+up`. */
export type DrawnLine =
  | { readonly kind: LineKind; readonly points: readonly Vec3[]; readonly closed?: boolean }
  | {
      readonly kind: LineKind;
      readonly centre: Vec3;
      readonly radius: number;
      readonly from?: number;
      readonly to?: number;
    };

/**
 * What a dimension says. `of` is the symbol of one of the part's `dimensions`, whose value is drawn, or a size of
 * its own in mm; with several of them `form` has as many places. A note whose symbol the part has not is left out.
 */
export interface Sized {
  readonly of: string | number | readonly (string | number)[];
  /** The text, each `{}` a value: `Ø{}`, `R{}`, `6 × Ø{}`, `{} × 45°`. Default `{}`. */
  readonly form?: string;
}

/** The distance between two points, across or up the view, on a dimension line beside it. */
export interface LengthNote extends Sized {
  readonly from: Vec3;
  readonly to: Vec3;
  /** Where the dimension line runs; above and below measure across the view, left and right up it. */
  readonly side: 'above' | 'below' | 'left' | 'right';
  /** Only `to` is drawn, in a half section: the line breaks off beyond the axis, where `from` is the mirror image. */
  readonly half?: boolean;
}

/** A text with an arrow to a point, or to a circle about it. */
export interface LeaderNote extends Sized {
  readonly at: Vec3;
  /** mm */
  readonly radius?: number;
  /** Direction in which the line best leaves, out of the metal. */
  readonly outward?: Vec3;
}

/** The angle at a corner between two points. */
export interface AngleNote extends Sized {
  readonly corner: Vec3;
  readonly legs: readonly [Vec3, Vec3];
}

export type DimensionNote = LengthNote | LeaderNote | AngleNote;

/** One view of the part. */
export interface ViewNote {
  readonly from: Facing;
  /** Upward on paper, in the first view: `+z`, or `+y` seen from ±z, when left out. The others follow from it. */
  readonly up?: Facing;
  /** Coordinate of a plane square to the view: what is nearer is cut away, the cut is hatched. */
  readonly cut?: number;
  /** Drawn in place of the solid's own edges, as far as the view is finer drawn by formula. */
  readonly lines?: readonly DrawnLine[];
  /** Areas cut, with `lines`: outlines and holes in any direction. */
  readonly hatched?: readonly (readonly Vec3[])[];
  /** Centre lines, pitch lines and hidden lines beside the solid's edges. */
  readonly extra?: readonly DrawnLine[];
  readonly dimensions?: readonly DimensionNote[];
}

/** A row of the drawing's data block. */
export interface DataNote {
  readonly symbol?: string;
  readonly name: string;
  /** Text as it stands, or a number with its unit. */
  readonly value: string | number;
  readonly unit?: 'mm' | 'rad' | '1';
}

/**
 * How a part wants to be drawn. All is in the part's own coordinates. The first view is the main one; the others
 * are seen from its sides and placed about it by first-angle projection. Sizes that no view shows are listed.
 */
export interface DrawingNotes {
  readonly views: readonly ViewNote[];
  readonly dataTitle?: string;
  readonly data?: readonly DataNote[];
}
