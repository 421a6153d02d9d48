import { definePart, refuse } from '../core/part/contract.js';
import { type Finding, hasStop, warn } from '../core/part/finding.js';
import { isNoStock } from '../core/part/stock.js';
import { pullSolid } from './hatch-pull/body.js';
import { checkPull } from './hatch-pull/checks.js';
import { pullDimensions } from './hatch-pull/dimensions.js';
import { pullDrawing } from './hatch-pull/drawing.js';
import { planHole } from './hatch-pull/hole.js';
import { pullState } from './hatch-pull/levels.js';
import { hatchPullParameters } from './hatch-pull/parameters.js';
import { pullPlaces } from './hatch-pull/places.js';
import { hatchPullSizes } from './hatch-pull/sizes.js';

/** The narrowest gate worth naming without a warning, mm (common practice, no source). */
const leastGate = 5;

/**
 * A finger-loop pull for a hatch or locker. It lies on its show face (the part's is z = 0) with the eye's centre on
 * the Z axis, the tab towards −X and the pin along Y; the underside, with lip, gate and vents, is up.
 */
export default definePart({
  name: 'hatch-pull',
  summary: 'Finger-loop pull for a hatch or locker: bevelled ring, finger lip, and a tab on a hinge pin',
  parameters: hatchPullParameters,
  presets: {
    locker: { size: 25 },
    'two-finger': { fingers: 2 },
    'inch-ring': { series: 'inch', size: 31.75 },
  },
  build(parameters, stock, kit) {
    const sizes = hatchPullSizes(parameters);
    const state = pullState(sizes, stock);
    const hole = planHole(state, parameters.hole, isNoStock(stock));
    const checked: readonly Finding[] = [...checkPull(state), ...hole.findings];
    if (hasStop(checked)) return refuse(checked);

    const { gates, vents } = pullPlaces(state, kit.tolerance);
    const gate = gates[0]?.outerDiameter ?? 0;
    const findings =
      gate >= leastGate
        ? checked
        : [
            ...checked,
            warn(
              'gate-place-small',
              `the flat on the tab's underside takes a gate of ${gate.toFixed(1)} mm only`,
              `make the tab wider or its bevel smaller, for ${leastGate} mm at least`,
              'tabWidth',
              'bevel',
            ),
          ];
    return {
      solid: pullSolid(state, hole.form, kit),
      surfaces: [
        { surfaceClass: 'skin', name: 'show face, underside, lip, rim, eye and bevels' },
        { surfaceClass: 'mating', name: "tab's sides" },
        { surfaceClass: 'bore', name: 'pin hole' },
      ],
      dimensions: pullDimensions(state, hole.form === 'hole'),
      gates,
      vents,
      ...(isNoStock(stock) ? { drawing: pullDrawing(state) } : {}),
      findings,
    };
  },
});
