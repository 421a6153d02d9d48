import type { Mesh, Vec3 } from '../../solid/types.js';
import { type Cavity, readCavity } from './cavity.js';
import { heightKeys } from './height-order.js';
import { hasManyMouths, type OutOfReach, outOfReach } from './out-of-reach.js';
import { type ShutPiece, shutPieces } from './pieces.js';
import { middleOfTop, pointOf } from './tops.js';

/** Air that rising metal shuts in, mm and mm³. */
export interface AirPocket {
  /** Its highest place: the middle of the flat there, or the point. */
  readonly at: Vec3;
  /** Where metal closes its last way out. */
  readonly saddle: Vec3;
  /** From the saddle up to the highest place. */
  readonly depth: number;
  /** Of the cavity above the saddle, and of what below it metal can come to only through there. */
  readonly volume: number;
}

export interface PocketSearch {
  /** Largest first. */
  readonly pockets: readonly AirPocket[];
  /** Those below the threshold. */
  readonly ignored: { readonly count: number; readonly volume: number };
}

/** A search's pocket with the vertex of the mesh that is its top and those of its surface above the saddle. */
export interface FoundPocket extends AirPocket {
  readonly peak: number;
  readonly vertices: readonly number[];
}

/** Air below this volume dissolves in the mould's wall and is not told, mm³ (0.05 ml). Common practice, no source. */
export const leastPocket = 50;

/** Behind a crown of less nothing is looked for, mm³. */
const leastCrown = 1;

export interface PocketOptions {
  /** Vertices at this z (mesh coordinates) or higher are open to the air, mm; the highest alone when left out. */
  readonly openHeight?: number;
  /** Other vertices that are open. */
  readonly isOpen?: (vertex: number) => boolean;
  /** Pour direction; +Z when left out. */
  readonly up?: Vec3;
  /** mm³ */
  readonly least?: number;
}

/**
 * Every place where rising metal would trap air: the join tree of height on the solid. Air above the metal at a level is
 * the part of the cavity above it; a piece of it without an open top is shut in when the metal reaches the saddle that
 * joined it to a piece with one, and with it whatever below metal could come to only through it. All basins of the
 * cavity are taken to fill to one level: where one fills before another, a pocket between them is smaller, never larger.
 * Air is not squeezed and the mould lets none through. n log n.
 */
export function findPockets(mesh: Mesh, options: PocketOptions): PocketSearch {
  const { pockets, ignored } = searchPockets(readCavity(mesh, options.up), options);
  return { pockets: pockets.map(plainPocket), ignored };
}

export const plainPocket = ({ peak: _, vertices: __, ...pocket }: FoundPocket): AirPocket => pocket;

export const totalVolume = (pockets: readonly { readonly volume: number }[]): number =>
  pockets.reduce((sum, p) => sum + p.volume, 0);

interface FoundPockets {
  readonly pockets: readonly FoundPocket[];
  readonly ignored: PocketSearch['ignored'];
}

/** As `findPockets`, with the tops' vertices. */
export const searchPockets = (cavity: Cavity, options: PocketOptions): FoundPockets =>
  searchAbove(cavity, options, Number.NEGATIVE_INFINITY)!;

/** The same of a cavity that is known above a height only; null where that does not tell. */
export function searchAbove(cavity: Cavity, options: PocketOptions, floor: number): FoundPockets | null {
  const { openHeight, least = leastPocket } = options;
  const { mesh, heights } = cavity;
  const keys = heightKeys(heights);
  const isOpen =
    options.isOpen ??
    (openHeight === undefined ? topmost(keys) : (v: number) => mesh.positions[3 * v + 2]! >= openHeight);
  const shut = shutPieces(cavity, keys, isOpen, floor);
  if (!shut) return null;
  const hasMouths = shut.some((p) => p.volume >= leastCrown && hasManyMouths(cavity, keys, p));
  if (hasMouths && Number.isFinite(floor)) return null;
  const behind = hasMouths ? outOfReach(cavity, keys, shut, isOpen) : [];
  const found: FoundPocket[] = [];
  const ignored = { count: 0, volume: 0 };
  for (const { pieces, volume } of shutTogether(shut, behind)) {
    if (volume < least) {
      ignored.count++;
      ignored.volume += Math.max(0, volume);
      continue;
    }
    const peak = pieces.map((p) => p.peak).reduce((a, b) => (keys[a]! < keys[b]! ? a : b));
    const first = pieces.reduce((a, b) => (a.first < b.first ? a : b));
    found.push({
      at: middleOfTop(cavity, peak),
      saddle: pointOf(mesh, first.at),
      depth: heights[peak]! - first.level,
      volume,
      peak,
      vertices: pieces.flatMap((p) => p.vertices),
    });
  }
  return { pockets: found.sort((a, b) => b.volume - a.volume), ignored };
}

interface ShutGroup {
  readonly pieces: ShutPiece[];
  volume: number;
}

/** Pieces that one place out of reach hangs on are one pocket, which has its volume too. */
function shutTogether(shut: readonly ShutPiece[], behind: readonly OutOfReach[]): ReadonlySet<ShutGroup> {
  const groups = new Map(shut.map((p): [ShutPiece, ShutGroup] => [p, { pieces: [p], volume: p.volume }]));
  for (const { pieces, volume } of behind) {
    const joined = [...new Set([...pieces].flatMap((p) => groups.get(p) ?? []))];
    const group = { pieces: joined.flatMap((g) => g.pieces), volume: volume + totalVolume(joined) };
    for (const p of group.pieces) groups.set(p, group);
  }
  return new Set(groups.values());
}

const topmost = (keys: Float64Array): ((v: number) => boolean) => {
  const highest = keys.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  return (v) => keys[v] === highest;
};
