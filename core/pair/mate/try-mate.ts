import { type BacklashPlan, decideBacklash, spared } from '../../gear/backlash-plan.js';
import { internalGeometry, internalReferenceDistance } from '../../gear/internal.js';
import { type Mesh, meshBacklash, meshThinning } from '../../gear/mesh-backlash.js';
import { referenceCentreDistance } from '../../gear/pair.js';
import { type AnyRankedPair, rankPair } from '../../gear/pair-ranking.js';
import type { PairRequest } from '../../gear/pair-request.js';
import { nameTeeth } from '../../gear/place-on-centres.js';
import type { GearSpec } from '../../gear/spec.js';
import type { AnyTriedPair } from '../../gear/tried-pair.js';
import { rimThickness, shortenedRing } from '../../gear/try-internal.js';
import { type Finding, hasStop } from '../../part/finding.js';
import { checkMesh, type MeshCheck, relieved } from './check-mesh.js';
import {
  longTips,
  morePlay,
  noDoubleHelical,
  noMesh,
  notMates,
  ringTooSmall,
  thinnedTooFar,
} from './mate-findings.js';
import { isFirst, type MateWish, meshOf, type ToothedMember } from './member.js';
import { type BareMesh, placeMate } from './place-mate.js';

export type MateAttempt =
  | { readonly ok: true; readonly pair: AnyRankedPair }
  /** `miss` orders refusals: the least is the nearest. */
  | { readonly ok: false; readonly miss: number; readonly findings: readonly Finding[] };

/** Sums of shifts tried in a ring where the axes are free: a negative one parts the tips of pinion and ring. */
const ringSums = [0, -0.3, -0.6];

/** Shares of the basic rack's root fillet that the mate is given: less where the chosen part's tips would cut into it. */
const rootShares = [1, 0.75, 0.5, 0.25];

/**
 * A mate of so many teeth for a part that stays as it is: same module, helix and basic rack, its own shift, thinning
 * and tips, then the full check of its kind of pair. Never throws for legal teeth.
 */
export function tryMate(chosen: ToothedMember, wish: MateWish, teeth: number): MateAttempt {
  const kind = meshOf(chosen.kind, wish.kind);
  if (kind === null) return refused(notMates(chosen));
  if (chosen.gearType === 'double-helical' && kind !== 'external') return refused(noDoubleHelical(wish));
  const blank: GearSpec = { ...chosen.spec, teeth, profileShift: 0, thinning: 0, tipShortening: 0 };
  const bare: BareMesh = { kind, chosenFirst: isFirst(chosen), ...members(chosen, blank) };
  const [z1, z2] = [bare.gear.teeth, bare.mate.teeth];
  if (kind === 'internal' && z2 <= z1) return refused(ringTooSmall(z1, z2));
  const what = nameTeeth(kind, [z1, z2], blank.normalModule);
  let nearest: MateAttempt | undefined;
  for (const sum of kind === 'internal' && wish.centreDistance === undefined ? ringSums : [0]) {
    for (const share of rootShares) {
      const own = { ...blank, rootRadius: share * blank.rootRadius };
      const attempt = meshing(what, () => placed(chosen, wish, bare, own, sum, what));
      if (attempt.ok) return attempt;
      nearest ??= attempt;
      if (!attempt.findings.some((f) => f.code === 'tip-fillet-interference')) break;
    }
  }
  return nearest as MateAttempt;
}

const refused = (finding: Finding, miss = 1): MateAttempt => ({ ok: false, miss, findings: [finding] });

/** The formulas throw where there is no mesh. */
function meshing(what: string, attempt: () => MateAttempt): MateAttempt {
  try {
    return attempt();
  } catch (error) {
    if (error instanceof RangeError) return refused(noMesh(what));
    throw error;
  }
}

const members = (chosen: ToothedMember, own: GearSpec): Pick<Mesh, 'gear' | 'mate'> =>
  isFirst(chosen) ? { gear: chosen.spec, mate: own } : { gear: own, mate: chosen.spec };

function placed(
  chosen: ToothedMember,
  wish: MateWish,
  bare: BareMesh,
  blank: GearSpec,
  sum: number,
  what: string,
): MateAttempt {
  const placing = placeMate(bare, wish.centreDistance, sum, what);
  if (!placing.ok) return refused(placing.finding, placing.miss);
  const { distance, shift } = placing.placed;
  const own = { ...blank, profileShift: shift };
  const mesh: Mesh = { kind: bare.kind, distance, ...members(chosen, own) };
  const by = tipShorteningIn(mesh);
  const short = { ...own, tipShortening: by };
  const fitted =
    mesh.kind === 'internal' && isFirst(chosen) ? shortenedRing(mesh.gear, short, distance) : short;
  const long = by - (chosen.spec.tipShortening ?? 0);
  const told = long > 0.02 * own.normalModule ? [longTips(long)] : [];
  return withPlay(chosen, wish, { ...mesh, ...members(chosen, fitted) }, told);
}

/** k m_n that keeps the roots' clearance where the shifts open the distance less than they lengthen the teeth, mm. */
function tipShorteningIn({ kind, gear, mate, distance }: Mesh): number {
  if (kind === 'rack') return 0;
  const opened =
    kind === 'external'
      ? distance - referenceCentreDistance(gear, mate)
      : internalReferenceDistance(gear, mate) - distance;
  return Math.max(0, gear.normalModule * (gear.profileShift + mate.profileShift) - opened);
}

/** The backlash that is asked for: what the chosen part does not give of it is taken off the mate's teeth. */
function withPlay(chosen: ToothedMember, wish: MateWish, mesh: Mesh, told: readonly Finding[]): MateAttempt {
  const decided = decideBacklash(wish.backlash, mesh);
  if (decided === null) throw new RangeError('no mesh so far off');
  const asked = decided.circumferential;
  const total = meshThinning(asked, mesh);
  const own = isFirst(chosen) ? mesh.mate : mesh.gear;
  const thinning = Math.max(0, total - chosen.spec.thinning);
  const { most, thickness } = spared('the mate', { ...own, thinning });
  if (thinning > most) return refused(thinnedTooFar(asked, thinning, thickness, most), thinning - most);
  const thinned: Mesh = { ...mesh, ...members(chosen, { ...own, thinning }) };
  const got = meshBacklash(thinned).circumferential;
  const plan: BacklashPlan = {
    ...decided,
    circumferential: got,
    thinning: {
      total: thinned.gear.thinning + thinned.mate.thinning,
      gear: thinned.gear.thinning,
      mate: thinned.mate.thinning,
    },
    split: 'equal',
  };
  const more = got > asked + 5e-4 ? [morePlay(chosen, wish, asked, got, total)] : [];
  return checked(chosen, wish, thinned, plan, [...told, ...more]);
}

function checked(
  chosen: ToothedMember,
  wish: MateWish,
  first: Mesh,
  plan: BacklashPlan,
  told: readonly Finding[],
): MateAttempt {
  const before = checkMesh(first, chosen);
  const mesh = relieved(first, before, chosen);
  const check = mesh === first ? before : checkMesh(mesh, chosen);
  const findings = [...told, ...check.findings, ...(plan.cast?.findings ?? [])];
  const tried = hasStop(check.findings) ? null : triedPair(chosen, wish, mesh, check, plan, findings);
  if (tried === null) return { ok: false, miss: 1 - (check.facts?.contactRatio ?? 0), findings };
  const request: PairRequest = {
    gearType: chosen.gearType,
    mesh: mesh.kind,
    helixAngle: chosen.spec.helixAngle,
    ...(wish.ratio === undefined ? {} : { ratio: isFirst(chosen) ? wish.ratio : 1 / wish.ratio }),
  };
  return { ok: true, pair: rankPair(request, tried) };
}

/** Null where the check found nothing to reckon with. */
export function triedPair(
  chosen: ToothedMember,
  wish: Pick<MateWish, 'centreDistance'>,
  { gear, mate }: Mesh,
  check: MeshCheck,
  backlash: BacklashPlan,
  findings: readonly Finding[],
): AnyTriedPair | null {
  const common = {
    gear,
    mate,
    module: chosen.module,
    findings,
    backlash,
    faceWidth: chosen.faceWidth,
    by: wish.centreDistance === undefined ? ('free' as const) : ('shift' as const),
  };
  if (check.facts === null) return null;
  if (check.kind === 'external') return { mesh: 'external', facts: check.facts, ...common };
  if (check.kind === 'rack')
    return { mesh: 'rack', facts: check.facts, rackTeeth: mate.teeth, pieces: 1, ...common };
  const rim = chosen.rimThickness ?? rimThickness(mate);
  const outsideDiameter = internalGeometry(mate).rootDiameter + 2 * rim;
  return { mesh: 'internal', facts: check.facts, rimThickness: rim, outsideDiameter, ...common };
}
