import { minimumProfileShift, tipThickness } from '../../core/gear/gear-geometry.js';
import type { HelixStretch } from '../../core/gear/helix.js';
import { type LayerPlan, planLayers } from '../../core/gear/layers.js';
import type { GearSpec } from '../../core/gear/spec.js';
import { type ToothForm, toothForm } from '../../core/gear/tooth-form.js';
import { loftToothedBody } from '../../core/gear/toothed-body.js';
import { type BuildKit, type BuildResult, refuse, type SurfaceNote } from '../../core/part/contract.js';
import { type Change, type Finding, hasStop, note, stop, warn } from '../../core/part/finding.js';
import { isNoStock, type Stock } from '../../core/part/stock.js';
import type { Solid } from '../../core/solid/types.js';
import { type BodyParameters, type BodySizes, bodySizes } from './body-sizes.js';
import { shapeBody } from './body-solid.js';
import { gearDimensions } from './dimensions.js';
import { gearDrawing } from './drawing.js';
import { gatePlaces, ventPlaces } from './places.js';
import { thinTip } from './thin-tip.js';
import { gearSpecOf, type ToothParameters } from './tooth-spec.js';

export type GearParameters = ToothParameters & BodyParameters;

/** What tells one kind of cylindrical gear from another: the run of its teeth along the axis. */
export interface ToothRun {
  readonly helixAngle: number;
  /** Toothed lengths from z0 to z1, each a chain of stretches; several where a groove parts them. */
  readonly lengths: (form: ToothForm, z0: number, z1: number) => readonly (readonly HelixStretch[])[];
  /** Radius of the plain body that joins several toothed lengths, mm. */
  readonly coreRadius?: (form: ToothForm, stock: Stock) => number;
  /** Toothed length that a measurement over teeth can use, as a share of the face width. */
  readonly measurable: number;
  readonly findings: (spec: GearSpec, form: ToothForm) => readonly Finding[];
}

/** How far the core of a grooved gear ends inside its side faces, mm: faces never coincide. */
const sunk = 0.5;
/** A mesh with more side triangles than this is refused, not attempted. */
const mostTriangles = 1_500_000;

export function buildGear(p: GearParameters, run: ToothRun, stock: Stock, kit: BuildKit): BuildResult {
  const spec = gearSpecOf(p, run.helixAngle);
  if ('severity' in spec) return refuse([spec]);
  // A tooth form that cannot be as drawn is refused in both states, so that they never disagree.
  const drawn = toothForm(spec, { tipRounding: p.tipRounding });
  if (!drawn.ok) return refuse(drawn.findings);
  const shaped = toothForm(spec, {
    flankStock: stock.flank,
    tipStock: stock.tip,
    tipRounding: p.tipRounding > 0 ? p.tipRounding + Math.min(stock.flank, stock.tip) : 0,
  });
  if (!shaped.ok) return refuse(shaped.findings);
  const form = shaped.form;
  const body = bodySizes(p, spec, form, stock);
  const findings = [
    ...body.findings,
    ...(isNoStock(stock) ? toothFindings(spec, form, p.tipRounding) : []),
    ...run.findings(spec, form),
  ];
  if (hasStop(findings)) return refuse(findings);

  const { sizes } = body;
  const lengths = run.lengths(form, sizes.lowerFace, sizes.upperFace);
  const plans = lengths.map((stretches) => planLayers(form, stretches, kit.tolerance));
  const triangles = plans.reduce((sum, plan) => sum + plan.triangles, 0);
  if (triangles > mostTriangles) {
    return refuse([
      ...findings,
      stop(
        'mesh-too-fine',
        `A mesh within ${kit.tolerance} mm would need ${triangles} triangles.`,
        'Use a larger tolerance.',
        'teeth',
        'faceWidth',
      ),
    ]);
  }
  const { kernel } = kit;
  let toothed: Solid = kernel.union(plans.map((plan) => loftToothedBody(kernel, plan)));
  if (plans.length > 1 && run.coreRadius) {
    const r = run.coreRadius(form, stock);
    toothed = toothed.add(
      kernel.frustum([0, 0], sizes.lowerFace + sunk, r, sizes.upperFace - sunk, r, kit.tolerance),
    );
  }
  return {
    solid: shapeBody(kernel, toothed, sizes, p.boreShape, kit.tolerance),
    surfaces: surfaceNotes(sizes.bore.size > 0, sizes.hasHub || sizes.web !== null),
    dimensions: gearDimensions({
      spec,
      form,
      sizes,
      stock,
      bore: p.bore,
      boreShape: p.boreShape,
      measurableWidth: p.faceWidth * run.measurable,
    }),
    gates: gatePlaces(sizes),
    thinnestWall: thinnestWall(spec, sizes),
    vents: ventPlaces(sizes),
    ...(isNoStock(stock)
      ? {
          drawing: gearDrawing({
            parameters: p,
            spec,
            form,
            sizes,
            run: lengths,
            pitch: (plans[0] as LayerPlan).pitch,
            coreRadius: run.coreRadius?.(form, stock) ?? form.rootRadius,
            tolerance: kit.tolerance,
          }),
        }
      : {}),
    findings,
  };
}

/** A tooth at its reference circle, or the web. */
const thinnestWall = (spec: GearSpec, sizes: BodySizes): number =>
  Math.min(
    (Math.PI * spec.normalModule) / 2,
    sizes.web ? sizes.web.upperFloor - sizes.web.lowerFloor : Number.POSITIVE_INFINITY,
  );

function surfaceNotes(bored: boolean, hub: boolean): readonly SurfaceNote[] {
  return [
    { surfaceClass: 'flank', name: 'tooth flanks, fillets and roots' },
    { surfaceClass: 'tip', name: 'tooth tips' },
    { surfaceClass: 'face', name: 'side faces and hub ends' },
    ...(bored ? [{ surfaceClass: 'bore', name: 'bore' } as const] : []),
    ...(hub ? [{ surfaceClass: 'skin', name: 'hub outside, web and inside of the rim' } as const] : []),
  ];
}

/** The least shift without undercut, unless it makes the tips thin instead. */
function withoutUndercut(spec: GearSpec): readonly Change[] {
  const profileShift = Math.ceil(100 * minimumProfileShift(spec)) / 100;
  const thin = thinTip(tipThickness({ ...spec, profileShift }), spec.normalModule, true);
  return thin ? [] : [{ profileShift }];
}

function toothFindings(spec: GearSpec, form: ToothForm, askedRounding: number): readonly Finding[] {
  const findings: Finding[] = [];
  if (form.undercut && form.formRadius - form.rack.baseRadius > 0.02 * spec.normalModule) {
    findings.push(
      warn(
        'undercut',
        `The teeth are undercut up to a diameter of ${(2 * form.formRadius).toFixed(2)} mm.`,
        `Use a profile shift of at least ${Math.ceil(100 * minimumProfileShift(spec)) / 100}, or more teeth, for a stronger root.`,
        'profileShift',
        'teeth',
        ...withoutUndercut(spec),
      ),
    );
  }
  const tip = thinTip(tipThickness(spec), spec.normalModule, true);
  if (tip && form.tipRounding === 0) findings.push(tip);
  if (askedRounding > 0 && form.tipRounding < askedRounding - 1e-6) {
    findings.push(
      note(
        'tip-rounding-reduced',
        `A tip rounding of ${askedRounding} mm does not fit; ${form.tipRounding.toFixed(2)} mm is used.`,
        `Ask for at most ${(Math.floor(100 * form.tipRounding) / 100).toFixed(2)} mm.`,
        'tipRounding',
        { tipRounding: Math.floor(100 * form.tipRounding) / 100 },
      ),
    );
  }
  return findings;
}
