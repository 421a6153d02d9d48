import { maths } from '../../core/maths/maths.js';
import { type Finding, stop } from '../../core/part/finding.js';
import type { Stock } from '../../core/part/stock.js';
import type { BodyParameters, DrawnBody } from './body-sizes.js';
import { rimModulus } from './check-body.js';
import { type SpokeWindow, spokeWindow } from './windows.js';

/** What is cut through the web, in the state that is built. */
export interface Openings {
  readonly windows: SpokeWindow | null;
  readonly holes: null | { readonly number: number; readonly circle: number; readonly radius: number };
}

export interface OpeningsPlan {
  readonly openings: Openings;
  readonly findings: readonly Finding[];
}

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;
/** Metal left between an opening and the fillets of hub and rim, and between openings, mm. */
const land = 0.5;
const leastBridge = 2;

/** Spoke windows or lightening holes in the web; stock draws their edges in along the normal. */
export function planOpenings(p: BodyParameters, d: DrawnBody, fillet: number, stock: Stock): OpeningsPlan {
  if (p.spokes > 0 && p.holes > 0) {
    return refusal(
      stop(
        'spokes-and-holes',
        'Both spokes and lightening holes are asked for.',
        'Keep one of the two.',
        'spokes',
        'holes',
        { holes: 0 },
      ),
    );
  }
  const edge = d.hasWeb ? fillet + land : land;
  const inner = Math.max(d.hasHub || d.hasWeb ? d.hubDiameter / 2 : 0, d.boreReach + leastBridge) + edge;
  const outer = d.rootRadius - d.rim - edge;
  if (p.spokes > 0) return planWindows(p, d, inner, outer, fillet, stock);
  if (p.holes > 0) return planHoles(p, inner, outer, stock);
  return { openings: { windows: null, holes: null }, findings: [] };
}

const refusal = (finding: Finding): OpeningsPlan => ({
  openings: { windows: null, holes: null },
  findings: [finding],
});

/**
 * Width that gives a spoke 0.9 of the rim's modulus: w t / (2 (w + t)) = M solved for w; a spoke thinner than twice
 * that modulus cannot reach it and becomes one and a half times as wide as thick.
 */
function soundWidth(p: BodyParameters, d: DrawnBody): number {
  const wanted = 0.9 * rimModulus(p, d);
  const t = d.web;
  const width = t > 2.2 * wanted ? (2 * wanted * t) / (t - 2 * wanted) : 1.5 * t;
  return Math.min(2 * t, Math.max(0.8 * t, width));
}

function planWindows(
  p: BodyParameters,
  d: DrawnBody,
  inner: number,
  outer: number,
  fillet: number,
  stock: Stock,
): OpeningsPlan {
  const width = p.spokeWidth ?? Math.min(soundWidth(p, d), (1.2 * Math.PI * inner) / p.spokes);
  const taper = p.spokeTaper;
  const drawn: SpokeWindow = {
    spokes: p.spokes,
    innerRadius: inner,
    outerRadius: outer,
    halfWidthInner: width / 2,
    halfWidthOuter: (width * taper) / 2,
    corner: Math.max(fillet, Math.min(2, (outer - inner) / 6)),
  };
  // The flanks move along their normals; on a tapered spoke that is a little more across it.
  const lean = maths.hypot(1, (width * (1 - taper)) / 2 / Math.max(1e-6, outer - inner));
  const built: SpokeWindow = {
    ...drawn,
    innerRadius: inner + stock.skin,
    outerRadius: outer - stock.skin,
    halfWidthInner: widthAt(drawn, inner + stock.skin) + stock.skin * lean,
    halfWidthOuter: widthAt(drawn, outer - stock.skin) + stock.skin * lean,
    corner: Math.max(0, drawn.corner - stock.skin),
  };
  const coarse = 0.1;
  if (outer <= inner || !spokeWindow(drawn, coarse) || !spokeWindow(built, coarse)) {
    return refusal(
      stop(
        'no-room-for-spokes',
        `${p.spokes} spokes ${mm(width)} wide leave no openings between hub and rim (${mm(Math.max(0, outer - inner))} of room).`,
        'Use fewer or narrower spokes, a smaller hub, or a plain web (spokes 0).',
        'spokes',
        'spokeWidth',
        'hubDiameter',
      ),
    );
  }
  return { openings: { windows: built, holes: null }, findings: [] };
}

const widthAt = (w: SpokeWindow, radius: number): number =>
  w.halfWidthInner +
  ((w.halfWidthOuter - w.halfWidthInner) * (radius - w.innerRadius)) / (w.outerRadius - w.innerRadius);

function planHoles(p: BodyParameters, inner: number, outer: number, stock: Stock): OpeningsPlan {
  const room = outer - inner;
  const circle = (inner + outer) / 2;
  const diameter = p.holeDiameter ?? Math.max(2, Math.min(0.5 * room, (1.2 * Math.PI * circle) / p.holes));
  const between = 2 * circle * maths.sin(Math.PI / Math.max(2, p.holes)) - diameter;
  if (diameter > room || (p.holes > 1 && between < leastBridge) || diameter - 2 * stock.skin < 1) {
    const fits = Math.max(
      0,
      Math.min(room, 2 * circle * maths.sin(Math.PI / Math.max(2, p.holes)) - leastBridge),
    );
    return refusal(
      stop(
        'holes-do-not-fit',
        `${p.holes} holes of ${mm(diameter)} do not fit between hub and rim.`,
        fits >= 2
          ? `Use at most ${mm(Math.floor(100 * fits) / 100)}, or fewer holes.`
          : 'Leave the holes out, or use a smaller hub or a thinner rim.',
        'holes',
        'holeDiameter',
        fits >= 2 ? { holeDiameter: Math.floor(100 * fits) / 100 } : {},
      ),
    );
  }
  return {
    openings: { windows: null, holes: { number: p.holes, circle, radius: diameter / 2 - stock.skin } },
    findings: [],
  };
}
