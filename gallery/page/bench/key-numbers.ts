/** The few numbers that are always in sight. */
import type { Summary } from '../../../core/job/summary.js';
import { createFormat, decimals, type View } from '../../../core/report/format.js';

export interface KeyNumber {
  readonly label: string;
  readonly text: string;
}

/** Of the whole job, and of the casting looked at its print. */
export function keyNumbers(summary: Summary, casting: string, view: View): readonly KeyNumber[] {
  const f = createFormat(view, '\u00a0');
  const isLeftOut = summary.notMade?.some((p) => p.name === casting);
  const told = isLeftOut ? undefined : (summary.parts.find((p) => p.name === casting) ?? summary.parts[0]);
  const several = summary.pour.length > 1;
  const own = told ? summary.charge.find((c) => c.alloy === told.alloy) : undefined;
  const pour = told ? summary.pour.find((p) => p.alloy === told.alloy) : undefined;
  const melt = own?.melt === undefined ? f.mass(own?.charge ?? 0) : f.weighed(own.charge, own.melt.scaleStep);
  const { investment, coating } = summary;
  return [
    ...(own ? [{ label: several ? `To melt, ${own.title}` : 'To melt', text: melt }] : []),
    ...(investment
      ? [
          { label: 'Powder', text: f.weighed(investment.weigh.powder, investment.weigh.step) },
          { label: 'Water', text: f.weighed(investment.weigh.water, investment.weigh.step) },
        ]
      : []),
    ...(told?.flask
      ? [{ label: 'Flask', text: flaskText([told.flask.insideDiameter, told.flask.insideHeight], view) }]
      : []),
    ...(coating
      ? [
          { label: 'Slurry', text: f.mass(coating.slurry) },
          { label: 'Stucco', text: f.mass(coating.stucco) },
        ]
      : []),
    ...(pour
      ? [
          {
            label: 'Pour',
            text: `${f.temperature(pour.metalTemperature)} into ${f.temperature(pour.flaskTemperature)}`,
          },
        ]
      : []),
    ...(told ? [{ label: 'Print', text: f.box(told.meshes.gated.size) }] : []),
  ];
}

/** Flasks are told apart by whole millimetres. */
function flaskText(size: readonly number[], view: View): string {
  if (view.lengthUnit === 'in') return `ø${createFormat(view, '\u00a0').box(size)}`;
  return `ø${size.map((mm) => decimals(mm, 0)).join('\u00a0×\u00a0')}\u00a0mm`;
}
