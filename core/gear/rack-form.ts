import { maths } from '../maths/maths.js';
import { type Finding, stop } from '../part/finding.js';
import { planChain } from '../solid/sample-chain.js';
import type { PlaneCurve } from '../solid/sample-curve.js';
import type { Vec2 } from '../solid/types.js';
import type { GearSpec } from './spec.js';
import type { ToothOptions } from './tooth-form.js';

/** A rack is fixed by the same figures as a gear but for tooth number and profile shift, which it has not. */
export type RackSpec = Omit<GearSpec, 'teeth' | 'profileShift'>;

/** One tooth of a rack in the transverse section: half of it, from the middle of the tip down to the root land. */
export interface RackForm {
  /** Pitch along the rack, p_t = π m_n / cos β, mm. */
  readonly pitch: number;
  /** β, rad. */
  readonly helixAngle: number;
  /** Heights of tip and root above the datum line, mm. */
  readonly tipHeight: number;
  readonly rootHeight: number;
  /** Tip rounding (when there is one), flank and root fillet on the +x side, [x, height], from high to low. */
  readonly curves: readonly PlaneCurve[];
}

export type RackFormResult =
  | { readonly ok: true; readonly form: RackForm }
  | { readonly ok: false; readonly findings: readonly Finding[] };

/**
 * The exact rack: the basic rack tooth profile of ISO 53:1998 itself, straight flanks between tip line and root
 * fillet, stretched by 1 / cos β along the rack. Stock moves flank, fillet and root line by its amount along their
 * normals in the normal section; for a plane flank that is its true normal.
 */
export function rackForm(spec: RackSpec, options: ToothOptions = {}): RackFormResult {
  const { flankStock = 0, tipStock = 0, tipRounding = 0 } = options;
  const m = spec.normalModule;
  const an = spec.normalPressureAngle;
  const [cos, sin, tan] = [maths.cos(an), maths.sin(an), maths.tan(an)];
  const half = (Math.PI * m) / 4 - spec.thinning / 2 + flankStock / cos;
  const tipHeight = spec.addendum * m - (spec.tipShortening ?? 0) + tipStock;
  const rootHeight = -spec.dedendum * m + flankStock;
  const root = Math.max(0, spec.rootRadius * m - flankStock);
  const halfAt = (height: number): number => half - height * tan;

  const largestTip = (halfAt(tipHeight) * cos) / (1 - sin);
  const tip = Math.min(tipRounding, largestTip);
  const rootCentre: Vec2 = [halfAt(rootHeight + root) + root / cos, rootHeight + root];
  const pitch = Math.PI * m;
  if (halfAt(tipHeight) < 0.02 * m) {
    return refused(
      stop(
        'pointed-tooth',
        'The flanks of the rack meet below its tip.',
        'Use a smaller addendum or pressure angle.',
        'addendum',
        'pressureAngle',
      ),
    );
  }
  if (rootCentre[0] > pitch / 2 + 1e-9) {
    return refused(
      stop(
        'root-radius-too-large',
        'The root fillets of neighbouring teeth overlap.',
        'Use a smaller root radius or dedendum.',
        'rootRadius',
        'dedendum',
      ),
    );
  }
  const stretch = 1 / maths.cos(spec.helixAngle);
  const curve = (from: number, to: number, at: (t: number) => Vec2): PlaneCurve => ({
    from,
    to,
    at: (t) => {
      const [x, y] = at(t);
      return [x * stretch, y];
    },
  });
  const circle =
    ([x, y]: Vec2, r: number) =>
    (t: number): Vec2 => [x + r * maths.cos(t), y + r * maths.sin(t)];
  const tipCentre: Vec2 = [halfAt(tipHeight - tip) - tip / cos, tipHeight - tip];
  const high = tipHeight - tip * (1 - sin);
  const low = rootHeight + root * (1 - sin);
  if ((tip > 1e-3 ? high : tipHeight) <= low + 0.02 * m) {
    return refused(
      stop(
        'no-flank',
        'Tip and root fillet leave the rack no straight flank.',
        'Use less tip shortening or rounding, or a larger addendum.',
        'tipShortening',
        'tipRounding',
        'addendum',
      ),
    );
  }
  return {
    ok: true,
    form: {
      pitch: pitch * stretch,
      helixAngle: spec.helixAngle,
      tipHeight,
      rootHeight,
      curves: [
        ...(tip > 1e-3 ? [curve(Math.PI / 2, an, circle(tipCentre, tip))] : []),
        curve(tip > 1e-3 ? high : tipHeight, low, (h) => [halfAt(h), h]),
        ...(root > 1e-6 ? [curve(Math.PI + an, 1.5 * Math.PI, circle(rootCentre, root))] : []),
      ],
    },
  };
}

const refused = (finding: Finding): RackFormResult => ({ ok: false, findings: [finding] });

/**
 * The toothed edge from the middle of the first tooth space to that of the last, [x, height], rising in x; the fewest
 * chords within `tolerance`, mm.
 */
export function sampleRack(
  form: RackForm,
  firstTooth: number,
  teeth: number,
  tolerance: number,
): readonly Vec2[] {
  // Along the rack a distance in the transverse section is longer than the one along the normal of the slanted tooth.
  const lean = maths.tan(form.helixAngle);
  const sampled = (curves: readonly PlaneCurve[], symmetric: boolean): readonly Vec2[] =>
    planChain(curves, tolerance, { symmetric, share: (_, [nx]) => 1 / maths.hypot(1, lean * nx) }).sample()
      .points;
  const down = form.curves;
  const up = [...down].reverse().map(({ from, to, at }): PlaneCurve => {
    return { from: to, to: from, at: (t) => [form.pitch - at(t)[0], at(t)[1]] };
  });
  const foot = endOf(down.at(-1) as PlaneCurve)[0];
  const width = form.pitch - 2 * foot;
  const land: PlaneCurve = { from: 0, to: 1, at: (t) => [foot + t * width, form.rootHeight] };
  // Through a space in one run, from the tip of one tooth to that of the next.
  const space = sampled([...down, ...(width > leastLand ? [land] : []), ...up], true);
  const last = sampled(down, false);
  const first = [...last].reverse().map(([x, y]): Vec2 => [-x, y]);
  const middle = (side: -1 | 1): Vec2 => [(side * form.pitch) / 2, form.rootHeight];
  const at = (k: number, points: readonly Vec2[]): Vec2[] =>
    points.map(([x, y]): Vec2 => [x + (firstTooth + k) * form.pitch, y]);
  return [
    ...at(0, [middle(-1), ...first]),
    ...Array.from({ length: teeth - 1 }, (_, k) => at(k, space)).flat(),
    ...at(teeth - 1, [...last, middle(1)]),
  ].filter((p, i, all) => i === 0 || maths.hypot(p[0] - all[i - 1]![0], p[1] - all[i - 1]![1]) > leastLand);
}

/** Lands shorter than this, mm, are none: a full rounding has used them up. */
const leastLand = 1e-5;

const endOf = ({ to, at }: PlaneCurve): Vec2 => at(to);
