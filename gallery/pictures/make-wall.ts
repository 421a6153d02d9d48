import type { Job } from '../../core/job/job.js';
import { parseJob } from '../../core/job/read-job.js';
import type { Kernel, Vec3 } from '../../core/solid/types.js';
import { jobContext } from '../../generators/job-context.js';
import { type HungPiece, wall } from '../ropewalk/wall.js';
import { finishedCastings } from './finished-castings.js';
import { piecePicture } from './piece-picture.js';
import { singleJob } from './single-job.js';

/** What the page is told of a piece. */
export interface WallEntry {
  readonly name: string;
  readonly title: string;
  readonly caption: string;
  /** File beside the list. */
  readonly picture: string;
  /** Text of a plate job that makes it alone. */
  readonly job: string;
  readonly alloy: string;
  readonly triangles: number;
  /** g, all castings of one. */
  readonly mass: number;
  /** Outside sizes of each casting, mm. */
  readonly sizes: readonly Vec3[];
}

/** As `wall.json` has it. */
export interface WallList {
  readonly pieces: readonly WallEntry[];
  /** The whole jobs they are of. */
  readonly jobs: readonly { readonly title: string; readonly text: string }[];
}

export interface WallFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/**
 * Makes every piece of the wall from the texts of its jobs: pictures first, the list last.
 * @throws Error for a job with problems or a piece that cannot be made
 */
export function* makeWall(texts: ReadonlyMap<HungPiece['job'], string>, kernel: Kernel): Generator<WallFile> {
  const jobs = new Map([...texts].map(([file, text]) => [file, { text, job: readJobText(file, text) }]));
  const pieces: WallEntry[] = [];
  for (const piece of wall) {
    const from = jobs.get(piece.job);
    if (!from) throw new Error(`no text of ${piece.job}`);
    const castings = finishedCastings(from.job, piece.name, kernel);
    const picture = `${piece.name}.png`;
    yield { name: picture, bytes: piecePicture(piece, castings) };
    pieces.push({
      name: piece.name,
      title: piece.title,
      caption: piece.caption,
      picture,
      job: singleJob(from.text, piece.name, piece.title),
      alloy: castings[0]!.alloy,
      triangles: castings.reduce((n, c) => n + c.mesh.triangles.length / 3, 0),
      mass: rounded(castings.reduce((sum, c) => sum + c.mass, 0)),
      sizes: castings.map(({ size }) => size.map(rounded) as unknown as Vec3),
    });
  }
  const list: WallList = {
    pieces,
    jobs: [...jobs.values()].map(({ text, job }) => ({ title: job.title, text })),
  };
  yield { name: 'wall.json', bytes: new TextEncoder().encode(`${JSON.stringify(list, null, 1)}\n`) };
}

const rounded = (v: number): number => Math.round(v * 100) / 100;

function readJobText(file: string, text: string): Job {
  const reading = parseJob(text, jobContext(file));
  if (!reading.ok) throw new Error(reading.problems.map((p) => `${file}: ${p.message}`).join('\n'));
  return reading.job;
}
