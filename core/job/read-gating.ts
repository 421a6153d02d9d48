import type { z } from 'zod';
import type { GatingSettings } from '../foundry/gating/index.js';
import { listSchemaFields } from '../part/field-list.js';
import type { FieldKind } from '../part/fields.js';
import { degrees } from '../units/index.js';
import { gatingFields } from './gating-schema.js';
import { present } from './present.js';

/** As planned with: what is not set is left out, the velocity in mm/s. */
export const gatingSettingsOf = (given: Partial<z.output<typeof gatingFields>>): Partial<GatingSettings> => {
  const { velocityLimit, ...rest } = given;
  return present({
    ...rest,
    velocityLimit: velocityLimit === undefined ? undefined : 1000 * velocityLimit,
  });
};

const suffixes: Readonly<Partial<Record<FieldKind, string>>> = { length: 'mm', angle: 'deg', duration: 's' };

/** What to write in a job to have these settings, units and all: the inverse of `gatingSettingsOf`. */
export function formatGating(settings: Partial<GatingSettings>): string {
  const keys = listSchemaFields(gatingFields).flatMap(({ name, info }) => {
    const value = settings[name as keyof GatingSettings];
    if (value === undefined || value === null) return [];
    const shown = name === 'velocityLimit' ? value / 1000 : info.kind === 'angle' ? degrees(value) : value;
    return [`${name}: ${Number(shown.toPrecision(12))}${suffixes[info.kind] ?? ''}`];
  });
  return `gating: { ${keys.join(', ')} }`;
}
