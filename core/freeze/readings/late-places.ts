import { maths } from '../../maths/maths.js';
import { type CastFields, cellRole } from '../cast-fields.js';
import { cellMiddle, cellVolume } from '../grid.js';
import type { LatePlace } from '../plans.js';
import { largeCastings } from './castings.js';
import { metalCells } from './cells.js';
import { findLasting, type Judgement, type Lasting } from './join-tree.js';
import { type Pocket, PocketFinder } from './pocket.js';

/** A late place, and what tells how to mend it. */
export interface FoundPlace extends LatePlace {
  /** What its last cell belongs to: a gate's foot may be last of a pocket of mostly casting. */
  readonly lastIn: 'casting' | 'gating' | 'vent';
  /** Where its way closes; none where it had no way or it never closed. */
  readonly neckIn: FoundPlace['lastIn'] | 'none';
}

/** How a metal feeds. */
export interface Feeding {
  /** Of the liquid's volume: `Alloy.freezingShrinkage`. */
  readonly freezingShrinkage: number;
  /** Share of a feeder's volume that can leave it: `GatingSettings.feederEfficiency`. */
  readonly feederEfficiency: number;
}

/**
 * Less than 2 % later than the way out of it, or less metal than 20 mm³ or than 8 of the grid's cells, is not told from
 * the noise of cells and steps; 20 mm³ of bronze leave a void of 1 mm³. Common practice, no source.
 */
const leastExcess = 0.02;
const leastVolume = 20;
const leastCells = 8;

/** e V_f ≥ β (V_f + V_c), the rule that cup and sprue are sized by (J. Campbell, Complete Casting Handbook). */
function judgementFor({ grid }: CastFields, cells: Int32Array, feeding: Feeding): Judgement {
  let cell = Number.POSITIVE_INFINITY;
  for (const c of cells) cell = Math.min(cell, cellVolume(grid, c));
  return {
    noticeable: { excess: leastExcess, volume: Math.max(leastVolume, leastCells * cell) },
    feeds: (gating, all) =>
      gating > 0 && feeding.feederEfficiency * gating >= Math.max(0, feeding.freezingShrinkage) * all,
  };
}

/**
 * The castings' places that freeze after all metal next to them, latest first. A casting without one freezes towards
 * its gating to the end: its latest place is given, `shutAt` its own time. A void is the shrinkage of what is liquid
 * as the way closes: what froze before was fed.
 */
export function latePlaces(fields: CastFields, feeding: Feeding): readonly FoundPlace[] {
  const cells = metalCells(fields);
  const judge = judgementFor(fields, cells, feeding);
  const finder = new PocketFinder(fields);
  const lasting = findLasting(fields, cells, judge);
  const cutOff = cutOffPlaces(finder, lasting, judge, Math.max(0, feeding.freezingShrinkage));
  const fed = largeCastings(fields, cells, judge.noticeable.volume).filter(
    ({ latest }) => !cutOff.some(({ pocket }) => finder.isIn(pocket, latest)),
  );
  return [
    ...cutOff.flatMap(({ places }) => places),
    ...fed.map(({ latest }) => fedPlace(fields, latest)),
  ].sort((a, b) => b.solidAt - a.solidAt);
}

const fedPlace = (fields: CastFields, cell: number): FoundPlace => ({
  at: cellMiddle(fields.grid, cell),
  solidAt: fields.solidAt[cell]!,
  shutAt: fields.solidAt[cell]!,
  cutOff: 0,
  void: 0,
  leastGradient: fields.gradient[cell]!,
  lastIn: 'casting',
  neckIn: 'none',
});

interface CutOff {
  readonly pocket: Pocket;
  readonly places: readonly FoundPlace[];
}

/** The pockets that are cut off, with the places in each. */
function cutOffPlaces(
  finder: PocketFinder,
  lasting: readonly Lasting[],
  { noticeable }: Judgement,
  shrinkage: number,
): readonly CutOff[] {
  const { fields } = finder;
  const { solidAt, grid } = fields;
  const left = new Set(
    lasting.filter(({ cell, shutAt }) => !(solidAt[cell]! - shutAt < noticeable.excess * solidAt[cell]!)),
  );
  const found: CutOff[] = [];
  for (const first of left) {
    const pocket = finder.pocketAbout(first.cell, first.shutAt);
    const group = [...left].filter((p) => p.shutAt === first.shutAt && finder.isIn(pocket, p.cell));
    for (const p of group) left.delete(p);
    if (pocket.casting < noticeable.volume) continue;
    const gradients = leastGradients(finder, pocket, group);
    const weights = group.reduce((sum, p) => sum + p.weight, 0);
    const places = group.map((p, i): FoundPlace => {
      const cutOff = (pocket.liquid * p.weight) / weights;
      return {
        at: cellMiddle(grid, p.cell),
        solidAt: solidAt[p.cell]!,
        shutAt: p.shutAt,
        cutOff,
        void: shrinkage * cutOff,
        ...(p.neck >= 0 ? { neck: cellMiddle(grid, p.neck) } : {}),
        leastGradient: gradients[i]!,
        lastIn: partOf(fields, p.cell),
        neckIn: p.neck < 0 ? 'none' : partOf(fields, p.neck),
      };
    });
    found.push({ pocket, places });
  }
  return found;
}

const partOf = ({ role }: CastFields, c: number): FoundPlace['lastIn'] =>
  role[c] === cellRole.casting ? 'casting' : role[c] === cellRole.vent ? 'vent' : 'gating';

/**
 * K/mm, for each place of a pocket: the least on the shortest liquid way from it to its neck. The place itself and what
 * touches it are left out: there the gradient always ends at nothing. 0 where no way is.
 */
function leastGradients(finder: PocketFinder, pocket: Pocket, group: readonly Lasting[]): readonly number[] {
  const { fields } = finder;
  const neck = group[0]!.neck;
  if (neck < 0) return group.map(() => 0);
  const ways = finder.waysTo(
    neck,
    pocket,
    group.map((p) => p.cell),
  );
  return ways.map((way, i) => {
    const { cell } = group[i]!;
    let least = Number.POSITIVE_INFINITY;
    const [gx, gy, gz] = cellMiddle(fields.grid, cell);
    const reach = 1.6 * maths.cbrt(cellVolume(fields.grid, cell));
    for (const c of way) {
      const [x, y, z] = cellMiddle(fields.grid, c);
      if (maths.hypot(x - gx, y - gy, z - gz) > reach || c === neck)
        least = Math.min(least, fields.gradient[c]!);
    }
    return Number.isFinite(least) ? least : 0;
  });
}
