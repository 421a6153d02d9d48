import type { AnyRankedPair } from '../../../core/gear/pair-ranking.js';
import { findMates } from '../../../core/pair/mate/find-mates.js';
import { type MateFieldValues, mateFields, wishOf } from '../../../core/pair/mate/mate-fields.js';
import type { MemberKind, ToothedMember } from '../../../core/pair/mate/member.js';
import type { Finding } from '../../../core/part/finding.js';
import type { InputProblem } from '../../../core/part/input-problem.js';
import { readFields } from '../../../core/part/parameters.js';
import type { LengthUnit } from '../../../core/units/index.js';

/** What is asked of a mate, as it was typed. */
export type RawWish = Readonly<Record<string, unknown>>;

export interface MateChoice {
  readonly values: MateFieldValues | null;
  readonly problems: readonly InputProblem[];
  readonly candidates: readonly AnyRankedPair[];
  /** Why there are none. */
  readonly findings: readonly Finding[];
}

/** Mates for a chosen part from what was typed. */
export function chooseMates(member: ToothedMember, raw: RawWish, unit: LengthUnit): MateChoice {
  const reading = readFields(mateFields, raw, { lengthUnit: unit });
  if (!reading.ok) return { values: null, problems: reading.problems, candidates: [], findings: [] };
  return { values: reading.values, problems: [], ...findMates(member, wishOf(reading.values)) };
}

/** A tooth number to begin with, where one must be given. */
export function firstTeeth({ kind, spec: { teeth: z } }: ToothedMember, mate: MemberKind): RawWish {
  if (mate === 'rack') return {};
  if (mate === 'ring') return { mateTeeth: Math.min(200, Math.max(3 * z, z + 20)) };
  if (kind === 'rack') return { mateTeeth: 24 };
  if (kind === 'ring') return { mateTeeth: Math.max(12, Math.round(z / 3)) };
  return { mateTeeth: z >= 60 ? Math.round(z / 2) : Math.round((5 * z) / 3) };
}
