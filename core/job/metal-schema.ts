/** The fields of a metal on the shelf, in a shop profile or a job. */
import { z } from 'zod';
import { mass, number } from '../part/fields.js';

const group = 'Metals';

/** Fields beside name, alloy and composition. */
export const metalFields = z.object({
  onHand: mass({
    min: 0,
    max: 10_000_000,
    derived: 'as much as is wanted',
    group,
    help: 'How much there is of it',
  }),
  pricePerKg: number({
    min: 0,
    max: 1e6,
    default: 0,
    group,
    help: 'What a kilogram of it costs; own scrap 0',
  }),
});
