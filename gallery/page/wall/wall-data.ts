import type { WallEntry, WallList } from '../../pictures/make-wall.js';

/** What the wall shows of a piece; its picture relative to the page. */
export type WallPiece = Pick<WallEntry, 'name' | 'title' | 'caption' | 'picture' | 'job'>;

export interface WallData {
  readonly pieces: readonly WallPiece[];
  readonly jobs: WallList['jobs'];
}

const folder = 'pictures/';

/** Loads the list that `gallery/pictures` made. @throws when it cannot be had */
export async function wallData(): Promise<WallData> {
  const answer = await fetch(`${folder}wall.json`);
  if (!answer.ok) throw new Error(`wall.json: ${answer.status}`);
  const { pieces, jobs } = (await answer.json()) as WallList;
  return { jobs, pieces: pieces.map((p) => ({ ...p, picture: `${folder}${p.picture}` })) };
}
