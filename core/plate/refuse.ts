import type { NestItem, NestRefusal } from './contract.js';
import type { NoPlace } from './lone.js';
import { type Room, zonesFor } from './room.js';

/** Why a pattern fits on no bed, in a sentence. */
export function refusalOf(item: NestItem, { turn, size, overBy }: NoPlace, room: Room): NestRefusal {
  const { width, depth, height } = overBy;
  const refusal = { name: item.name, copies: [item.copy], overBy };
  const brim = room.brim > 0 ? ' with its brim' : '';
  const high = formatSize(item.height);
  const degrees = Math.round((turn * 1800) / Math.PI) / 10;
  const turned = turn === 0 ? '' : turn === Math.PI / 2 ? ' turned a quarter' : ` turned by ${degrees}°`;
  if (width + depth + height === 0) {
    const zones = zonesFor(room, item.height).map((z) => `(${formatSize(z.x)}, ${formatSize(z.y)})`);
    const reason =
      `The pattern${brim}, ${formatSize(size.width)} × ${formatSize(size.depth)} × ${high} mm, finds no place at any ` +
      `turn that keeps clear of the keep-out ${zones.length === 1 ? 'zone' : 'zones'} at ${listOf(zones)} mm.`;
    return { ...refusal, reason };
  }
  if (room.round) {
    const parts = [
      ...(width > 0 ? [`${formatOver(width)} mm too wide`] : []),
      ...(height > 0 ? [`${formatOver(height)} mm too high`] : []),
    ];
    const reason =
      `The pattern${brim} needs a circle of ${formatSize(size.width)} mm and ${high} mm of height, the bed has ` +
      `${formatSize(room.width - 2 * room.margin)} mm and ${formatSize(room.height)} mm inside its margin: ` +
      `${parts.join(' and ')}.`;
    return { ...refusal, overBy: { width, depth, height }, reason };
  }
  const parts = (['width', 'depth', 'height'] as const)
    .filter((side) => overBy[side] > 0)
    .map((side) => `${formatOver(overBy[side])} mm too ${sideWords[side]}`);
  const reason =
    `The pattern${brim}${turned} needs ${formatSize(size.width)} × ${formatSize(size.depth)} × ${high} mm, the bed has ` +
    `${formatSize(room.width - 2 * room.margin)} × ${formatSize(room.depth - 2 * room.margin)} × ` +
    `${formatSize(room.height)} mm inside its margins: ${parts.join(' and ')}` +
    `${width + depth > 0 ? ', at the best of all turns' : ''}.`;
  return { ...refusal, reason };
}

/** Joins a refusal to the one of its copies, if there is one. */
export function addRefusal(refused: NestRefusal[], next: NestRefusal): void {
  const i = refused.findIndex((r) => r.name === next.name && r.reason === next.reason);
  const known = refused[i];
  if (known === undefined) refused.push(next);
  else refused[i] = { ...known, copies: [...known.copies, ...next.copies] };
}

const sideWords = { width: 'wide', depth: 'deep', height: 'high' } as const;
const formatSize = (mm: number): string => String(Math.round(mm * 100) / 100);
/** Rounded up, so that taking off what is written is enough. */
const formatOver = (mm: number): string => String(Math.ceil(mm * 100 - 1e-6) / 100);
const listOf = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
