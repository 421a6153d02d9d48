import type { z } from 'zod';
import type { GatingSettings } from '../foundry/gating/index.js';
import type { gatingFields } from './gating-schema.js';
import { present } from './job-reader.js';

/** As planned with: what is not set is left out, the velocity in mm/s. */
export const gatingSettingsOf = (given: Partial<z.output<typeof gatingFields>>): Partial<GatingSettings> => {
  const { velocityLimit, ...rest } = given;
  return present({
    ...rest,
    velocityLimit: velocityLimit === undefined ? undefined : 1000 * velocityLimit,
  });
};
