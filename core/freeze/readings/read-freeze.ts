import type { GatingSettings } from '../../foundry/gating/index.js';
import { type CastFields, cellRole } from '../cast-fields.js';
import type { FreezePlan } from '../plans.js';
import { moveAfter, quenchTemperature } from './after-freezing.js';
import { readingBases } from './bases.js';
import { CellWalk, holdsMetal } from './cells.js';
import { readFacePeak } from './face-peak.js';
import { readFeed } from './feed.js';
import { freezeFindings, type ReadingContext } from './findings.js';
import { latePlaces } from './late-places.js';
import { readNiyama } from './niyama.js';

/** What the calculation itself tells, and what it was made for. */
export interface FreezeContext
  extends ReadingContext,
    Pick<FreezePlan, 'level' | 'cell' | 'steps' | 'imbalance' | 'start' | 'fill' | 'edgeRadius'> {
  readonly settings: Pick<GatingSettings, 'feederEfficiency'>;
  /** s from the full mould until its metal's hottest is under `quenchTemperature`, °C. */
  readonly quenchAt: number;
  /** Rules and sources of what the calculation was made with. */
  readonly bases?: FreezePlan['bases'];
}

/** Everything that a mould's fields tell. */
export function readFreeze(fields: CastFields, context: FreezeContext): FreezePlan {
  const { alloy, investment, gating, settings, level, cell, steps, imbalance, start, fill, edgeRadius } =
    context;
  const { cells, bottom, solid, volume } = takeStock(fields);
  const places = latePlaces(fields, {
    freezingShrinkage: alloy.freezingShrinkage,
    feederEfficiency: settings.feederEfficiency,
  });
  const feed = readFeed(gating, alloy, volume, start.metal);
  const niyama = readNiyama(fields);
  const facePeak = readFacePeak(fields, investment);
  return {
    level,
    cell,
    cells,
    steps,
    imbalance,
    start,
    fill,
    edgeRadius,
    solid,
    latePlaces: places.map(({ lastIn, neckIn, ...place }) => place),
    feed,
    niyama,
    move: moveAfter(solid.all),
    quench: { at: context.quenchAt, temperature: quenchTemperature(alloy) },
    facePeak,
    findings: freezeFindings({ fill, feed, niyama, facePeak, places, volume }, context, bottom),
    bases: { ...context.bases, ...readingBases },
  };
}

/** Cells that are there; z of the lowest metal; s until castings and all are solid; mm³ of the castings. */
function takeStock(fields: CastFields): {
  readonly cells: number;
  readonly bottom: number;
  readonly solid: FreezePlan['solid'];
  readonly volume: number;
} {
  const { grid, present, role, solidAt } = fields;
  const layer = grid.counts[0] * grid.counts[1];
  const walk = new CellWalk(fields);
  let [cells, lowest, castings, all, volume] = [0, Number.POSITIVE_INFINITY, 0, 0, 0];
  for (let c = 0; c < grid.size; c++) {
    if (present[c] !== 0) cells++;
    if (!holdsMetal(fields, c)) continue;
    lowest = Math.min(lowest, c);
    all = Math.max(all, solidAt[c]!);
    if (role[c] !== cellRole.casting) continue;
    castings = Math.max(castings, solidAt[c]!);
    volume += walk.metal(c);
  }
  const bottom = Number.isFinite(lowest) ? grid.edges[2][Math.floor(lowest / layer)]! : grid.edges[2][0]!;
  return { cells, bottom, solid: { castings, all }, volume };
}
