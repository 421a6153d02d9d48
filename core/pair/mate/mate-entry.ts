import type { AnyRankedPair } from '../../gear/pair-ranking.js';
import { boreOf, round, writtenTeeth } from '../parts.js';
import { isFirst, type MemberKind, mateHand, type ToothedMember } from './member.js';

/** One of a job's `parts`. */
export interface PartEntry {
  readonly name: string;
  readonly part: string;
  readonly alloy?: string;
  readonly stock?: Readonly<Record<string, number>>;
  readonly parameters: Readonly<Record<string, unknown>>;
}

const otherParts = { ring: 'ring-gear', rack: 'rack' } as const;

/** The entry of a plate job that makes the mate of a chosen part. */
export function mateEntry(
  chosen: ToothedMember,
  kind: MemberKind,
  pair: AnyRankedPair,
  { name, alloy }: { readonly name: string; readonly alloy?: string | undefined },
): PartEntry {
  const spec = isFirst(chosen) ? pair.mate : pair.gear;
  const { shape, width } = chosen.apex;
  const double = chosen.gearType === 'double-helical';
  return {
    name,
    part: kind === 'gear' ? `${chosen.gearType}-gear` : otherParts[kind],
    ...(alloy === undefined ? {} : { alloy }),
    // Flanks that stay as cast carry no stock.
    ...(pair.backlash.kind === 'as-cast' ? { stock: { flank: 0, tip: 0 } } : {}),
    parameters: {
      ...writtenTeeth(spec, {
        module: chosen.module,
        rackProfile: chosen.rackProfile,
        gearType: chosen.gearType,
        hand: mateHand(chosen, kind),
        isRack: kind === 'rack',
        faceWidth: chosen.faceWidth,
      }),
      ...(double && shape !== 'sharp' ? { apex: shape, apexWidth: `${round(width)}mm` } : {}),
      ...(kind === 'gear' ? boreOf(spec, undefined) : {}),
      ...(kind === 'ring' && pair.mesh === 'internal'
        ? { rimThickness: `${round(pair.rimThickness)}mm` }
        : {}),
    },
  };
}
