import type { z as Zod } from 'zod';
import { z } from 'zod';
import { choice, count, length, number } from '../../part/fields.js';
import { pairFields } from '../fields.js';
import { asCast, largestBacklash } from '../request.js';
import { type MateWish, type MemberKind, memberKinds } from './member.js';

const group = 'Mate';
const { toothGrade, centreTolerance, runout } = pairFields.shape;

/** How much play there is to be: the least, what castings ask for, or a size of one kind. */
const plays = ['least', asCast, 'circumferential', 'normal', 'centre-distance'] as const;

/** What may be asked of the mate of a chosen part; whatever is left out is free. */
export const mateFields = z.object({
  mate: choice(memberKinds, {
    default: 'gear',
    help: 'What the chosen part runs with',
    group,
  }),
  mateTeeth: count({
    min: 3,
    max: 200,
    derived: 'from the ratio or the centre distance; of a rack one turn of its pinion',
    help: 'Tooth number of the mate',
    group,
    symbol: 'z',
  }),
  ratio: number({
    min: 0.05,
    max: 20,
    derived: 'left free',
    help: 'Turns of the chosen part for one of its mate, within 2 %',
    group,
  }),
  centreDistance: length({
    min: 5,
    max: 1000,
    derived: 'where the teeth mesh of themselves',
    help: 'Between the axes, to be met exactly; of a rack from the axis to its pitch line',
    group,
    symbol: 'a',
  }),
  play: choice(plays, {
    default: 'least',
    help: 'Backlash: the least for flanks dressed to size, what teeth that run as cast ask for, or a size along the pitch circle, between the flanks, or by which the axes may move',
    group,
  }),
  backlash: length({
    min: 0,
    max: largestBacklash,
    default: 0.15,
    help: 'How much of it',
    group,
    symbol: 'j',
  }),
  toothGrade,
  centreTolerance,
  runout,
});

export type MateFieldValues = Zod.output<typeof mateFields>;

/** Names of the fields that matter to what is asked for. */
export function fieldsInUse(
  mate: MemberKind,
  play: MateFieldValues['play'],
  teethGiven: boolean,
): readonly string[] {
  const sized = play !== 'least' && play !== asCast;
  return [
    'mate',
    'mateTeeth',
    ...(mate === 'rack' || teethGiven ? [] : ['ratio']),
    'centreDistance',
    'play',
    ...(sized ? ['backlash'] : []),
    ...(play === asCast ? ['toothGrade', 'centreTolerance', 'runout'] : []),
  ];
}

export function wishOf(v: MateFieldValues): MateWish {
  const used = fieldsInUse(v.mate, v.play, v.mateTeeth !== undefined);
  return {
    kind: v.mate,
    ...(v.mateTeeth === undefined ? {} : { teeth: v.mateTeeth }),
    ...(v.ratio === undefined || !used.includes('ratio') ? {} : { ratio: v.ratio }),
    ...(v.centreDistance === undefined ? {} : { centreDistance: v.centreDistance }),
    ...backlashOf(v),
  };
}

function backlashOf({ play, backlash, toothGrade, centreTolerance, runout }: MateFieldValues) {
  if (play === 'least') return {};
  if (play === asCast) return { backlash: { kind: asCast, toothGrade, centreTolerance, runout } } as const;
  return { backlash: { kind: play, value: backlash } } as const;
}
