/** The fields of a crucible in a shop profile. */
import { z } from 'zod';
import { count, length, number } from '../part/fields.js';

const group = 'Crucible';

/** A crucible is given by its bilge size number, or by what it holds to the brim. */
export const crucibleFields = z.object({
  bilge: count({ min: 1, max: 400, derived: '', group, help: 'Size number of the bilge shape' }),
  volume: number({ min: 5, max: 100_000, derived: '', group, help: 'Or what it holds to the brim, ml' }),
  mouth: length({
    min: 10,
    max: 600,
    derived: 'as of a bilge of that volume',
    group,
    help: 'Inside diameter at the rim',
  }),
});
