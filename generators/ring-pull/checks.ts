import { leastLand, leastPinWall, leastWall } from '../../core/hardware/index.js';
import { type Finding, note, stop, warn } from '../../core/part/finding.js';
import { roundedDown, roundedUp } from '../../core/part/rounded.js';
import type { Stock } from '../../core/part/stock.js';
import { eyeFindings } from '../hardware/eye-findings.js';
import { countersinkFindings } from '../hardware/screw-holes.js';
import { flushFits, flushLayout, seatClearance, wellRadius } from './flush-sizes.js';
import { baseLayout, type RingPullParameters, type RingPullSizes } from './sizes.js';

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

export function ringFindings(s: RingPullSizes, { skin, mating }: Stock): readonly Finding[] {
  const findings: Finding[] = [...eyeFindings(s, s.plan.inner, skin, ['size', 'eyeWidth'])];
  const { thickness, rimWidth, edgeRadius, plan } = s;
  const thinner = Math.min(thickness, rimWidth);
  if (2 * edgeRadius > Math.min(thickness - 0.1, rimWidth - leastLand)) {
    findings.push(
      stop(
        'edges-meet',
        `edges rounded by ${mm(edgeRadius)} leave no flat on a ring ${mm(rimWidth)} wide and ${mm(thickness)} thick`,
        `round them by ${mm(Math.floor(50 * Math.min(thickness - 0.1, rimWidth - leastLand)) / 100)} or less`,
        'edgeRadius',
        'rimWidth',
        'thickness',
        { edgeRadius: Math.floor(50 * Math.min(thickness - 0.1, rimWidth - leastLand)) / 100 },
      ),
    );
  }
  if (s.filletRadius - Math.max(skin, mating) < 0.2) {
    findings.push(
      stop(
        'fillet-filled-by-stock',
        `the inside corners' radius of ${mm(s.filletRadius)} is used up by ${mm(Math.max(skin, mating))} of stock`,
        `make it ${mm(Math.max(skin, mating) + 0.5)} or more`,
        'filletRadius',
        { filletRadius: roundedUp(Math.max(skin, mating) + 0.5) },
      ),
    );
  } else if (s.filletRadius < thinner / 3 - 0.01) {
    findings.push(
      warn(
        'fillet-small',
        `inside corners of radius ${mm(s.filletRadius)} between sections ${mm(thinner)} thick are where a casting tears`,
        `make the fillet ${mm(thinner / 3)} to ${mm(thinner / 2)}`,
        'filletRadius',
        { filletRadius: roundedUp(thinner / 3) },
      ),
    );
  }
  if (plan.tabHalf + Math.abs(mating - skin) > plan.halfY + plan.outer - 0.5) {
    findings.push(
      stop(
        'tab-wider-than-ring',
        `the tab is ${mm(s.tabWidth)} wide and the ring outside ${mm(2 * (plan.halfY + plan.outer))}`,
        'make the tab narrower',
        'tabWidth',
      ),
    );
  }
  const flat = s.tabWidth - 2 * edgeRadius;
  if (flat < 1.5 || s.tabWidth < 2 * s.tabCorner + 0.5 || mating - skin < 0.5 - s.tabWidth / 2) {
    findings.push(
      stop(
        'tab-narrow',
        `a tab ${mm(s.tabWidth)} wide has ${mm(Math.max(0, flat))} of flat between its rounded edges: no room for the gate`,
        `make it ${mm(2 * edgeRadius + 5)} or wider, or the edges' rounding smaller`,
        'tabWidth',
        'edgeRadius',
        { tabWidth: roundedUp(2 * edgeRadius + 5) },
      ),
    );
  }
  return [...findings, ...pinFindings(s)];
}

function pinFindings(s: RingPullSizes): readonly Finding[] {
  const findings: Finding[] = [];
  const wall = (s.thickness - s.holeDiameter) / 2;
  const sound = leastPinWall(s.holeDiameter);
  if (wall < sound - 1e-9) {
    const thin = wall < leastWall();
    findings.push(
      (thin ? stop : warn)(
        thin ? 'pin-wall-too-thin' : 'pin-wall-thin',
        `${wall > 0 ? `${mm(wall)} of metal is` : 'no metal is'} left above and below the ${mm(s.holeDiameter)} pin hole`,
        `leave ${mm(sound)}: a thinner pin or a thicker ring`,
        'pinDiameter',
        'thickness',
      ),
    );
  }
  const { plan } = s;
  const behind = s.pinX - Math.max(plan.filletX, plan.halfX + plan.outer);
  const straight = behind + s.pinToEnd - s.tabCorner;
  const least = Math.max(s.holeDiameter / 2 + 0.3, s.style === 'surface' ? s.eyeRadius + 0.3 : 0);
  if (behind < least || straight < 0.5) {
    findings.push(
      stop(
        'ring-touches-eyes',
        `the pin's axis is ${mm(Math.max(0, behind))} behind the fillets of the ring; the eyes round it need ${mm(least)}`,
        `put the pin ${mm(s.pinDistance + Math.max(least - behind, 0.5 - straight) + 0.3)} from the opening`,
        'pinDistance',
        'filletRadius',
        { pinDistance: roundedUp(s.pinDistance + Math.max(least - behind, 0.5 - straight) + 0.3) },
      ),
    );
  }
  return findings;
}

export function plateFindings(s: RingPullSizes, p: RingPullParameters, stock: Stock): readonly Finding[] {
  const findings: Finding[] = [...countersinkFindings(s.seat, s.plateThickness, 'plateThickness')];
  const { skin, mating } = stock;
  const tight = s.gap / 2 - mating;
  if (tight < 2) {
    findings.push(
      stop(
        'gap-closed-by-stock',
        `the gap of ${mm(s.gap)} between the eyes has ${mm(Math.max(0, 2 * tight))} left with ${mm(mating)} of stock on each side`,
        'make the tab wider or the mating stock smaller',
        'tabWidth',
        'endClearance',
      ),
    );
  }
  const thin = s.eyeThickness < leastWall() + 1;
  if (thin) {
    findings.push(
      warn(
        'eye-thin',
        `eyes ${mm(s.eyeThickness)} thick wear fast`,
        'make them 3 mm or thicker',
        'eyeThickness',
        { eyeThickness: 3 },
      ),
    );
  }
  const most = Math.max(skin, mating);
  if (s.rootFillet - most < 0.2) {
    findings.push(
      stop(
        'root-fillet-filled',
        `fillets of ${mm(s.rootFillet)} at the plate are used up by ${mm(most)} of stock`,
        'make plate and eyes thicker or the stock smaller',
        'plateThickness',
        'eyeThickness',
      ),
    );
  }
  return [...findings, ...(s.style === 'flush' ? flushFindings(s, stock) : surfaceFindings(s, p))];
}

function surfaceFindings(s: RingPullSizes, p: RingPullParameters): readonly Finding[] {
  const base = baseLayout(s, p.fasteners);
  const y = base.screws[0]![1];
  // A leaf is widest in the middle; one bowed more than its ends are apart is none.
  if (p.fasteners === '2' && base.half >= y + base.land - 0.1) {
    return [
      stop(
        'base-stubby',
        `two screws ${mm(2 * y)} apart make no base ${mm(2 * base.half)} along the pull`,
        'take four screws, or a wider tab',
        'fasteners',
        'tabWidth',
      ),
    ];
  }
  return [];
}

function flushFindings(s: RingPullSizes, { skin, face, mating, bore }: Stock): readonly Finding[] {
  const at = flushLayout(s);
  const findings: Finding[] = [];
  const under = at.seatFloor - at.wellFloor;
  if (under < 3 + 2 * skin || at.cupUnder < at.fillets.under + at.fillets.outside + 0.2) {
    findings.push(
      stop(
        'well-shallow',
        `a well ${mm(s.wellDepth)} deep reaches ${mm(Math.max(0, under))} under the ring's seat: no finger gets under the ring`,
        `make it ${mm(s.wellDepth - under + 7.5)} deep or more, or the ring thinner`,
        'wellDepth',
        'thickness',
        { wellDepth: roundedUp(s.wellDepth - under + 7.5) },
      ),
    );
  } else if (under < 6) {
    findings.push(
      warn(
        'well-tight',
        `the well is ${mm(under)} deeper than the ring's seat; a finger tip wants 6 mm`,
        `make the well ${mm(s.wellDepth - under + 6.5)} deep`,
        'wellDepth',
        { wellDepth: roundedUp(s.wellDepth - under + 6.5) },
      ),
    );
  }
  const cover = at.top - at.pinZ - s.holeDiameter / 2;
  if (cover < 1.2) {
    findings.push(
      stop(
        'groove-breaks-through',
        `${mm(Math.max(0, cover))} of metal is left between the pin's groove and the face`,
        'take a thinner pin or a thicker ring',
        'pinDiameter',
        'thickness',
      ),
    );
  }
  const drop = at.flangeUnder - at.cupUnder - Math.max(0, mating - skin);
  if (drop < at.fillets.under + at.fillets.outside + 0.2) {
    findings.push(
      stop(
        'flange-thick',
        `a flange ${mm(s.plateThickness)} thick leaves no cup under it for a ring ${mm(s.thickness)} thick`,
        `make it ${mm(Math.max(2, s.plateThickness - (at.fillets.under + at.fillets.outside + 0.3 - drop)))} or thinner`,
        'plateThickness',
        {
          plateThickness: roundedDown(
            Math.max(2, s.plateThickness - (at.fillets.under + at.fillets.outside + 0.3 - drop)),
          ),
        },
      ),
    );
  }
  const step = s.plan.outer + seatClearance(s) - wellRadius(s);
  if (step - at.fillets.seat - 2 < 0.4 || step < at.fillets.under + 0.4) {
    findings.push(
      stop(
        'seat-narrow',
        `a ring ${mm(s.rimWidth)} wide has a seat of ${mm(step)} only beside its well`,
        'make the ring wider',
        'rimWidth',
      ),
    );
  }
  if (!flushFits(s, mating - skin)) {
    findings.push(
      stop(
        'cup-does-not-fit',
        `inside corners of ${mm(s.filletRadius)} leave no straight side of the tab's slot for the cup's roundings`,
        'make the fillet radius smaller, or put the pin farther from the opening',
        'filletRadius',
        'pinDistance',
      ),
    );
  }
  if (s.plateThickness - mating < 0.6 || bore > s.holeDiameter || face > 5 || skin > 1.1) {
    findings.push(
      stop(
        'stock-too-large',
        `the stocks are too large for a flush plate ${mm(s.plateThickness)} thick`,
        'allow less stock',
        'plateThickness',
      ),
    );
  }
  return findings;
}

/** How the pin is held, and what else it may be made of. */
export const pinNotes = (s: RingPullSizes): readonly Finding[] => [
  note(
    'pin-from-rod',
    `the pin is cast with stock to be turned to ${mm(s.pinDiameter)}; rod of that diameter does as well`,
    s.style === 'surface'
      ? 'rivet both ends over into a light countersink, with a washer of paper between for freedom'
      : "lay it in the groove from below and stake the groove's lips; the wood under it keeps it there",
    'pinDiameter',
  ),
];
