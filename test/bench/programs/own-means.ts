import modeling from '@jscad/modeling';
import { turnPerRise } from '../../../core/gear/helix.js';
import { type ToothForm, toothForm } from '../../../core/gear/tooth-form.js';
import type { Stock } from '../../../core/part/stock.js';
import { distanceToSegment, type PlaneCurve } from '../../../core/solid/sample-curve.js';
import type { Vec2 } from '../../../core/solid/types.js';
import { gearSpecOf, type ToothParameters } from '../../../generators/gear/tooth-spec.js';

const { booleans, extrusions, geometries, transforms } = modeling;
type Geom3 = ReturnType<typeof booleans.union>;

export type DoubleHelical = ToothParameters & { readonly helixAngle: number; readonly faceWidth: number };

/**
 * The toothed rim of a casting by @jscad/modeling's own means: two linear extrusions twisted either way, united at the
 * apex. Every curve of the tooth is divided evenly into as few chords as hold. The library's walls have one diagonal
 * throughout, and on the flanks that lean against it the deviations of chord and twist add up as (√a + √c)², so each
 * gets a quarter of the tolerance.
 */
export function rimByOwnMeans(p: DoubleHelical, stock: Stock, tolerance: number): Geom3 {
  const form = formOf(p, stock);
  const quarter = tolerance / 4;
  const outline = outlineOf(form, quarter);
  const half = p.faceWidth / 2 + stock.face;
  const turn = half * turnPerRise(p.helixAngle, form.rack.radius);
  const twistSteps = Math.max(1, Math.ceil(turn / (2 * Math.acos(1 - quarter / form.tipRadius))));
  const flat = geometries.geom2.fromPoints(outline.map(([x, y]): [number, number] => [x, y]));
  const side = (sense: 1 | -1): Geom3 =>
    extrusions.extrudeLinear({ height: half, twistAngle: sense * turn, twistSteps }, flat);
  // The lower hand is left: the section turns back to nought up to the apex, and on again above it.
  const lower = transforms.translate([0, 0, -stock.face], transforms.rotateZ(turn, side(-1)));
  const upper = transforms.translate([0, 0, p.faceWidth / 2], side(1));
  return booleans.union(lower, upper);
}

function formOf(p: DoubleHelical, stock: Stock): ToothForm {
  const spec = gearSpecOf(p, p.helixAngle);
  if ('severity' in spec) throw new Error(spec.message);
  const shaped = toothForm(spec, { flankStock: stock.flank, tipStock: stock.tip });
  if (!shaped.ok) throw new Error(JSON.stringify(shaped.findings));
  return shaped.form;
}

/** All teeth, counter-clockwise. */
function outlineOf(form: ToothForm, tolerance: number): readonly Vec2[] {
  const pitch = (2 * Math.PI) / form.teeth;
  const arc = (radius: number, from: number, to: number): PlaneCurve => ({
    from,
    to,
    at: (t) => [radius * Math.cos(t), radius * Math.sin(t)],
  });
  const down = form.curves.map((curve) => divided(curve, tolerance));
  const up = down.map((points) => points.map(([x, y]): Vec2 => [x, -y]).reverse()).reverse();
  const tooth = [
    ...up,
    divided(arc(form.tipRadius, -form.tipHalfAngle, form.tipHalfAngle), tolerance),
    ...down,
    divided(arc(form.rootRadius, form.rootAngle, pitch - form.rootAngle), tolerance),
  ].flatMap((points) => points.slice(0, -1));
  return Array.from({ length: form.teeth }, (_, k) => {
    const [c, s] = [Math.cos(k * pitch), Math.sin(k * pitch)];
    return tooth.map(([x, y]): Vec2 => [c * x - s * y, s * x + c * y]);
  }).flat();
}

/** Points at even steps of the curve's parameter, as few as hold. */
function divided({ from, to, at }: PlaneCurve, tolerance: number): readonly Vec2[] {
  for (let n = 1; ; n++) {
    const points = Array.from({ length: n + 1 }, (_, i) => at(from + ((to - from) * i) / n));
    const holds = points
      .slice(1)
      .every((b, i) =>
        [0.25, 0.5, 0.75].every(
          (f) => distanceToSegment(at(from + ((to - from) * (i + f)) / n), points[i] as Vec2, b) <= tolerance,
        ),
      );
    if (holds) return points;
  }
}
