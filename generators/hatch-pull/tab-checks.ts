import { leastLand, leastWall } from '../../core/hardware/casting-rules.js';
import { leastPinWall } from '../../core/hardware/rods.js';
import { type Finding, stop, warn } from '../../core/part/finding.js';
import { countersinkFindings } from '../hardware/screw-holes.js';
import type { PullState } from './levels.js';
import type { ScrewedTab } from './screwed-tab.js';
import { isPlain } from './sizes.js';
import { leafSide } from './tab-outline.js';

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

const thinnest = leastWall();

/** Whether the tab has room for what it carries, and a straight side between fillets and end. */
export const checkTab = (state: PullState): readonly Finding[] =>
  isPlain(state.sizes) ? checkPlainTab(state) : checkStyledTab(state);

function checkPlainTab({
  sizes,
  plan,
  skin,
  tabEnd,
  leg,
  sideLeg,
  sideStep,
  flatInset,
}: PullState): readonly Finding[] {
  const findings: Finding[] = [];
  // Half the flat at the tab's end, between the bevels of its two corners.
  const endFlat = plan.tabHalf - flatInset - (Math.SQRT2 - 1) * leg;
  if (endFlat < 0.75) {
    findings.push(
      stop(
        'tab-narrow',
        `a tab ${mm(sizes.tabWidth)} wide has no room for its bevels and the gate`,
        `make the tab ${mm(sizes.tabWidth + 2 * (0.8 - endFlat))} or wider, or the bevel smaller`,
        'tabWidth',
        'bevel',
      ),
    );
  }
  // What is left of the tab's straight sides between its corners' bevels and the fillets.
  const corner = Math.max(
    sideLeg + Math.SQRT2 * Math.max(0, -sideStep),
    Math.SQRT2 * leg + Math.abs(sideStep),
  );
  const straight = tabEnd + skin - corner - plan.filletX - Math.abs(sideStep);
  if (straight < 0.5) {
    findings.push(
      stop(
        'tab-short',
        `between fillets and corners the tab's sides are ${mm(0.5 - straight)} short of any straight length`,
        `put the pin ${mm(sizes.pinDistance + 1 - straight)} from the eye, or make the fillet smaller`,
        'pinDistance',
        'pinToEnd',
        'filletRadius',
      ),
    );
  }
  return findings;
}

export function checkPin({ sizes, plan, skin, pinX, holeRadius }: PullState): readonly Finding[] {
  const findings: Finding[] = [];
  const { tabThickness, bevel, pinToEnd, pinDistance, holeDiameter } = sizes;
  const r = holeDiameter / 2;
  const overHole = tabThickness / 2 - r;
  const walls = [
    {
      place: 'above and below',
      wall: overHole,
      parameter: sizes.section === 'oval' ? 'tabThickness' : 'thickness',
    },
    { place: 'behind', wall: pinToEnd - r, parameter: 'pinToEnd' },
    {
      place: "at the tab end's bevel, beside",
      wall: (pinToEnd + tabThickness / 2 - bevel) / Math.SQRT2 - r,
      parameter: bevel === 0 ? 'pinToEnd' : 'bevel',
    },
  ];
  const thin = walls.reduce((a, b) => (b.wall < a.wall ? b : a));
  const sound = leastPinWall(holeDiameter);
  if (thin.wall < sound - 1e-9) {
    const grade = thin.wall < thinnest ? stop : warn;
    findings.push(
      grade(
        thin.wall < thinnest ? 'pin-wall-too-thin' : 'pin-wall-thin',
        `${thin.wall > 0 ? `${mm(thin.wall)} of metal is` : 'no metal is'} left ${thin.place} the ${mm(holeDiameter)} pin hole`,
        `leave ${mm(sound)}: a smaller pin, or change the ${thin.parameter}`,
        'pinDiameter',
        thin.parameter,
      ),
    );
  }
  const behindRim = pinX - Math.max(r, holeRadius) - (plan.halfX + plan.outer + skin);
  if (behindRim < 0.1) {
    findings.push(
      stop(
        'pin-hole-in-rim',
        `the pin hole, ${mm(pinDistance)} from the eye, runs into the rim`,
        `put the pin ${mm(pinDistance + 0.2 - behindRim)} or more from the eye`,
        'pinDistance',
      ),
    );
  } else if (pinX - r < plan.filletX) {
    findings.push(
      warn(
        'pin-hole-in-fillet',
        "the pin hole comes out in the fillets, where the tab's sides are not flat",
        `put the pin ${mm(pinDistance + plan.filletX + r - pinX)} or more from the eye`,
        'pinDistance',
        'filletRadius',
      ),
    );
  }
  return findings;
}

function checkStyledTab(state: PullState): readonly Finding[] {
  const { sizes, plan, flatInset, tabEnd, sideStep } = state;
  const { tab, tabWidth, tabCorner: corner, edgeRadius, bevel } = sizes;
  const findings: Finding[] = [];
  const half = plan.tabHalf + Math.min(0, sideStep);
  const least = Math.max(1, edgeRadius + leastLand / 2, bevel + leastLand / 2, flatInset + 0.75);
  if (half < least) {
    findings.push(
      stop(
        'tab-narrow',
        `a tab ${mm(tabWidth)} wide has no room for its edges and the gate`,
        `make the tab ${mm(Math.ceil(20 * (tabWidth / 2 + least - half)) / 10)} or wider`,
        'tabWidth',
      ),
    );
  }
  const side =
    tab === 'leaf'
      ? tabEnd - corner - leafSide(plan) - 1.1 * Math.max(0, plan.tabHalf - corner)
      : tabEnd - corner - plan.filletX - Math.abs(sideStep);
  if (side < 0.3) {
    const more = mm(Math.ceil(10 * (0.4 - side)) / 10);
    findings.push(
      stop(
        'tab-short',
        `between fillets and corners the tab's sides are ${mm(0.3 - side)} short of any straight length`,
        `make the tab ${more} longer, or its fillets smaller`,
        ...(sizes.screwed === null ? ['pinDistance', 'pinToEnd'] : ['tabLength']),
        'filletRadius',
      ),
    );
  }
  return findings;
}

/** Heads and lands of a screwed tab. */
export function checkScrews({ sizes, plan }: PullState, s: ScrewedTab): readonly Finding[] {
  const findings: Finding[] = [
    ...countersinkFindings(s.seat, s.thickness, sizes.section === 'oval' ? 'tabThickness' : 'thickness'),
  ];
  const [[x1, y1], [x2, y2]] = s.at;
  const pitch = sizes.tab === 'leaf' ? x1 - x2 : 2 * y1;
  const between = pitch - s.seat.mouthDiameter;
  const mouth = s.seat.mouthDiameter / 2;
  const edge = Math.min(s.width / 2 - Math.abs(y2), plan.halfX + plan.outer + s.length + x2) - mouth;
  const toEye = -x1 - (plan.halfX + plan.inner) - mouth;
  const inTab = Math.max(sizes.edgeRadius, sizes.bevel);
  if (between < 1.5 || edge < inTab + 0.2 || toEye < 1.5) {
    findings.push(
      stop(
        'screws-crowded',
        `countersinks ${mm(2 * mouth)} wide have no room on a tab ${mm(s.width)} wide and ${mm(s.length)} long`,
        'make the tab wider or longer, or take a smaller screw',
        'screw',
        'tabWidth',
        'tabLength',
      ),
    );
  }
  return findings;
}
