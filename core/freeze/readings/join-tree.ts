import { type CastFields, cellRole } from '../cast-fields.js';
import { CellWalk } from './cells.js';
import { latestFirst } from './latest-first.js';

/** From when a place counts as one of its own and is not the grid's noise. */
export interface Noticeable {
  /** Of its time, how much later it freezes than the way out of it. */
  readonly excess: number;
  /** mm³ of metal that freezes later than the way out of it. */
  readonly volume: number;
}

/** A place that freezes after all metal next to it. */
export interface Lasting {
  readonly cell: number;
  /** s until the last liquid way from it to a feeder closes; 0 where there is none. */
  readonly shutAt: number;
  /** Cell where that way closes; -1 where there is none. */
  readonly neck: number;
  /** Its part of what hangs on several places with one way out, relative. */
  readonly weight: number;
}

/** What is told apart in the tree. */
export interface Judgement {
  readonly noticeable: Noticeable;
  /** Whether so much metal of a gating, mm³, can feed all the metal that freezes together with it, mm³. */
  readonly feeds: (gating: number, all: number) => boolean;
}

/** Metal that is liquid and in one piece at the time that the tree has come down to. */
interface Pool {
  /** s: of its latest noticeable cell, and whether that is the gating's. */
  readonly time: number;
  readonly inGating: boolean;
  /** mm³ of metal, and of the gating's. */
  volume: number;
  gating: number;
  /** Whether it has met a feeder. */
  readonly fed: boolean;
  /** Its places that have not. */
  open: readonly Lasting[];
}

/**
 * Late places by the join tree of the metal's cells in falling order of their freezing times (H. Carr, J. Snoeyink and
 * U. Axen, Computational Geometry 24, 2003; what is not `noticeable` goes with its neighbour: persistence, H.
 * Edelsbrunner, D. Letscher and A. Zomorodian, 2002). Going back in time pools of liquid grow and join; where two join,
 * the way between them closes, so a place is cut off at the greatest of all ways' least times. A feeder is a pool that
 * freezes last in the gating and has enough of it: a gate's foot that merely lies against a later casting gives nothing
 * back. A casting that meets none, because its gating freezes towards it all the way, is fed until that is solid there.
 * @param cells with metal, rising
 */
export function findLasting(fields: CastFields, cells: Int32Array, judge: Judgement): readonly Lasting[] {
  const { grid, role, solidAt } = fields;
  const pools: Pool[] = [];
  const joined: number[] = [];
  const closed: Lasting[] = [];
  const label = new Int32Array(grid.size).fill(-1);
  const walk = new CellWalk(fields);
  const find = (n: number): number => {
    let root = n;
    while (joined[root] !== root) root = joined[root]!;
    for (let at = n; at !== root; ) {
      const next = joined[at]!;
      joined[at] = root;
      at = next;
    }
    return root;
  };
  const sorted = latestFirst(cells, solidAt);
  for (let at = 0; at < sorted.length; at++) {
    const c = sorted[at]!;
    const level = solidAt[c]!;
    let own = -1;
    const count = walk.look(c);
    for (let n = 0; n < count; n++) {
      const other = label[walk.beside[n]!]!;
      if (other < 0 || other === own) continue;
      const root = find(other);
      if (own < 0) own = root;
      else if (root !== own) {
        joined[root] = own;
        pools[own] = join(pools[own]!, pools[root]!, level, c, judge, closed);
      }
    }
    if (own < 0) {
      own = pools.length;
      joined.push(own);
      pools.push(newPool(c, role[c]!, level));
    }
    label[c] = own;
    const pool = pools[own]!;
    const metal = walk.metal(c);
    pool.volume += metal;
    if (role[c] === cellRole.gating) meetGating(pool, metal, level, c);
  }
  // What is open now never met a feeder.
  return [...closed, ...pools.flatMap((pool, n) => (joined[n] === n ? weighed(pool) : []))];
}

const newPool = (cell: number, role: number, time: number): Pool => ({
  time,
  inGating: role === cellRole.gating,
  volume: 0,
  gating: 0,
  fed: false,
  open: [{ cell, shutAt: 0, neck: -1, weight: 1 }],
});

/** The pool of both, joined by the cell `c` that freezes at `level`. */
function join(a: Pool, b: Pool, level: number, c: number, judge: Judgement, closed: Lasting[]): Pool {
  const { volume, excess } = judge.noticeable;
  // Written so that metal that never freezes is noticeable.
  const counts = (p: Pool): boolean => p.volume >= volume && !(p.time - level < excess * p.time);
  const [late, early] = b.time > a.time ? [b, a] : [a, b];
  if (!counts(a) || !counts(b)) {
    const [own, crumb] = counts(late) || !counts(early) ? [late, early] : [early, late];
    own.volume += crumb.volume;
    meetGating(own, crumb.gating, level, c);
    return own;
  }
  const feeds = (p: Pool): boolean => p.fed || (p.inGating && judge.feeds(p.gating, p.volume));
  const fed = feeds(a) || feeds(b);
  const gating = a.gating + b.gating;
  for (const p of [a, b]) {
    if (!fed) meetGating(p, gating - p.gating, level, c);
    else if (feeds(p)) closed.push(...weighed(p));
    else closed.push(...weighed(p).map((x) => ({ ...x, shutAt: level, neck: c })));
  }
  return {
    time: late.time,
    inGating: late.inGating,
    volume: a.volume + b.volume,
    gating,
    fed,
    open: fed ? [] : [...weighed(a), ...weighed(b)],
  };
}

/** Metal of the gating comes to a pool: with the first of it its places are shut off, should no feeder come. */
function meetGating(pool: Pool, metal: number, level: number, c: number): void {
  if (pool.gating === 0 && metal > 0) pool.open = pool.open.map((p) => ({ ...p, shutAt: level, neck: c }));
  pool.gating += metal;
}

/** Its open places, by the volume that came to each before they were one. */
function weighed({ open, volume }: Pool): readonly Lasting[] {
  const sum = open.reduce((s, p) => s + p.weight, 0);
  return open.map((p) => ({ ...p, weight: (p.weight * volume) / sum }));
}
