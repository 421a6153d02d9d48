import type { Box } from '../../../core/solid/types.js';
import type { ViewContent } from './content.js';
import { stillFits } from './frame.js';

/** What is looked at, as far as the reader's place depends on it. */
export interface Piece {
  readonly names: ReadonlySet<string>;
  readonly box: Box;
  readonly bed: ViewContent['bed'];
}

/** What stands before a `/` in a body's id names its piece. */
export const pieceOf = ({ bodies, bed }: ViewContent, box: Box | null): Piece | null =>
  box && { names: new Set(bodies.map(({ id }) => id.split('/', 1)[0] ?? id)), box, bed };

/** Whether the reader may stay where they are: the same piece, perhaps in another state, changed a little. */
export const isSamePiece = (a: Piece, b: Piece): boolean =>
  [...a.names].some((name) => b.names.has(name)) &&
  stillFits(a.box, b.box) &&
  a.bed?.width === b.bed?.width &&
  a.bed?.depth === b.bed?.depth;
