import { z } from 'zod';
import { helixAngleAt } from '../core/gear/gear-geometry.js';
import { type HelixStretch, singleHelix, turnPerRise } from '../core/gear/helix.js';
import { internalForm, usualCutterTeeth } from '../core/gear/internal-form.js';
import { planLayers } from '../core/gear/layers.js';
import { loftToothedBody } from '../core/gear/toothed-body.js';
import { maths } from '../core/maths/maths.js';
import { definePart, type GatePlace, refuse, type VentPlace } from '../core/part/contract.js';
import { angle, choice, count, length } from '../core/part/fields.js';
import { hasStop, stop } from '../core/part/finding.js';
import { isNoStock } from '../core/part/stock.js';
import type { Vec3 } from '../core/solid/types.js';
import { rimBacking } from './gear/body-sizes.js';
import { thinRim } from './gear/check-body.js';
import { usualRingRim } from './gear/implied-sizes.js';
import { ringDimensions } from './gear/ring-dimensions.js';
import { ringDrawing } from './gear/ring-drawing.js';
import { thinTip } from './gear/thin-tip.js';
import { toothFields } from './gear/tooth-fields.js';
import { gearSpecOf } from './gear/tooth-spec.js';

const degrees = Math.PI / 180;
const { tipRounding: _rounding, ...internalToothFields } = toothFields;
const largest = 400;
const overrun = 1;
/** Clear of the roots and the outside, mm. */
const margin = 0.6;

export default definePart({
  name: 'ring-gear',
  summary: 'Internal gear in a plain ring, spur or helical, as a pinion cutter makes it',
  parameters: z.object({
    ...internalToothFields,
    teeth: count({ min: 20, max: 200, default: 60, help: 'Tooth number', group: 'Teeth', symbol: 'z' }),
    cutterTeeth: count({
      min: 8,
      max: 100,
      derived: 'half of teeth, 12 to 25',
      help: 'Teeth of the cutter that shapes the roots',
      group: 'Teeth',
      symbol: 'z_0',
    }),
    helixAngle: angle({
      min: 0,
      max: 45 * degrees,
      default: 0,
      help: 'Helix angle; 0 for spur',
      group: 'Teeth',
      symbol: 'beta',
    }),
    hand: choice(['left', 'right'], {
      default: 'right',
      help: 'Hand of the helix; the pinion has the same',
      group: 'Teeth',
    }),
    faceWidth: length({ min: 3, max: 150, default: 20, help: 'Face width', group: 'Body', symbol: 'b' }),
    rimThickness: length({
      min: 2,
      max: 100,
      derived: '1.2 tooth depths',
      help: 'Ring outside the roots',
      group: 'Body',
    }),
  }),
  build(p, stock, { kernel, tolerance }) {
    const spec = gearSpecOf({ ...p, tipRounding: 0 }, p.helixAngle);
    if ('severity' in spec) return refuse([spec]);
    const cutter = p.cutterTeeth ?? usualCutterTeeth(p.teeth);
    const drawn = internalForm(spec, cutter);
    if (!drawn.ok) return refuse(drawn.findings);
    const shaped = internalForm(spec, cutter, { flankStock: stock.flank, tipStock: stock.tip });
    if (!shaped.ok) return refuse(shaped.findings);
    const { space } = shaped;
    const rim = p.rimThickness ?? usualRingRim(spec);
    const outside = drawn.space.tipRadius + rim + stock.mating;
    const depth = spec.normalModule * (spec.addendum + spec.dedendum);
    // The teeth stand where the spaces do not, and their tips are at the space's root.
    const land = 2 * drawn.space.rootRadius * (Math.PI / p.teeth - drawn.space.rootAngle);
    const tip = thinTip(
      land * maths.cos(helixAngleAt(spec, 2 * drawn.space.rootRadius)),
      spec.normalModule,
      true,
    );
    const findings = [
      ...shaped.findings,
      ...(rim < rimBacking * depth - 1e-9 ? [thinRim('ring', rim, depth, largest / 2 - outside)] : []),
      ...(tip ? [tip] : []),
      ...(2 * outside > largest
        ? [
            stop(
              'gear-too-large',
              `The outside diameter is ${(2 * outside).toFixed(1)} mm; at most ${largest} mm.`,
              'Use a smaller module, fewer teeth or a thinner rim.',
              'module',
              'teeth',
              'rimThickness',
            ),
          ]
        : []),
    ];
    if (hasStop(findings)) return refuse(findings);

    const [z0, z1] = [-stock.face, p.faceWidth + stock.face];
    const run = singleHelix(z0, z1, turnPerRise(p.helixAngle, space.rack.radius), p.hand);
    const plan = planLayers(space, run, tolerance);
    if (plan.triangles > 1_500_000) {
      return refuse([
        stop(
          'mesh-too-fine',
          `A mesh within ${tolerance} mm would need ${plan.triangles} triangles.`,
          'Use a larger tolerance.',
          'teeth',
          'faceWidth',
        ),
      ]);
    }
    const ring = kernel.frustum([0, 0], z0, outside, z1, outside, tolerance);
    const room = outside - space.tipRadius - 2 * margin;
    const at = (turn: number): Vec3 => {
      const r = (outside + space.tipRadius) / 2;
      return [r * maths.cos(turn), r * maths.sin(turn), z1];
    };
    const quarter = Math.PI / 2;
    const gates: GatePlace[] = [
      { name: 'rim, upper side face', at: at(0), innerDiameter: 0, outerDiameter: room },
      ...[1, 2, 3, 4, 5].map(
        (sixths): GatePlace => ({
          name: `rim, ${60 * sixths}° on`,
          at: at((sixths * Math.PI) / 3),
          innerDiameter: 0,
          outerDiameter: room,
          further: true,
        }),
      ),
    ];
    const vents: VentPlace[] = [1, 2, 3].map((k) => ({
      name: `rim vent ${k}`,
      at: at(k * quarter),
      footDiameter: Math.min(6, room),
    }));
    return {
      solid: ring.subtract(loftToothedBody(kernel, plan, overrun)),
      surfaces: [
        { surfaceClass: 'flank', name: 'tooth flanks, fillets and roots' },
        { surfaceClass: 'tip', name: 'tooth tips' },
        { surfaceClass: 'face', name: 'side faces' },
        { surfaceClass: 'mating', name: 'outside of the ring' },
      ],
      dimensions: ringDimensions({ spec, space, stock, outsideRadius: outside, faces: [z0, z1] }),
      gates,
      vents,
      thinnestWall: Math.min((Math.PI * spec.normalModule) / 2, rim),
      ...(isNoStock(stock)
        ? {
            drawing: ringDrawing({
              parameters: p,
              cutterTeeth: cutter,
              spec,
              space,
              outsideRadius: outside,
              faceWidth: p.faceWidth,
              stretch: run[0] as HelixStretch,
              pitch: plan.pitch,
            }),
          }
        : {}),
      findings,
    };
  },
});
