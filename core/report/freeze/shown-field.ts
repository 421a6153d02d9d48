import { type CastFields, cellRole } from '../../freeze/cast-fields.js';
import type { FreezePlan } from '../../freeze/plans.js';
import { heldAt } from './sample-field.js';
import { latest } from './section-picture.js';
import { solidScale, spentScale, type ValueScale } from './value-scale.js';

/** What colours metal: how nearly frozen the first of it comes to a place, or when it is solid there. */
export type SurfaceField = 'spent' | 'solidAt';

/** A field with its scale, nothing endless in it, and the metal that counts for it. */
export interface ShownField {
  readonly values: Float32Array;
  /** Of metal in each cell, 0 where it says nothing of the casting. */
  readonly share: Float32Array;
  readonly scale: ValueScale;
}

export function shownField(
  fields: CastFields,
  { fill }: Pick<FreezePlan, 'fill'>,
  field: SurfaceField,
): ShownField {
  if (field === 'solidAt')
    return {
      values: heldAt(fields.solidAt, latest(fields.solidAt)),
      share: fields.share,
      scale: solidScale(fields),
    };
  return {
    values: heldAt(fields.spent, 1),
    // Vents are there to run cold: how far metal comes in them says nothing of the casting.
    share: fields.share.map((s, c) => (fields.role[c] === cellRole.vent ? 0 : s)),
    scale: spentScale(fill.marginLimit),
  };
}
