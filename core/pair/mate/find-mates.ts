import { gearGeometry } from '../../gear/gear-geometry.js';
import type { AnyRankedPair } from '../../gear/pair-ranking.js';
import { usualRatioTolerance } from '../../gear/pair-request.js';
import { type Finding, stop } from '../../part/finding.js';
import { type MateWish, meshOf, type ToothedMember } from './member.js';
import { tryMate } from './try-mate.js';

export interface MateSearch {
  /** Best first. */
  readonly candidates: readonly AnyRankedPair[];
  /** Why there are none; empty otherwise. */
  readonly findings: readonly Finding[];
}

/** Tooth numbers of the parts themselves. */
const limits = { gear: [6, 200], ring: [20, 200], rack: [3, 120] } as const;
/** Below these a free search does not go: gears that rack and ring take without much undercut. */
const leastSought = { gear: 12, ring: 24, rack: 3 } as const;
const most = 6;
/** Pairs worked out in full, the likeliest first. */
const tried = 24;
/** mm: length of a rack in one piece that the usual flasks hold. */
const longestRack = 160;

/** Mates for a part that stays as it is. Never throws; what cannot be met comes back as findings. */
export function findMates(chosen: ToothedMember, wish: MateWish): MateSearch {
  const numbers = toothNumbers(chosen, wish);
  if (numbers === null) return { candidates: [], findings: [nothingSaid(wish)] };
  const [least, greatest] = limits[wish.kind];
  const attempts = numbers
    .filter((z) => z >= least && z <= greatest)
    .slice(0, tried)
    .map((z) => tryMate(chosen, wish, z));
  const pairs = attempts.flatMap((a) => (a.ok ? [a.pair] : []));
  if (pairs.length > 0)
    return { candidates: pairs.sort((a, b) => a.score - b.score).slice(0, most), findings: [] };
  const refusals = attempts.flatMap((a) => (a.ok ? [] : [a])).sort((a, b) => a.miss - b.miss);
  return { candidates: [], findings: refusals[0]?.findings ?? [noTeeth(wish)] };
}

/** Those to be tried, the likeliest first; null where nothing says how many. */
function toothNumbers(chosen: ToothedMember, wish: MateWish): readonly number[] | null {
  const { teeth, ratio, centreDistance } = wish;
  if (teeth !== undefined) return [teeth];
  const z = chosen.spec.teeth;
  const pitch = gearGeometry(chosen.spec).transversePitch;
  if (wish.kind === 'rack') return [Math.max(3, Math.min(Math.floor(longestRack / pitch), z + 2))];
  const all = Array.from({ length: 200 }, (_, i) => i + 1).filter((n) => n >= leastSought[wish.kind]);
  if (ratio !== undefined) {
    const off = (n: number): number => Math.abs(n / z / ratio - 1);
    return all.filter((n) => off(n) <= usualRatioTolerance).sort((a, b) => off(a) - off(b));
  }
  if (centreDistance === undefined) return null;
  // Shift moves the axes by a module or so: the nearest reference distances first.
  const mesh = meshOf(chosen.kind, wish.kind);
  const reference = (n: number): number => {
    const [own, other] = [(pitch * z) / (2 * Math.PI), (pitch * n) / (2 * Math.PI)];
    return mesh === 'external' ? own + other : mesh === 'internal' ? Math.abs(own - other) : other;
  };
  const near = (n: number): number => Math.abs(reference(n) - centreDistance);
  return all.sort((a, b) => near(a) - near(b)).slice(0, tried / 2);
}

const nothingSaid = (wish: MateWish): Finding =>
  stop(
    'too-free',
    `Nothing says how many teeth the ${wish.kind} is to have.`,
    'Give its tooth number, the ratio or the centre distance.',
    'mateTeeth',
    'ratio',
    'centreDistance',
  );

const noTeeth = ({ kind, teeth }: MateWish): Finding => {
  const [least, greatest] = limits[kind];
  return stop(
    'no-such-teeth',
    teeth === undefined
      ? `No whole number of teeth gives this ratio within ${100 * usualRatioTolerance} %.`
      : `A ${kind} of ${teeth} teeth is not made here.`,
    teeth === undefined ? 'Ask for another ratio.' : `Give it ${least} to ${greatest} teeth.`,
    'mateTeeth',
    'ratio',
  );
};
