import {
  doubleHelixLengths,
  type HelixStretch,
  leastGroove,
  singleHelix,
  turnPerRise,
} from '../../gear/helix.js';
import type { Mesh } from '../../gear/mesh-backlash.js';
import { appraise } from '../../gear/pair-appraisal.js';
import type { AnyRankedPair } from '../../gear/pair-ranking.js';
import { type RunningResult, runningPair } from '../../gear/running/running-pair.js';
import type { GearSpec } from '../../gear/spec.js';
import { maths } from '../../maths/maths.js';
import { isFirst, mateHand, type ToothedMember } from './member.js';

/** A chosen part and its mate, ready to turn; `other` where the mate is a part that is there already. */
export function runningMate(
  chosen: ToothedMember,
  pair: AnyRankedPair,
  other?: ToothedMember,
): RunningResult {
  const mesh: Mesh = { kind: pair.mesh, gear: pair.gear, mate: pair.mate, distance: appraise(pair).distance };
  const [own, its] = [chosen.tipRounding, other?.tipRounding ?? 0];
  const cutterTeeth = chosen.cutterTeeth ?? other?.cutterTeeth;
  return runningPair(mesh, {
    run: runOf(chosen, pair.gear),
    tipRounding: isFirst(chosen) ? [own, its] : [its, own],
    ...(cutterTeeth === undefined ? {} : { cutterTeeth }),
  });
}

/** How the teeth of the mesh's first member run along its axis: the chosen part's, or those of the pinion made for it. */
function runOf(chosen: ToothedMember, first: GearSpec): readonly HelixStretch[] {
  const radius = (first.normalModule * first.teeth) / maths.cos(first.helixAngle) / 2;
  const rate = turnPerRise(first.helixAngle, radius);
  const hand = isFirst(chosen) ? chosen.hand : mateHand(chosen, 'gear');
  const { faceWidth, apex } = chosen;
  if (chosen.gearType !== 'double-helical') return singleHelix(0, faceWidth, rate, hand);
  const { shape, width } = apex;
  return doubleHelixLengths(
    0,
    faceWidth,
    { shape, height: faceWidth / 2, width, groove: Math.max(leastGroove, width) },
    rate,
    hand,
    first.teeth,
  ).flat();
}
