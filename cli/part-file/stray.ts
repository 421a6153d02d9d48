/** What part files do between the turns of a thread that runs them, when nobody waits for it. */
import type { Stray } from '../crew/hands.js';
import type { PartFilePlaces } from './part-file-places.js';
import { type PartPath, partPath, placeInStack, shownPlace } from './place-in-file.js';
import { reasonOf } from './tame-process.js';

/** Where an error comes from, and why; undefined where no part file had to do with it. */
export function strayIn(error: unknown, { folder, sums }: PartFilePlaces): Stray | undefined {
  const parts = [...sums.keys()].map((path) => partPath(folder, path));
  const found = parts.flatMap((part) => {
    const place = placeInStack(error, part);
    return place === undefined ? [] : [{ part, place }];
  });
  const own = found.find(({ part, place }) => place.file === part.absolute) ?? found[0];
  if (!own) return undefined;
  const told = `${shownPlace(own.place, own.part)}: ${reasonOf(error)}`;
  return isOf(own.part, own.place.file) ? { file: own.part.written, told } : { told };
}

const isOf = (part: PartPath, file: string): boolean => part.absolute === file;
