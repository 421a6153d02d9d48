import type { ToothForm } from '../../core/gear/tooth-form.js';
import { sampleCurve } from '../../core/solid/sample-curve.js';
import type { RollingGear } from './rolling-pair.js';

/** A tooth form as points from root to tip, chords within `chord` (mm). */
export function formProfile(form: ToothForm, chord = 2e-4): RollingGear {
  const points = form.curves.flatMap((c) => sampleCurve(c, chord).points);
  const profile = points
    .map(([x, y]) => ({ radius: Math.hypot(x, y), angle: Math.atan2(y, x) }))
    .sort((a, b) => a.radius - b.radius);
  return { teeth: form.teeth, profile };
}
