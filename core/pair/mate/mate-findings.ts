import { lengthText, roundedDown, roundedUp } from '../../gear/tried-pair.js';
import { type Finding, note, stop, warn } from '../../part/finding.js';
import type { MateWish, ToothedMember } from './member.js';

/** What only the choosing of a mate can say. Sentences speak of the chosen part and of its mate. */

export const notMates = (chosen: ToothedMember): Finding =>
  stop('no-such-mesh', `A ${chosen.kind} runs with a pinion only.`, 'Choose a gear for it.', 'mate');

export const noDoubleHelical = (wish: MateWish): Finding =>
  stop(
    'no-such-mesh',
    `A ${wish.kind} is cast with one helix only; the chosen gear has two.`,
    `Choose a gear as its mate, or a spur or helical gear for the ${wish.kind}.`,
    'mate',
  );

export const ringTooSmall = (pinion: number, ring: number): Finding =>
  stop(
    'ring-too-small',
    `A pinion of ${pinion} teeth does not go into a ring of ${ring}.`,
    `Give the ring at least ${pinion + 8} teeth.`,
    'mateTeeth',
  );

export const noMesh = (what: string): Finding =>
  stop(
    'no-mesh',
    `${what} do not mesh there: the line of action is gone.`,
    'Ask for another centre distance or other teeth.',
    'centreDistance',
    'mateTeeth',
  );

export const thinnedTooFar = (
  circumferential: number,
  thinning: number,
  thickness: number,
  most: number,
): Finding =>
  stop(
    'backlash-not-met',
    `A backlash of ${lengthText(circumferential)} takes ${lengthText(thinning)} off the mate’s teeth, which are ${lengthText(thickness)} thick: more than the ${lengthText(most)} they can spare.`,
    `Ask for less backlash, or thin the chosen part by ${lengthText(roundedUp(thinning - most))} more.`,
    'backlash',
    'thinning',
  );

/** The chosen part alone gives more backlash than is asked for; the mate's teeth are as thick as they come. */
export function morePlay(
  chosen: ToothedMember,
  wish: MateWish,
  asked: number,
  got: number,
  mostThinning: number,
): Finding {
  const own = chosen.spec.thinning;
  const why =
    own > 0
      ? `The chosen part’s teeth are thinned by ${lengthText(own)} already`
      : 'The axes stand further apart than the teeth ask for';
  const remedy =
    own > 0 && mostThinning >= 0
      ? `Thin the chosen part by no more than ${lengthText(roundedDown(mostThinning))}, or be content with ${lengthText(got)}.`
      : 'Bring the axes together, or be content with it.';
  return (wish.backlash === undefined ? note : warn)(
    'more-backlash',
    `${why}: with full teeth on its mate that leaves ${lengthText(got)} of backlash along the pitch circle, ${lengthText(got - asked)} more than the ${lengthText(asked)} ${wish.backlash === undefined ? 'that is the least' : 'asked for'}.`,
    remedy,
    'thinning',
    'backlash',
  );
}

/** The chosen part's own tips come nearer to the mate's roots than the basic rack leaves them. */
export const longTips = (by: number): Finding =>
  note(
    'chosen-tips-long',
    `With this mate the tips of the chosen part come ${lengthText(by)} nearer the mate’s roots than its basic rack leaves them, for it has not been shortened for the shift of both.`,
    `Take ${lengthText(roundedUp(by))} off them (tipShortening) where the whole clearance is wanted.`,
    'tipShortening',
  );
