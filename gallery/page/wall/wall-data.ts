/** The pieces on the wall, as `gallery/pictures` made them. */

export interface WallPiece {
  readonly name: string;
  readonly title: string;
  readonly caption: string;
  /** Relative to the page. */
  readonly picture: string;
  /** A plate job that makes this piece alone. */
  readonly job: string;
}

export interface WallData {
  readonly pieces: readonly WallPiece[];
  /** The whole jobs they are from. */
  readonly jobs: readonly { readonly title: string; readonly text: string }[];
}

const folder = 'pictures/';

/** Loads the list. @throws when it cannot be had */
export async function wallData(): Promise<WallData> {
  const answer = await fetch(`${folder}wall.json`);
  if (!answer.ok) throw new Error(`wall.json: ${answer.status}`);
  const data = (await answer.json()) as WallData;
  return { ...data, pieces: data.pieces.map((p) => ({ ...p, picture: `${folder}${p.picture}` })) };
}
