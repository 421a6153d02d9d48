import { allowableLoadNote, loadFindings } from '../core/hardware/index.js';
import { definePart, freeFormTolerance, refuse, type SurfaceNote } from '../core/part/contract.js';
import { type Finding, hasStop, warn } from '../core/part/finding.js';
import { isNoStock, type Stock } from '../core/part/stock.js';
import { planScrewHoles } from './hardware/screw-holes.js';
import { pullSolid } from './hatch-pull/body.js';
import { checkPull } from './hatch-pull/checks.js';
import { pullDimensions } from './hatch-pull/dimensions.js';
import { pullDrawing } from './hatch-pull/drawing.js';
import { type HolePlan, planHole } from './hatch-pull/hole.js';
import { type PullState, pullState } from './hatch-pull/levels.js';
import { pullFittings, pullLoad } from './hatch-pull/loads.js';
import { notUsed } from './hatch-pull/not-used.js';
import { type HatchPullParameters, hatchPullParameters } from './hatch-pull/parameters.js';
import { pullPlaces } from './hatch-pull/places.js';
import { hatchPullSizes, isPlain } from './hatch-pull/sizes.js';
import { styledSolid } from './hatch-pull/styled-body.js';
import { styledPlaces } from './hatch-pull/styled-places.js';

/** The narrowest gate worth naming without a warning, mm (common practice, no source). */
const leastGate = 5;

/**
 * A finger-loop pull for a hatch or locker: a bevelled or an oval ring, and a tab that turns on a pin or is screwed down. It lies on
 * its show face (the part's is z = 0) with the eye's centre on the Z axis, the tab towards −X and the pin along Y; the underside, with
 * lip, gate and vents, is up.
 */
export default definePart({
  name: 'hatch-pull',
  summary: 'Finger-loop pull for a hatch or locker: bevelled or oval ring; hinged or screwed tab',
  parameters: hatchPullParameters,
  tolerance: freeFormTolerance,
  presets: {
    locker: { size: 25 },
    'two-finger': { fingers: 2 },
    'inch-ring': { series: 'inch', size: 31.75 },
    oval: { section: 'oval', tab: 'round' },
    leaf: { section: 'oval', tab: 'leaf' },
    'screw-plate': { section: 'oval', tab: 'plate', fingers: 2 },
    'inch-leaf': { section: 'oval', tab: 'leaf', series: 'inch', size: 31.75 },
  },
  build(parameters, stock, kit) {
    const sizes = hatchPullSizes(parameters);
    const state = pullState(sizes, stock);
    const finished = isNoStock(stock);
    const { hole, screws } = planFastening(state, parameters, stock);
    const checked: readonly Finding[] = [
      ...checkPull(state),
      ...notUsed(parameters),
      ...(screws ?? hole).findings,
    ];
    if (hasStop(checked)) return refuse(checked);

    const load = pullLoad(sizes, state.plan, parameters.strengthOf);
    const words = { part: 'the pull', parameters: ['size', 'thickness', 'pull', 'strengthOf'] };
    const { gates, vents } = isPlain(sizes) ? pullPlaces(state, kit.tolerance) : styledPlaces(state, screws);
    const fastening = screws
      ? ({ by: 'screws', plan: screws, bore: stock.bore } as const)
      : ({ by: 'pin', hole: hole.form } as const);
    return {
      solid: isPlain(sizes) ? pullSolid(state, hole.form, kit) : styledSolid(state, fastening, kit),
      surfaces: surfaceNotes(state),
      dimensions: pullDimensions(state, hole.form === 'hole', screws),
      gates,
      vents,
      ...(finished ? { drawing: pullDrawing(state) } : {}),
      fittings: pullFittings(sizes),
      findings: [
        ...checked,
        ...gateFindings(gates[0]?.outerDiameter ?? 0),
        ...loadFindings(load, {
          ...words,
          use: `a pull of ${sizes.pull} N`,
          remedy: 'take a larger size or a thicker rim',
        }),
        allowableLoadNote(load, words),
      ],
    };
  },
});

function planFastening(state: PullState, p: HatchPullParameters, stock: Stock) {
  const finished = isNoStock(stock);
  const hole: HolePlan = planHole(state, p.hole, finished);
  const { screwed } = state.sizes;
  const screws =
    screwed === null
      ? null
      : planScrewHoles(
          { seat: screwed.seat, mouth: screwed.thickness },
          { bore: stock.bore, top: state.skin, under: state.under },
          p.holes,
          finished,
        );
  return { hole, screws };
}

const surfaceNotes = ({ sizes }: PullState): readonly SurfaceNote[] => [
  { surfaceClass: 'skin', name: 'show face, underside, lip, rim, eye and bevels' },
  ...(sizes.screwed === null
    ? ([
        { surfaceClass: 'mating', name: "tab's sides" },
        { surfaceClass: 'bore', name: 'pin hole' },
      ] as const)
    : ([
        { surfaceClass: 'mating', name: "underside (of an oval pull, the tab's)" },
        { surfaceClass: 'bore', name: 'screw holes and countersinks' },
      ] as const)),
];

const gateFindings = (gate: number): readonly Finding[] =>
  gate >= leastGate
    ? []
    : [
        warn(
          'gate-place-small',
          `the flat on the tab's underside takes a gate of ${gate.toFixed(1)} mm only`,
          `make the tab wider or its bevel smaller, for ${leastGate} mm at least`,
          'tabWidth',
          'bevel',
        ),
      ];
