import type { GearSpec } from '../../core/gear/spec.js';
import type { ToothForm } from '../../core/gear/tooth-form.js';
import { type Finding, hasStop } from '../../core/part/finding.js';
import type { Stock } from '../../core/part/stock.js';
import { type BoreForm, type BoreParameters, finishedReach, planBore } from './bore.js';
import { checkBody } from './check-body.js';
import { type Openings, planOpenings } from './openings.js';
import { type HubScrew, planSetscrew, type SetscrewSize } from './setscrew.js';

export interface BodyParameters extends BoreParameters {
  readonly faceWidth: number;
  readonly hub: 'none' | 'one' | 'lower' | 'both';
  readonly hubDiameter?: number | undefined;
  readonly hubLength?: number | undefined;
  readonly webThickness?: number | undefined;
  readonly rimThickness?: number | undefined;
  readonly spokes: number;
  readonly spokeWidth?: number | undefined;
  readonly spokeTaper: number;
  readonly holes: number;
  readonly holeDiameter?: number | undefined;
  readonly edgeChamfer: number;
  readonly setscrew: 'none' | SetscrewSize;
}

/** Sizes of the finished body that the parameters give or imply, mm. */
export interface DrawnBody {
  /** Tooth depth h. */
  readonly depth: number;
  readonly rootRadius: number;
  readonly tipRadius: number;
  readonly hubDiameter: number;
  readonly rim: number;
  /** Rise of the hub above either side face, 0 where it does not rise. */
  readonly upperRise: number;
  readonly lowerRise: number;
  readonly web: number;
  readonly hasWeb: boolean;
  readonly hasHub: boolean;
  /** Circle that holds the finished bore. */
  readonly boreReach: number;
}

/** Radii and heights of the gear body in the state that is built, mm; the part's lower side face is z = 0. */
export interface BodySizes {
  /** Side faces of the toothed rim. */
  readonly lowerFace: number;
  readonly upperFace: number;
  /** Ends of the hub, equal to the side faces where it does not rise. */
  readonly lowerEnd: number;
  readonly upperEnd: number;
  readonly rootRadius: number;
  readonly tipRadius: number;
  readonly bore: BoreForm;
  readonly hubRadius: number;
  readonly hasHub: boolean;
  /** Fillet where a hub rises from a plain side face. */
  readonly hubFillet: number;
  readonly edgeChamfer: number;
  /** The recess on either side of the web; null for a solid disc. */
  readonly web: null | {
    readonly innerRadius: number;
    readonly outerRadius: number;
    readonly lowerFloor: number;
    readonly upperFloor: number;
    readonly fillet: number;
  };
  readonly openings: Openings;
  readonly setscrew: HubScrew | null;
}

export type BodyResult = { readonly sizes: BodySizes; readonly findings: readonly Finding[] };

/** Rim backing of 1.2 tooth depths keeps the tooth root's strength (AGMA backup ratio, from memory). */
export const rimBacking = 1.2;
/** Fillets are a third to a half of the thinner section that meets in them (common practice, no source). */
const filletShare = 0.4;
const largestFillet = 4;
/** A chamfer smaller than this, mm, is below what is cast, printed or measured. */
const leastChamfer = 0.05;

/** Works out the body, with every reason why it cannot be (stop) or should not be (warn). */
export function bodySizes(p: BodyParameters, spec: GearSpec, form: ToothForm, stock: Stock): BodyResult {
  const drawn = drawnBody(p, spec, form, stock);
  const { faceWidth } = p;
  const lowerEnd = -drawn.lowerRise - stock.face;
  const upperEnd = faceWidth + drawn.upperRise + stock.face;
  const bore = planBore(p, upperEnd - lowerEnd, stock);
  const recess = (faceWidth - drawn.web) / 2;
  const room = drawn.rootRadius - drawn.rim - drawn.hubDiameter / 2;
  const webFillet = Math.min(largestFillet, filletShare * drawn.web, recess / 2, room / 4);
  const hubWall = drawn.hubDiameter / 2 - drawn.boreReach;
  const hubFillet = Math.min(
    largestFillet,
    filletShare * hubWall,
    drawn.upperRise / 2 || Number.POSITIVE_INFINITY,
    drawn.lowerRise / 2 || Number.POSITIVE_INFINITY,
    (drawn.rootRadius - drawn.hubDiameter / 2) / 2,
  );
  const innerRadius = drawn.hubDiameter / 2 + stock.skin;
  const outerRadius = drawn.rootRadius - drawn.rim - stock.skin;
  const fillet = Math.max(0, webFillet - stock.skin);
  const lowerFloor = recess - stock.skin;
  const recessed = drawn.hasWeb && lowerFloor + stock.face > 0.05;
  const openings = planOpenings(p, drawn, webFillet, stock);
  const screw = planSetscrew(p.setscrew, p, drawn, stock);
  const findings = [...checkBody(p, drawn), ...bore.findings, ...openings.findings, ...screw.findings];
  return {
    sizes: {
      lowerFace: -stock.face,
      upperFace: faceWidth + stock.face,
      lowerEnd,
      upperEnd,
      rootRadius: form.rootRadius,
      tipRadius: form.tipRadius,
      bore: bore.form,
      hubRadius: innerRadius,
      hasHub: drawn.hasHub,
      hubFillet: Math.max(0, hubFillet - stock.skin),
      edgeChamfer: p.edgeChamfer < leastChamfer ? 0 : p.edgeChamfer,
      web: recessed
        ? { innerRadius, outerRadius, lowerFloor, upperFloor: faceWidth - recess + stock.skin, fillet }
        : null,
      openings: hasStop(findings) ? { windows: null, holes: null } : openings.openings,
      setscrew: screw.screw,
    },
    findings,
  };
}

function drawnBody(p: BodyParameters, spec: GearSpec, form: ToothForm, stock: Stock): DrawnBody {
  const rootRadius = form.rootRadius - stock.flank;
  const depth = spec.normalModule * (spec.addendum + spec.dedendum);
  const web = p.webThickness ?? (p.spokes > 0 ? p.faceWidth / 2 : p.faceWidth);
  const rise = p.hubLength ?? p.faceWidth / 4;
  return {
    depth,
    rootRadius,
    tipRadius: form.tipRadius - stock.tip,
    hubDiameter: p.hubDiameter ?? (p.bore > 0 ? 1.8 * p.bore : 0.8 * rootRadius),
    rim: p.rimThickness ?? rimBacking * depth,
    upperRise: p.hub === 'one' || p.hub === 'both' ? rise : 0,
    lowerRise: p.hub === 'lower' || p.hub === 'both' ? rise : 0,
    web,
    hasWeb: web < p.faceWidth || p.spokes > 0,
    hasHub: p.hub !== 'none',
    boreReach: finishedReach(p),
  };
}
