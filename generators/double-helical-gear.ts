import { z } from 'zod';
import { doubleHelixLengths, leastGroove, turnPerRise } from '../core/gear/helix.js';
import { definePart } from '../core/part/contract.js';
import { choice, length } from '../core/part/fields.js';
import { type Finding, stop } from '../core/part/finding.js';
import { bodyFields } from './gear/body-fields.js';
import { buildGear } from './gear/build-gear.js';
import { usualApexWidth } from './gear/implied-sizes.js';
import { helixAngleField, toothFields } from './gear/tooth-fields.js';

const group = 'Teeth';

export default definePart({
  name: 'double-helical-gear',
  summary: 'Gear with two opposite helices side by side, which cancel their end thrust',
  parameters: z.object({
    ...toothFields,
    helixAngle: helixAngleField,
    lowerHand: choice(['left', 'right'], {
      default: 'left',
      help: 'Hand of the lower half; the upper half has the other, and so has the mate. left: the apex leads when turned clockwise, seen from above',
      group,
    }),
    apex: choice(['sharp', 'rounded', 'gap', 'staggered'], {
      default: 'sharp',
      help: 'Where the halves meet: sharp, rounded over apexWidth, parted by a groove of apexWidth, or parted and staggered by half a pitch',
      group,
    }),
    apexWidth: length({
      min: 0.5,
      max: 60,
      derived: 'a fifth of faceWidth',
      help: 'Width of the rounded apex or the groove',
      group,
    }),
    ...bodyFields,
  }),
  build(p, stock, kit) {
    const apex = p.faceWidth / 2;
    const width = p.apex === 'sharp' ? 0 : (p.apexWidth ?? usualApexWidth(p.faceWidth));
    const fits = width <= p.faceWidth - 2;
    // The groove's walls are side faces of the teeth: their stock narrows it.
    const groove = Math.max(leastGroove, width - 2 * stock.face);
    return buildGear(
      p,
      {
        helixAngle: p.helixAngle,
        lengths: (form, z0, z1) =>
          doubleHelixLengths(
            z0,
            z1,
            { shape: p.apex, height: apex, width, groove },
            turnPerRise(p.helixAngle, form.rack.radius),
            p.lowerHand,
            form.teeth,
          ),
        // The groove runs just below the roots, so that a cutter or file can leave the tooth.
        coreRadius: (form) =>
          form.rootRadius - Math.min(0.25 * form.rack.rounding + 0.3, 0.1 * form.rootRadius),
        measurable: Math.max(0, (p.faceWidth - width) / 2 / p.faceWidth),
        findings: (): readonly Finding[] =>
          fits
            ? []
            : [
                stop(
                  'apex-too-wide',
                  `An apexWidth of ${width} mm leaves no teeth on a face width of ${p.faceWidth} mm.`,
                  `Use at most ${p.faceWidth - 2} mm.`,
                  'apexWidth',
                  'faceWidth',
                  { apexWidth: p.faceWidth - 2 },
                ),
              ],
      },
      stock,
      kit,
    );
  },
});
