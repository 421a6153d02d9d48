import { z } from 'zod';
import { singleHelix, turnPerRise } from '../core/gear/helix.js';
import { definePart } from '../core/part/contract.js';
import { choice } from '../core/part/fields.js';
import { bodyFields } from './gear/body-fields.js';
import { buildGear } from './gear/build-gear.js';
import { helixAngleField, toothFields } from './gear/tooth-fields.js';

export default definePart({
  name: 'helical-gear',
  summary: 'Involute gear with helical teeth, left- or right-hand; its mate has the other hand',
  parameters: z.object({
    ...toothFields,
    helixAngle: helixAngleField,
    hand: choice(['left', 'right'], { default: 'right', help: 'Hand of the helix', group: 'Teeth' }),
    ...bodyFields,
  }),
  build: (p, stock, kit) =>
    buildGear(
      p,
      {
        helixAngle: p.helixAngle,
        lengths: (form, z0, z1) => [singleHelix(z0, z1, turnPerRise(p.helixAngle, form.rack.radius), p.hand)],
        measurable: 1,
        findings: () => [],
      },
      stock,
      kit,
    ),
});
