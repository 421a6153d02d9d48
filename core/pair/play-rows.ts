import { meshRoom } from '../gear/mesh-backlash.js';
import { appraise } from '../gear/pair-appraisal.js';
import type { AnyRankedPair } from '../gear/pair-ranking.js';
import type { LengthUnit } from '../units/index.js';
import { lengthIn, oneRow, type PairRow, twoRow } from './rows.js';

/** The backlash in the ways a shop measures it, and whose teeth are thinned for it. */
export interface PlayRows {
  readonly circumferential: PairRow;
  readonly normal: PairRow;
  readonly room: PairRow;
  readonly thinning: PairRow;
}

export function playRows(p: AnyRankedPair, unit: LengthUnit): PlayRows {
  const mm = lengthIn(unit);
  const { backlash: plan, facts, gear, mate, mesh } = p;
  const room = meshRoom({ kind: mesh, gear, mate, distance: appraise(p).distance });
  const way = mesh === 'internal' ? 'open' : 'close';
  return {
    circumferential: oneRow('circumferential j_wt', mm(facts.backlash.circumferential)),
    normal: oneRow('normal j_bn (feeler gauge)', mm(facts.backlash.normal)),
    room: oneRow(`axes may ${way} before it binds`, Number.isFinite(room) ? mm(room) : 'any distance'),
    thinning: twoRow('thinning of the teeth, normal', [mm(plan.thinning.gear), mm(plan.thinning.mate)]),
  };
}
