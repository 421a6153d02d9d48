import { z } from 'zod';
import { rackForm, sampleRack } from '../core/gear/rack-form.js';
import { maths } from '../core/maths/maths.js';
import { definePart, type GatePlace, refuse, type VentPlace } from '../core/part/contract.js';
import { angle, choice, count, length } from '../core/part/fields.js';
import { hasStop, stop, warn } from '../core/part/finding.js';
import { isNoStock } from '../core/part/stock.js';
import type { Vec3 } from '../core/solid/types.js';
import { rimBacking } from './gear/body-sizes.js';
import { rackDimensions } from './gear/rack-dimensions.js';
import { rackDrawing } from './gear/rack-drawing.js';
import { thinTip } from './gear/thin-tip.js';
import { toothFields } from './gear/tooth-fields.js';
import { gearSpecOf } from './gear/tooth-spec.js';

const degrees = Math.PI / 180;
const { teeth: _teeth, profileShift: _shift, ...rackToothFields } = toothFields;
const longest = 400;
/** Toothed run past the ends before they are cut square, pitches. */
const spare = 2;

export default definePart({
  name: 'rack',
  summary: 'Straight or helical rack, standing on one side face',
  parameters: z.object({
    ...rackToothFields,
    teeth: count({
      min: 3,
      max: 120,
      default: 12,
      help: 'Tooth number; the rack is as long as its pitches',
      group: 'Teeth',
      symbol: 'z',
    }),
    helixAngle: angle({
      min: 0,
      max: 45 * degrees,
      default: 0,
      help: 'Inclination of the teeth; 0 for straight',
      group: 'Teeth',
      symbol: 'beta',
    }),
    hand: choice(['left', 'right'], {
      default: 'right',
      help: 'Hand of inclined teeth; the pinion has the other',
      group: 'Teeth',
    }),
    faceWidth: length({ min: 3, max: 150, default: 20, help: 'Face width', group: 'Body', symbol: 'b' }),
    height: length({
      min: 3,
      max: 200,
      derived: '6 modules',
      help: 'From the back to the pitch line',
      group: 'Body',
      symbol: 'H',
    }),
  }),
  build(p, stock, { kernel, tolerance }) {
    const gear = gearSpecOf({ ...p, profileShift: 0 }, p.helixAngle);
    if ('severity' in gear) return refuse([gear]);
    const rounding = p.tipRounding > 0 ? p.tipRounding + Math.min(stock.flank, stock.tip) : 0;
    const shaped = rackForm(gear, { flankStock: stock.flank, tipStock: stock.tip, tipRounding: rounding });
    if (!shaped.ok) return refuse(shaped.findings);
    const { form } = shaped;
    const m = gear.normalModule;
    const height = p.height ?? 6 * m;
    const run = p.teeth * form.pitch;
    const body = height - gear.dedendum * m;
    const depth = m * (gear.addendum + gear.dedendum);
    const tip = thinTip(
      (Math.PI * m) / 2 - p.thinning - 2 * (gear.addendum * m - p.tipShortening) * maths.tan(p.pressureAngle),
      m,
      false,
    );
    const findings = [
      ...(run > longest
        ? [
            stop(
              'rack-too-long',
              `The rack is ${run.toFixed(1)} mm long; at most ${longest} mm.`,
              'Use fewer teeth and join racks end to end.',
              'teeth',
              'module',
              { teeth: Math.floor(longest / form.pitch) },
            ),
          ]
        : []),
      ...(body < 2 - 1e-9
        ? [
            stop(
              'rack-too-thin',
              `Only ${body.toFixed(1)} mm of body is left below the roots; at least 2 mm.`,
              `Use a height of at least ${(gear.dedendum * m + 2).toFixed(1)} mm.`,
              'height',
              { height: Math.ceil(10 * (gear.dedendum * m + 2)) / 10 },
            ),
          ]
        : []),
      ...(body >= 2 - 1e-9 && body < rimBacking * depth - 1e-9
        ? [
            warn(
              'thin-back',
              `Only ${body.toFixed(1)} mm of body is left below the roots, less than ${rimBacking} tooth depths.`,
              `Use a height of at least ${(Math.ceil(10 * (gear.dedendum * m + rimBacking * depth)) / 10).toFixed(1)} mm where the rack carries load.`,
              'height',
              { height: Math.ceil(10 * (gear.dedendum * m + rimBacking * depth)) / 10 },
            ),
          ]
        : []),
      ...(tip && p.tipRounding === 0 ? [tip] : []),
    ];
    if (hasStop(findings)) return refuse(findings);

    const [z0, z1] = [-stock.face, p.faceWidth + stock.face];
    const [x0, x1] = [-stock.face, run + stock.face];
    const back = -height - stock.mating;
    // Seen from the teeth, +Z up, +X lies to the left: right-hand teeth, which rise to the right, run to −X.
    const slope = (p.hand === 'right' ? -1 : 1) * maths.tan(p.helixAngle);
    const sheared = Math.ceil((Math.abs(slope) * (z1 - z0)) / form.pitch) + spare;
    const edge = sampleRack(form, 0.5 - sheared, p.teeth + 2 * sheared, tolerance);
    const [first, last] = [edge[0] as readonly [number, number], edge.at(-1) as readonly [number, number]];
    // The back first, then the teeth from +x to −x: counter-clockwise seen from above.
    const outline = [[first[0], back] as const, [last[0], back] as const, ...[...edge].reverse()];
    const section = (at: number) => ({ points: outline.map(([x, y]): Vec3 => [x + slope * at, y, at]) });
    const bar = kernel.loft([section(z0), section(z1)]);
    const over = 5;
    const ends = kernel.box([x0, back - over, z0 - over], [x1, form.tipHeight + over, z1 + over]);

    const middle = (back + form.rootHeight) / 2;
    const land = form.rootHeight - back - 0.8;
    const at = (share: number): Vec3 => [x0 + (x1 - x0) * share, middle, z1];
    const gates: GatePlace[] = [
      {
        name: 'middle of the upper side face',
        at: at(0.5),
        innerDiameter: 0,
        outerDiameter: Math.min(land, x1 - x0),
      },
      ...[1, 2, 3, 5, 6, 7].map(
        (eighths): GatePlace => ({
          name: `upper side face, ${eighths}/8 along`,
          at: at(eighths / 8),
          innerDiameter: 0,
          outerDiameter: Math.min(land, (x1 - x0) / 4),
          further: true,
        }),
      ),
    ];
    const vents: VentPlace[] = [0.5 / p.teeth, 1 - 0.5 / p.teeth].map((share, i) => ({
      name: i === 0 ? 'one end' : 'other end',
      at: at(share),
      footDiameter: Math.min(6, land, form.pitch),
    }));
    return {
      solid: bar.intersect(ends),
      surfaces: [
        { surfaceClass: 'flank', name: 'tooth flanks, fillets and roots' },
        { surfaceClass: 'tip', name: 'tooth tips' },
        { surfaceClass: 'face', name: 'side faces and ends' },
        { surfaceClass: 'mating', name: 'back' },
      ],
      dimensions: rackDimensions({ spec: gear, form, stock, back: -back, ends: [x0, x1], faces: [z0, z1] }),
      gates,
      vents,
      thinnestWall: (Math.PI * m) / 2,
      ...(isNoStock(stock)
        ? {
            drawing: rackDrawing({
              parameters: p,
              spec: gear,
              form,
              edge,
              slope,
              length: run,
              faceWidth: p.faceWidth,
              back,
            }),
          }
        : {}),
      findings,
    };
  },
});
