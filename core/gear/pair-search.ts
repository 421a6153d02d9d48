import { type Finding, stop } from '../part/finding.js';
import { type RankedPair, rankPair, usualRatioTolerance } from './pair-ranking.js';
import { checkRequest, type ModuleChoice, moduleChoices, type PairRequest } from './pair-request.js';
import { type Refusal, tryPair } from './pair-try.js';

export interface PairSearch {
  /** Best first; every one passes `checkPair` without a `stop`. */
  readonly candidates: readonly RankedPair[];
  /** Why there are none; empty otherwise. */
  readonly findings: readonly Finding[];
}

const mostTeeth = 200;
/** Pairs worked out in full before the best are picked; the search goes on while there are fewer. */
const enough = 30;

/**
 * Finds pairs of gears for a request: tooth numbers, module, helix angle and profile shift. Deterministic. Never
 * throws; what cannot be met comes back as findings that name the constraint and the miss.
 */
export function searchPairs(request: PairRequest): PairSearch {
  const wrong = checkRequest(request);
  if (wrong.length > 0) return { candidates: [], findings: wrong };
  const modules = moduleChoices(request);
  if (modules.length === 0) return { candidates: [], findings: [noModule(request)] };
  const pairs = toothPairs(request);
  if (pairs.length === 0) return { candidates: [], findings: [noRatio(request)] };

  const found: RankedPair[] = [];
  const nearest = new Map<string, Refusal>();
  for (const { module, teeth } of ordered(request, modules, pairs)) {
    const attempt = tryPair(request, module, teeth);
    if (attempt.ok) {
      found.push(rankPair(request, attempt.pair));
      if (found.length >= enough) break;
      continue;
    }
    const { refusal } = attempt;
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
  return {
    candidates: [],
    findings: refusals
      .filter((r) => r.stage === furthest)
      .sort((a, b) => a.miss - b.miss)
      .map((r) => stop(r.code, r.message, r.remedy, ...r.parameters)),
  };
}

const leastTeeth = (request: PairRequest): number =>
  request.leastTeeth ?? (request.profileShift === false ? 17 : 10);

/** Tooth numbers within the ratio's tolerance. */
function toothPairs(request: PairRequest): readonly (readonly [number, number])[] {
  if (request.teeth) return [request.teeth];
  const ratio = request.ratio as number;
  const tolerance = request.ratioTolerance ?? usualRatioTolerance;
  const least = leastTeeth(request);
  const pairs: (readonly [number, number])[] = [];
  const gears = request.gearTeeth === undefined ? range(least, mostTeeth) : [request.gearTeeth];
  for (const z1 of gears) {
    const from = Math.ceil(z1 * ratio * (1 - tolerance) - 1e-9);
    const to = Math.floor(z1 * ratio * (1 + tolerance) + 1e-9);
    for (const z2 of range(Math.max(least, from), Math.min(mostTeeth, to))) pairs.push([z1, z2]);
  }
  return pairs;
}

const range = (from: number, to: number): number[] =>
  Array.from({ length: Math.max(0, to - from + 1) }, (_, i) => from + i);

interface Try {
  readonly module: ModuleChoice;
  readonly teeth: readonly [number, number];
}

/** The order in which to try: by what is cheap to see of the ranking, so that the search may stop early. */
function ordered(
  request: PairRequest,
  modules: readonly ModuleChoice[],
  pairs: readonly (readonly [number, number])[],
): readonly Try[] {
  const tries = modules.flatMap((module) => pairs.map((teeth) => ({ module, teeth })));
  const centres = request.centreDistance ?? null;
  const rough = ({ module, teeth }: Try): number => {
    const pinion = Math.min(...teeth);
    const plain = (module.module * (teeth[0] + teeth[1])) / 2;
    // A spur pair far from its centre distance cannot be brought there; a helix only ever widens it.
    const off = centres === null ? 0 : Math.max(0, plain / centres - 1, 0.7 - plain / centres) * 40;
    const ratioOff = request.ratio === undefined ? 0 : Math.abs(teeth[1] / teeth[0] / request.ratio - 1) * 50;
    const large = request.largestDiameter ?? request.largestCentreDistance ?? Number.POSITIVE_INFINITY;
    return (
      off +
      ratioOff +
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

function noRatio(request: PairRequest): Finding {
  const ratio = request.ratio as number;
  const tolerance = request.ratioTolerance ?? usualRatioTolerance;
  const least = leastTeeth(request);
  let best: readonly [number, number, number] = [0, 0, Number.POSITIVE_INFINITY];
  for (const z1 of request.gearTeeth === undefined ? range(least, mostTeeth) : [request.gearTeeth]) {
    const z2 = Math.min(mostTeeth, Math.max(least, Math.round(z1 * ratio)));
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
