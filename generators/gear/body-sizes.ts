import { coreLimit } from '../../core/foundry/holes.js';
import type { GearSpec } from '../../core/gear/spec.js';
import type { ToothForm } from '../../core/gear/tooth-form.js';
import { type Finding, note, stop, warn } from '../../core/part/finding.js';
import { isNoStock, type Stock } from '../../core/part/stock.js';

export interface BodyParameters {
  readonly faceWidth: number;
  readonly bore: number;
  readonly hub: 'none' | 'one' | 'both';
  readonly hubDiameter?: number | undefined;
  readonly hubLength?: number | undefined;
  readonly webThickness?: number | undefined;
  readonly rimThickness?: number | undefined;
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
  /** 0 where there is no hole (none wanted, or cast solid to be drilled). */
  readonly boreRadius: number;
  readonly hubRadius: number;
  readonly hasHub: boolean;
  /** The recess on either side of the web; null for a solid disc. */
  readonly web: null | {
    readonly innerRadius: number;
    readonly outerRadius: number;
    readonly lowerFloor: number;
    readonly upperFloor: number;
    readonly fillet: number;
  };
}

export type BodyResult = { readonly sizes: BodySizes; readonly findings: readonly Finding[] };

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

/** Rim backing of 1.2 tooth depths keeps the tooth root's strength (AGMA backup ratio, from memory). */
const backup = 1.2;
/** Thinnest wall left standing between bore and root or hub, mm (common practice, no source). */
const leastWall = 1.5;
/** mm */
const leastBore = 1;
const largestTipDiameter = 400;

/** Works out the body, with every reason why it cannot be (stop) or should not be (warn). */
export function bodySizes(p: BodyParameters, spec: GearSpec, form: ToothForm, stock: Stock): BodyResult {
  const findings: Finding[] = [];
  const partRoot = form.rootRadius - stock.flank;
  const depth = spec.normalModule * (spec.addendum + spec.dedendum);
  const hubDiameter = p.hubDiameter ?? (p.bore > 0 ? 1.8 * p.bore : 0.8 * partRoot);
  const rim = p.rimThickness ?? backup * depth;
  const hasWeb = p.webThickness !== undefined && p.webThickness < p.faceWidth;
  const hasHub = p.hub !== 'none';
  const rise = p.hubLength ?? p.faceWidth / 4;

  if (2 * form.tipRadius > largestTipDiameter + 2 * stock.tip) {
    findings.push(
      stop(
        'gear-too-large',
        `The tip diameter is ${mm(2 * form.tipRadius)}; at most ${largestTipDiameter} mm.`,
        'Use a smaller module or fewer teeth.',
        'module',
        'teeth',
      ),
    );
  }
  checkWalls(findings, p, partRoot, depth, hubDiameter, hasHub || hasWeb);
  if (p.webThickness !== undefined && p.webThickness > p.faceWidth) {
    findings.push(
      stop(
        'web-thicker-than-face',
        `The web is ${mm(p.webThickness)} thick, more than the face width ${mm(p.faceWidth)}.`,
        'Use a thinner web, or leave webThickness out for a solid disc.',
        'webThickness',
        'faceWidth',
      ),
    );
  }
  const innerRadius = hubDiameter / 2 + stock.skin;
  const outerRadius = partRoot - rim - stock.skin;
  if (hasWeb && outerRadius - innerRadius < 2) {
    findings.push(
      stop(
        'no-room-for-web',
        `Between the hub (radius ${mm(hubDiameter / 2)}) and the rim (inside radius ${mm(partRoot - rim)}) there is no room for a web.`,
        'Leave webThickness out, or use a smaller hub or a thinner rim.',
        'webThickness',
        'hubDiameter',
        'rimThickness',
      ),
    );
  }
  const lowerFloor = (p.faceWidth - (p.webThickness ?? 0)) / 2 - stock.skin;
  const upperFloor = (p.faceWidth + (p.webThickness ?? 0)) / 2 + stock.skin;
  const recessed = hasWeb && lowerFloor + stock.face > 0.05;
  const fillet = Math.min(
    3,
    (p.faceWidth - (p.webThickness ?? 0)) / 4,
    (partRoot - rim - hubDiameter / 2) / 4,
  );
  const cast = castBore(p, hasHub ? rise * (p.hub === 'both' ? 2 : 1) : 0, stock, findings);
  const sizes: BodySizes = {
    lowerFace: -stock.face,
    upperFace: p.faceWidth + stock.face,
    lowerEnd: (p.hub === 'both' ? -rise : 0) - stock.face,
    upperEnd: p.faceWidth + (hasHub ? rise : 0) + stock.face,
    rootRadius: form.rootRadius,
    boreRadius: cast,
    hubRadius: hubDiameter / 2 + stock.skin,
    hasHub,
    web: recessed
      ? { innerRadius, outerRadius, lowerFloor, upperFloor, fillet: Math.max(0, fillet - stock.skin) }
      : null,
  };
  return { sizes, findings };
}

function checkWalls(
  findings: Finding[],
  p: BodyParameters,
  root: number,
  depth: number,
  hubDiameter: number,
  hasHub: boolean,
): void {
  if (p.bore > 0 && p.bore < leastBore) {
    findings.push(
      stop(
        'bore-too-small',
        `A bore of ${mm(p.bore)} cannot be made; at least ${leastBore} mm.`,
        'Use a larger bore, or 0 for none.',
        'bore',
      ),
    );
  }
  const wall = root - p.bore / 2;
  if (wall < leastWall) {
    findings.push(
      stop(
        'bore-through-root',
        `The bore ${mm(p.bore)} leaves ${mm(wall)} below the tooth roots; at least ${leastWall} mm.`,
        `Use a bore of at most ${mm(Math.max(0, 2 * (root - leastWall)))}.`,
        'bore',
        'teeth',
        'module',
      ),
    );
  } else if (p.bore > 0 && wall < backup * depth) {
    findings.push(
      warn(
        'thin-rim',
        `The bore leaves a rim of ${mm(wall)} below the roots, less than ${backup} tooth depths (${mm(backup * depth)}).`,
        'Use a smaller bore or more teeth where the gear carries load.',
        'bore',
      ),
    );
  }
  if (!hasHub) return;
  if (hubDiameter / 2 > root - 0.5) {
    findings.push(
      stop(
        'hub-larger-than-root',
        `The hub diameter ${mm(hubDiameter)} reaches the root circle ${mm(2 * root)}.`,
        `Use a hub of at most ${mm(2 * root - 1)}.`,
        'hubDiameter',
      ),
    );
  }
  if (hubDiameter / 2 - p.bore / 2 < leastWall) {
    findings.push(
      stop(
        'hub-wall-thin',
        `The hub diameter ${mm(hubDiameter)} leaves a wall of ${mm((hubDiameter - p.bore) / 2)} round the bore; at least ${leastWall} mm.`,
        `Use a hub of at least ${mm(p.bore + 2 * leastWall)}.`,
        'hubDiameter',
        'bore',
      ),
    );
  }
}

/** Radius of the hole in this state: the bore less its stock, or 0 where the mould cannot hold such a core. */
function castBore(p: BodyParameters, rise: number, stock: Stock, findings: Finding[]): number {
  if (p.bore === 0) return 0;
  if (isNoStock(stock)) return p.bore / 2;
  const diameter = p.bore - 2 * stock.bore;
  const depth = p.faceWidth + rise + 2 * stock.face;
  const limit = diameter > 0 ? coreLimit(diameter, 'through') : { castable: false as const, maxDepth: 0 };
  if (limit.castable && depth <= limit.maxDepth) return diameter / 2;
  findings.push(
    note(
      'bore-cast-solid',
      `A core ${mm(Math.max(0, diameter))} in diameter and ${mm(depth)} long would not stand in the mould: the bore is cast solid.`,
      'Drill and ream it after casting.',
      'bore',
    ),
  );
  return 0;
}
