import type { Box, Vec2, Vec3 } from '../../solid/types.js';
import { formatLength, type LengthUnit } from '../../units/index.js';

/** The ways a face can look that have a word: up is +z, left −x, front −y. */
export const facings = ['up', 'down', 'left', 'right', 'front', 'back'] as const;
export type Facing = (typeof facings)[number];

export const axes = ['x', 'y', 'z'] as const;
export type Axis = (typeof axes)[number];

/** `bore` and `boss` go most of the way round; `hollow` and `round` are parts of them: slot ends, fillets, corners. */
export const cylinderForms = ['bore', 'boss', 'hollow', 'round'] as const;
export type CylinderForm = (typeof cylinderForms)[number];

/** Where a surface is, mm: what its name says. */
export type SurfacePlace =
  /** `top face`: the outermost that looks that way. */
  | { readonly kind: 'outermost'; readonly facing: Facing }
  /** `face up at 12`: by its coordinate along the way it looks. */
  | { readonly kind: 'level'; readonly facing: Facing; readonly at: number }
  /** `bore at 12, 30`, `bore along x at 30, 5`, `bore 8 at 12, 30`: by the other two coordinates of its axis. */
  | {
      readonly kind: 'axis';
      readonly form: CylinderForm;
      readonly along: Axis;
      readonly at: Vec2;
      readonly diameter: number | null;
    }
  /** `face at 1, 2, 3`, `bore 8 at 1, 2, 3`: by the centre. */
  | {
      readonly kind: 'centre';
      readonly form: 'face' | CylinderForm;
      readonly at: Vec3;
      readonly diameter: number | null;
    };

export const sorts = {
  'all flat faces': 'face',
  'all bores': 'bore',
  'all bosses': 'boss',
  'all hollows': 'hollow',
  'all rounds': 'round',
} as const satisfies Record<string, 'face' | CylinderForm>;

/** What a mark can name, mm. */
export type Place =
  | SurfacePlace
  | { readonly kind: 'all'; readonly form: 'face' | CylinderForm }
  | { readonly kind: 'everything' }
  | ({ readonly kind: 'box' } & Box)
  | {
      readonly kind: 'side';
      readonly side: 'above' | 'below';
      readonly axis: Axis;
      readonly at: number;
    };

/** Words for the outermost faces. */
export const outermostNames: Readonly<Record<Facing, string>> = {
  up: 'top face',
  down: 'bottom face',
  left: 'left face',
  right: 'right face',
  front: 'front face',
  back: 'back face',
};

/** The other two coordinates of a line along an axis, in the order x, y, z. */
export const othersOf: Readonly<Record<Axis, readonly [0 | 1, 1 | 2]>> = { x: [1, 2], y: [0, 2], z: [0, 1] };

/** The way a place is written; numbers in `unit` without its name, as `readMarks` reads them. */
export function formatPlace(place: Place, unit: LengthUnit): string {
  const one = (mm: number): string => formatLength(mm, unit, { showUnit: false });
  const many = (at: readonly number[]): string => at.map(one).join(', ');
  const sized = (form: string, diameter: number | null): string =>
    diameter === null ? form : `${form} ${one(diameter)}`;
  switch (place.kind) {
    case 'outermost':
      return outermostNames[place.facing];
    case 'level':
      return `face ${place.facing} at ${one(place.at)}`;
    case 'axis':
      return `${sized(place.form, place.diameter)}${place.along === 'z' ? '' : ` along ${place.along}`} at ${many(place.at)}`;
    case 'centre':
      return `${sized(place.form, place.diameter)} at ${many(place.at)}`;
    case 'all':
      return Object.entries(sorts).find(([, form]) => form === place.form)![0];
    case 'everything':
      return 'everything';
    case 'box':
      return `box ${many(place.min)} to ${many(place.max)}`;
    case 'side':
      return `${place.side} ${place.axis} ${one(place.at)}`;
  }
}
