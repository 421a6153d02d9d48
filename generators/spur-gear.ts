import { z } from 'zod';
import { singleHelix } from '../core/gear/helix.js';
import { definePart } from '../core/part/contract.js';
import { bodyFields } from './gear/body-fields.js';
import { buildGear } from './gear/build-gear.js';
import { toothFields } from './gear/tooth-fields.js';

export default definePart({
  name: 'spur-gear',
  summary: 'Involute gear with straight teeth, with bore, hub and web',
  parameters: z.object({ ...toothFields, ...bodyFields }),
  build: (p, stock, kit) =>
    buildGear(
      p,
      {
        helixAngle: 0,
        lengths: (_, z0, z1) => [singleHelix(z0, z1, 0, 'right')],
        measurable: 1,
        findings: () => [],
      },
      stock,
      kit,
    ),
});
