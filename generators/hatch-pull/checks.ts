import { leastLand, leastWall } from '../../core/hardware/casting-rules.js';
import { maths } from '../../core/maths/maths.js';
import { type Change, type Finding, note, stop, warn } from '../../core/part/finding.js';
import { eyeFindings } from '../hardware/eye-findings.js';
import type { PullState } from './levels.js';
import { checkOval } from './oval-checks.js';
import { isPlain, leastLip } from './sizes.js';
import { checkPin, checkScrews, checkTab } from './tab-checks.js';

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

const thinnest = leastWall();

/** Kept between the lip's start and the eye's bevel, mm. */
const leastBeforeEye = 0.2;

/** What is wrong with a pull in this state, or worth knowing about it. No solid can be made after a `stop`. */
export function checkPull(state: PullState): readonly Finding[] {
  return [
    ...eyeFindings(state.sizes, state.plan.inner, state.skin),
    ...checkRim(state),
    ...checkOval(state),
    ...checkLip(state),
    ...checkTab(state),
    ...(state.sizes.screwed === null ? checkPin(state) : checkScrews(state, state.sizes.screwed)),
  ];
}

function checkRim({ sizes, plan, skin, mating, under, leg, sideLeg }: PullState): readonly Finding[] {
  const { thickness, rimWidth, bevel, filletRadius } = sizes;
  const findings: Finding[] = [];
  const widest = Math.max(skin, mating);
  const bareSide = thickness + skin + Math.min(skin, under) - 2 * Math.max(leg, sideLeg);
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
  if (!isPlain(sizes)) {
    return [
      note(
        'no-lip',
        'the underside is flat: a finger gets under the free end only if it reaches over an edge or a well',
        'set it so, or take the bevelled section with the square tab, which has a lip',
        'section',
        'tab',
      ),
    ];
  }
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
  const left = thickness - lipLength * maths.tan(lipAngle);
  const least = Math.max(2 * bevel + leastLand, thinnest);
  const fitting = (room: number): number => Math.floor((10 * (thickness - room)) / maths.tan(lipAngle)) / 10;
  const change = (room: number): Change => (fitting(room) >= leastLip ? { lipLength: fitting(room) } : {});
  const remedy = (room: number): string => {
    const length = fitting(room);
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
        change(least),
      ),
    ];
  }
  const sound = Math.max(2, thickness / 3);
  if (left < sound) {
    return [
      warn(
        'lip-thins-rim',
        `${seen}: a weak place`,
        remedy(sound),
        'lipLength',
        'lipAngle',
        'thickness',
        change(sound),
      ),
    ];
  }
  return [];
}
