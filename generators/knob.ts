import {
  allowableLoadNote,
  fastenerFitting,
  insertPocket,
  loadFindings,
  soldLength,
} from '../core/hardware/index.js';
import {
  definePart,
  type Fitting,
  freeFormTolerance,
  type GatePlace,
  refuse,
  type VentPlace,
} from '../core/part/contract.js';
import { hasStop } from '../core/part/finding.js';
import { isNoStock, type Stock } from '../core/part/stock.js';
import { checkKnob, knobLoad, planKnobHole } from './knob/checks.js';
import { knobDimensions } from './knob/dimensions.js';
import { knobDrawing } from './knob/drawing.js';
import { knobParameters } from './knob/parameters.js';
import { knobProfile, profilePolygon } from './knob/profile.js';
import { type KnobParameters, type KnobSizes, knobSizes } from './knob/sizes.js';

/** Kept between the gate's rim and the foot's edge, mm. */
const margin = 0.1;
/** Vents' feet, mm. */
const [leastVent, widestVent] = [1.5, 4];

/**
 * A turned knob. It is poured on its crown (z = 0), the foot's underside up: that face is turned true anyway and takes
 * the sprue, and the crown fills first and cleanest.
 */
export default definePart({
  name: 'knob',
  summary:
    'Turned knob for a door or drawer: head, spindle and foot, for a bolt, a threaded insert or a stud',
  parameters: knobParameters,
  tolerance: freeFormTolerance,
  presets: {
    drawer: { size: 25 },
    door: { size: 50, thread: 'M8' },
    insert: { fixing: 'insert' },
    inch: { series: 'inch', size: 31.75 },
  },
  build(parameters, stock, kit) {
    const sizes = knobSizes(parameters);
    const { skin, mating, bore } = stock;
    const hole = planKnobHole(sizes, parameters, stock, isNoStock(stock));
    const findings = [...checkKnob(sizes, parameters, stock), ...hole.findings];
    const profile = hasStop(findings) ? null : knobProfile(sizes, skin, mating);
    if (profile === null) return refuse(findings);

    // Round both ways, the chord errors of profile and turn add.
    const { kernel } = kit;
    const tolerance = kit.tolerance / 2;
    const body = kernel.revolve(profilePolygon(profile, tolerance), tolerance);
    const top = sizes.projection + mating;
    const radius = hole.diameter / 2;
    const cut =
      radius > 0
        ? [
            kernel.frustum(
              [0, 0],
              sizes.projection - sizes.holeDepth + bore,
              radius,
              top + 1,
              radius,
              tolerance,
            ),
          ]
        : [];
    const load = knobLoad(parameters, sizes);
    const words = { part: 'the knob', parameters: ['size', 'spindle', 'thread', 'depth'] };
    return {
      solid: cut.length > 0 ? body.subtract(...cut) : body,
      surfaces: [
        { surfaceClass: 'skin', name: 'head, spindle and foot' },
        { surfaceClass: 'mating', name: "foot's underside" },
        { surfaceClass: 'bore', name: parameters.fixing === 'insert' ? 'pocket' : 'hole to be tapped' },
      ],
      dimensions: knobDimensions(sizes, stock, hole.diameter),
      ...footPlaces(sizes, stock, hole.diameter),
      // Round its hole the spindle is a tube.
      thinnestWall: Math.min(
        radius > 0 ? sizes.spindle / 2 + skin - radius : sizes.spindle + 2 * skin,
        sizes.rim + 2 * skin,
      ),
      ...(isNoStock(stock) ? { drawing: knobDrawing(sizes) } : {}),
      fittings: knobFittings(parameters, sizes),
      findings: [
        ...findings,
        ...loadFindings(load, {
          ...words,
          use: `a pull of ${parameters.pull} N`,
          remedy: 'take a larger size or a thicker thread',
        }),
        allowableLoadNote(load, words),
      ],
    };
  },
});

/** The sprue takes the whole foot; beside a cored hole, which it must leave open, one side of it, with a vent opposite. */
function footPlaces(
  s: KnobSizes,
  { skin, mating }: Stock,
  hole: number,
): { readonly gates: readonly GatePlace[]; readonly vents: readonly VentPlace[] } {
  const z = s.projection + mating;
  const [outer, inner] = [s.foot / 2 + skin - margin, hole / 2 + margin];
  if (hole === 0)
    return {
      gates: [{ name: "foot's underside", at: [0, 0, z], innerDiameter: 0, outerDiameter: 2 * outer }],
      vents: [],
    };
  const [middle, width] = [(outer + inner) / 2, outer - inner];
  return {
    gates: [{ name: 'foot beside the hole', at: [middle, 0, z], innerDiameter: 0, outerDiameter: width }],
    vents:
      width < leastVent
        ? []
        : [{ name: 'foot, other side', at: [-middle, 0, z], footDiameter: Math.min(width, widestVent) }],
  };
}

function knobFittings(p: KnobParameters, { bolt, threadLength }: KnobSizes): readonly Fitting[] {
  const length = soldLength(bolt, p.door + 0.8 * threadLength);
  switch (p.fixing) {
    case 'stud':
      return [
        {
          quantity: 1,
          text: `hanger bolt ${bolt.name}, machine thread ${Number(threadLength.toFixed(1))} mm or longer, wood thread ${Number((4 * bolt.diameter).toFixed(0))} mm`,
        },
      ];
    case 'insert': {
      const { outsideDiameter, length: bush } = insertPocket(bolt);
      return [
        {
          quantity: 1,
          text: `plain bushing ${bolt.name}, Ø${outsideDiameter} × ${Number((p.depth ?? bush).toFixed(1))} mm, glued in`,
        },
        fastenerFitting(bolt, 1, length, 'hexagon'),
      ];
    }
    default:
      return [fastenerFitting(bolt, 1, length, 'hexagon')];
  }
}
