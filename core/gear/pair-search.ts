import { maths } from '../maths/maths.js';
import { type Finding, stop } from '../part/finding.js';
import { checkRequest, leastRingTeeth } from './check-request.js';
import { askedLoad, checkLoad } from './pair-load.js';
import { type AnyRankedPair, type Ranked, type RankedPair, rankPair } from './pair-ranking.js';
import {
  type ModuleChoice,
  moduleChoices,
  type PairRequest,
  requestedWidth,
  usualRatioTolerance,
} from './pair-request.js';
import { tryPair } from './pair-try.js';
import { plainDistance } from './place-on-centres.js';
import type { AnyTriedPair, Attempt, Refusal, TriedInternalPair, TriedRackPair } from './tried-pair.js';
import { tryInternalPair } from './try-internal.js';
import { tryRackPair } from './try-rack.js';

export interface PairSearch<T = RankedPair> {
  /** Best first; every one passes the check of its kind of pair without a `stop`. */
  readonly candidates: readonly T[];
  /** Why there are none; empty otherwise. */
  readonly findings: readonly Finding[];
}

const mostTeeth = 200;
/** Largest pinion sought for a rack whose tooth number is free. */
const mostPinionTeeth = 60;
/** Pairs worked out in full before the best are picked; the search goes on while there are fewer. */
const enough = 30;

type Teeth = readonly [gear: number, mate: number];
type TryTeeth<T extends AnyTriedPair> = (
  request: PairRequest,
  module: ModuleChoice,
  teeth: Teeth,
) => Attempt<T>;

/**
 * Finds pairs of external gears for a request: tooth numbers, module, helix angle and profile shift. Deterministic.
 * Never throws; what cannot be met comes back as findings that name the constraint and the miss.
 */
export const searchPairs = (request: PairRequest): PairSearch =>
  search({ ...request, mesh: 'external' }, tryPair);

/** The same for a pinion in a ring. */
export const searchInternalPairs = (request: PairRequest): PairSearch<Ranked<TriedInternalPair>> =>
  search({ ...request, mesh: 'internal' }, tryInternalPair);

/** The same for a pinion on a rack. */
export const searchRackPairs = (request: PairRequest): PairSearch<Ranked<TriedRackPair>> =>
  search({ ...request, mesh: 'rack' }, (asked, module, [z1]) => tryRackPair(asked, module, z1));

/** Whichever kind the request's `mesh` asks for. */
export function searchMesh(request: PairRequest): PairSearch<AnyRankedPair> {
  if (request.mesh === 'internal') return searchInternalPairs(request);
  return request.mesh === 'rack' ? searchRackPairs(request) : searchPairs(request);
}

function search<T extends AnyTriedPair>(request: PairRequest, attempt: TryTeeth<T>): PairSearch<Ranked<T>> {
  const none = (findings: readonly Finding[]) => ({ candidates: [], findings });
  const wrong = [...checkRequest(request), ...(request.load ? checkLoad(request.load) : [])];
  if (wrong.length > 0) return none(wrong);
  const modules = moduleChoices(request);
  if (modules.length === 0) return none([noModule(request)]);
  const pairs = toothPairs(request);
  if (pairs.length === 0) return none([noRatio(request)]);

  const found: Ranked<T>[] = [];
  const nearest = new Map<string, Refusal>();
  for (const { module, teeth } of ordered(request, modules, pairs)) {
    const result = attempt(request, module, teeth);
    if (result.ok) {
      found.push(rankPair(request, result.pair));
      if (found.length >= enough) break;
      continue;
    }
    const { refusal } = result;
    const key = `${refusal.stage} ${refusal.code}`;
    const before = nearest.get(key);
    if (!before || refusal.miss < before.miss) nearest.set(key, refusal);
  }
  if (found.length > 0) {
    found.sort((a, b) => a.score - b.score || a.gear.teeth - b.gear.teeth || a.mate.teeth - b.mate.teeth);
    return { candidates: found.slice(0, request.count ?? 6), findings: [] };
  }
  // Attempts that got furthest say most about what is in the way.
  const refusals = [...nearest.values()];
  const furthest = Math.max(...refusals.map((r) => r.stage));
  return none(
    refusals
      .filter((r) => r.stage === furthest)
      .sort((a, b) => a.miss - b.miss)
      .map((r) => r.closer?.() ?? r)
      .map((r) => stop(r.code, r.message, r.remedy, ...r.parameters)),
  );
}

const leastTeeth = (request: PairRequest): number =>
  request.leastTeeth ?? (request.profileShift === false ? 17 : 10);
const leastMateTeeth = (request: PairRequest): number =>
  request.mesh === 'internal' ? leastRingTeeth : leastTeeth(request);

const range = (from: number, to: number): number[] =>
  Array.from({ length: Math.max(0, to - from + 1) }, (_, i) => from + i);

/** Tooth numbers within the ratio's tolerance; every mate of a lone tooth number where there is no ratio. */
function toothPairs(request: PairRequest): readonly Teeth[] {
  if (request.teeth) return [request.teeth];
  const gears = request.gearTeeth === undefined ? range(leastTeeth(request), mostTeeth) : [request.gearTeeth];
  if (request.mesh === 'rack')
    return gears.filter((z) => z <= mostPinionTeeth || z === request.gearTeeth).map((z) => [z, 0]);
  const mates = ([from, to]: Teeth): number[] =>
    request.mateTeeth === undefined
      ? range(Math.max(leastMateTeeth(request), from), Math.min(mostTeeth, to))
      : [request.mateTeeth].filter((z) => z >= from && z <= to);
  const tolerance = request.ratioTolerance ?? usualRatioTolerance;
  const limits = (z1: number): Teeth => {
    if (request.ratio === undefined) return [0, Number.POSITIVE_INFINITY];
    return [
      Math.ceil(z1 * request.ratio * (1 - tolerance) - 1e-9),
      Math.floor(z1 * request.ratio * (1 + tolerance) + 1e-9),
    ];
  };
  return gears.flatMap((z1) =>
    mates(limits(z1))
      .filter((z2) => request.mesh !== 'internal' || z2 > z1)
      .map((z2): Teeth => [z1, z2]),
  );
}

interface Try {
  readonly module: ModuleChoice;
  readonly teeth: Teeth;
}

/** The order in which to try: by what is cheap to see of the ranking, so that the search may stop early. */
function ordered(
  request: PairRequest,
  modules: readonly ModuleChoice[],
  pairs: readonly Teeth[],
): readonly Try[] {
  const { mesh = 'external', centreDistance, travelPerTurn } = request;
  const tries = modules.flatMap((module) => pairs.map((teeth) => ({ module, teeth })));
  const rough = ({ module, teeth }: Try): number => {
    const pinion = mesh === 'external' ? Math.min(...teeth) : teeth[0];
    const plain = plainDistance(mesh, module.module, teeth);
    // A spur pair far from its centre distance cannot be brought there; a helix only ever widens it.
    const off =
      centreDistance === undefined
        ? 0
        : Math.max(0, plain / centreDistance - 1, 0.7 - plain / centreDistance) * 40;
    const travelOff =
      travelPerTurn === undefined
        ? 0
        : Math.abs((Math.PI * module.module * teeth[0]) / travelPerTurn - 1) * 50;
    const ratioOff = request.ratio === undefined ? 0 : Math.abs(teeth[1] / teeth[0] / request.ratio - 1) * 50;
    const weak = Math.max(0, maths.log(roughShare(request, module.module, teeth)));
    const large = request.largestDiameter ?? request.largestCentreDistance ?? Number.POSITIVE_INFINITY;
    return (
      off +
      ratioOff +
      travelOff +
      6 * weak +
      (module.series === 'II' ? 1.5 : 0) +
      2 * Math.max(0, 2 - module.module) +
      0.3 * Math.max(0, 17 - pinion) +
      0.05 * Math.max(0, pinion - 24) +
      (plain > large ? 20 : 0)
    );
  };
  return tries
    .map((t) => ({ t, score: rough(t) }))
    .sort((a, b) => a.score - b.score)
    .map(({ t }) => t);
}

/** The load over what teeth of a middling form factor would carry on gear 1, about; 0 where none is asked for. */
function roughShare(request: PairRequest, module: number, [z1]: Teeth): number {
  if (!request.load) return 0;
  const { torque } = askedLoad(request.load);
  const stress = Math.min(...request.load.materials.map((m) => m.allowableStress));
  const formFactor = 0.3;
  const force = stress * requestedWidth(request, module) * module * formFactor;
  return (torque ?? 0) / ((force * module * z1) / 2);
}

function noModule(request: PairRequest): Finding {
  const asked = request.diametralPitch ?? request.module;
  const text = typeof asked === 'object' ? `${asked.from} to ${asked.to}` : String(asked);
  return request.diametralPitch === undefined
    ? stop(
        'no-module',
        `No module of ISO 54 lies from ${text} mm.`,
        'Widen the limits or give one module.',
        'module',
      )
    : stop(
        'no-module',
        `No preferred diametral pitch lies from ${text}.`,
        'Widen the limits or give one diametral pitch.',
        'diametralPitch',
      );
}

/** Tooth numbers that come nearest to a ratio nobody meets. */
function noRatio(request: PairRequest): Finding {
  const { ratio } = request;
  if (ratio === undefined) {
    const given = request.gearTeeth ?? request.mateTeeth;
    return stop(
      'no-mate-teeth',
      `No tooth number from ${leastMateTeeth(request)} to ${mostTeeth} goes with the ${given} teeth given.`,
      request.mesh === 'internal'
        ? 'Give the pinion fewer teeth than the ring.'
        : 'Give other tooth numbers.',
      'teeth',
      'mateTeeth',
    );
  }
  const tolerance = request.ratioTolerance ?? usualRatioTolerance;
  const [least, leastMate] = [leastTeeth(request), leastMateTeeth(request)];
  let best: readonly [number, number, number] = [0, 0, Number.POSITIVE_INFINITY];
  for (const z1 of request.gearTeeth === undefined ? range(least, mostTeeth) : [request.gearTeeth]) {
    const z2 = request.mateTeeth ?? Math.min(mostTeeth, Math.max(leastMate, Math.round(z1 * ratio)));
    const off = Math.abs(z2 / z1 / ratio - 1);
    if (off < best[2]) best = [z1, z2, off];
  }
  const figure = (v: number, digits = 4) => Number(v.toFixed(digits));
  return stop(
    'ratio-not-met',
    `Ratio ${figure(ratio)} within ${figure(tolerance * 100, 3)} %: the nearest with ${least} to ${mostTeeth} teeth, ${best[0]} and ${best[1]}, is ${figure(best[1] / best[0])}, ${figure(best[2] * 100, 3)} % off.`,
    tolerance < best[2] && best[2] < 0.2
      ? `Allow ${figure(Math.ceil(best[2] * 1e5) / 1e3, 3)} %.`
      : 'Use two stages, or ask for a ratio nearer 1.',
    'ratio',
    'ratioTolerance',
  );
}
