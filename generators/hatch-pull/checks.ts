import { leastLand, leastWall } from '../../core/hardware/casting-rules.js';
import { leastPinWall } from '../../core/hardware/rods.js';
import { type Finding, note, stop, warn } from '../../core/part/finding.js';
import { eyeFindings } from '../hardware/eye-findings.js';
import type { PullState } from './levels.js';
import { leastLip } from './sizes.js';

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

const thinnest = leastWall();

/** Kept between the lip's start and the eye's bevel, mm. */
const leastBeforeEye = 0.2;

/** What is wrong with a pull in this state, or worth knowing about it. No solid can be made after a `stop`. */
export function checkPull(state: PullState): readonly Finding[] {
  return [
    ...eyeFindings(state.sizes, state.plan.inner, state.skin),
    ...checkRim(state),
    ...checkLip(state),
    ...checkTab(state),
    ...checkPin(state),
  ];
}

function checkRim({ sizes, plan, skin, mating, leg, sideLeg }: PullState): readonly Finding[] {
  const { thickness, rimWidth, bevel, filletRadius } = sizes;
  const findings: Finding[] = [];
  const widest = Math.max(skin, mating);
  const bareSide = thickness + 2 * skin - 2 * Math.max(leg, sideLeg);
  if (bevel > 0 && (rimWidth - 2 * bevel < leastLand || bareSide < leastLand)) {
    const most = Math.min((rimWidth - leastLand) / 2, bevel - (leastLand - bareSide) / 2);
    findings.push(
      stop(
        'bevels-meet',
        `a bevel of ${mm(bevel)} leaves no flat on a rim ${mm(rimWidth)} wide and ${mm(thickness)} thick`,
        most > 0
          ? `make the bevel ${mm(Math.floor(most * 100) / 100)} or less`
          : 'make the rim thicker or the stock smaller',
        'bevel',
        'rimWidth',
        'thickness',
      ),
    );
  }
  if (bevel > 0 && sideLeg < 0.02) {
    findings.push(
      stop(
        'bevel-lost-in-stock',
        `a bevel of ${mm(bevel)} is lost where the skin has ${mm(skin)} of stock and the tab's sides ${mm(mating)}`,
        `make the bevel ${mm(bevel + 0.1 - sideLeg)} or more, or none`,
        'bevel',
      ),
    );
  }
  if (filletRadius - widest < 0.2) {
    findings.push(
      stop(
        'fillet-filled-by-stock',
        `the inside corners' radius of ${mm(filletRadius)} is used up by ${mm(widest)} of stock`,
        `make the fillet ${mm(widest + 0.5)} or more`,
        'filletRadius',
      ),
    );
  } else if (filletRadius < thickness / 3 - 0.01) {
    findings.push(
      warn(
        'fillet-small',
        `inside corners of radius ${mm(filletRadius)} between sections ${mm(thickness)} thick are where a casting tears`,
        `make the fillet ${mm(thickness / 3)} to ${mm(thickness / 2)} (a third to half of the section)`,
        'filletRadius',
      ),
    );
  }
  if (plan.tabHalf > plan.halfY + plan.outer - 0.5) {
    findings.push(
      stop(
        'tab-wider-than-rim',
        `the tab is ${mm(2 * plan.tabHalf)} wide and the pull over its rim ${mm(2 * (plan.halfY + plan.outer))}`,
        `make the tab ${mm(2 * (plan.halfY + plan.outer) - 1)} or narrower`,
        'tabWidth',
      ),
    );
  }
  return findings;
}

function checkLip({ sizes }: PullState): readonly Finding[] {
  const { lipLength, lipAngle, rimWidth, bevel, thickness } = sizes;
  if (lipLength === 0) {
    return [
      note(
        'no-lip',
        'the underside has no lip: a finger gets under the free end only if the pull stands proud or has a well',
        'give a lip length to relieve the underside',
        'lipLength',
      ),
    ];
  }
  const longest = rimWidth - bevel - leastBeforeEye;
  if (lipLength > longest + 1e-9) {
    return [
      stop(
        'lip-reaches-eye',
        `the lip is ${mm(lipLength)} long and, on a rim ${mm(rimWidth)} wide, cuts into the eye's bevel of ${mm(bevel)}`,
        longest >= leastLip
          ? `make the lip ${mm(Math.floor(longest * 100) / 100)} or shorter`
          : 'leave the lip out, or make the rim wider or its bevel smaller',
        'lipLength',
      ),
    ];
  }
  const left = thickness - lipLength * Math.tan(lipAngle);
  const least = Math.max(2 * bevel + leastLand, thinnest);
  const remedy = (room: number): string => {
    const length = Math.floor((10 * (thickness - room)) / Math.tan(lipAngle)) / 10;
    return length >= leastLip
      ? `make the lip ${mm(length)} or shorter, or its angle smaller`
      : 'make the pull thicker or its bevel smaller';
  };
  const seen = `the lip leaves ${left > 0 ? mm(left) : 'nothing'} of ${mm(thickness)} at the free end`;
  if (left < least) {
    return [
      stop(
        'lip-cuts-rim',
        `${seen}; ${mm(least)} is the least`,
        remedy(least),
        'lipLength',
        'lipAngle',
        'thickness',
      ),
    ];
  }
  const sound = Math.max(2, thickness / 3);
  if (left < sound) {
    return [
      warn('lip-thins-rim', `${seen}: a weak place`, remedy(sound), 'lipLength', 'lipAngle', 'thickness'),
    ];
  }
  return [];
}

function checkTab({
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

function checkPin({ sizes, plan, skin, pinX, holeRadius }: PullState): readonly Finding[] {
  const findings: Finding[] = [];
  const { thickness, bevel, pinToEnd, pinDistance, holeDiameter } = sizes;
  const r = holeDiameter / 2;
  const overHole = thickness / 2 - r;
  const walls = [
    { place: 'above and below', wall: overHole, parameter: 'thickness' },
    { place: 'behind', wall: pinToEnd - r, parameter: 'pinToEnd' },
    {
      place: "at the tab end's bevel, beside",
      wall: (pinToEnd + thickness / 2 - bevel) / Math.SQRT2 - r,
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
