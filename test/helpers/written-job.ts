import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type JobResult, jobFiles, type RefusedJob } from '../../cli/api.js';
import type { PartSummary, Summary } from '../../core/job/summary.js';
import { readBinaryStl } from './binary-stl.js';
import { type WeldedMesh, weld } from './welded-mesh.js';

/** A job as a reader of its output folder finds it: bytes by path, and what `summary.json` says. */
export interface WrittenJob {
  readonly files: ReadonlyMap<string, Uint8Array>;
  readonly summary: Summary;
}

export const demoJob = readFileSync(
  fileURLToPath(new URL('../../gallery/ropewalk/job.yaml', import.meta.url)),
  'utf8',
);

/** Writes every file of a job into memory; the summary is parsed from its bytes. */
export function written(result: JobResult | RefusedJob): WrittenJob {
  if ('refused' in result) throw new Error(JSON.stringify(result.refused, null, 1));
  const files = new Map<string, Uint8Array>();
  for (const { path, bytes } of jobFiles(result, { lengthUnit: 'mm', degrees: 'C' })) {
    if (files.has(path)) throw new Error(`${path} is written twice`);
    files.set(path, bytes);
  }
  return { files, summary: JSON.parse(textOf(files, 'summary.json')) as Summary };
}

export const bytesOf = (files: WrittenJob['files'], path: string | undefined): Uint8Array => {
  const bytes = files.get(path ?? '');
  if (!bytes) throw new Error(`no file ${path}`);
  return bytes;
};

export const textOf = (files: WrittenJob['files'], path: string): string =>
  new TextDecoder('utf-8', { fatal: true }).decode(bytesOf(files, path));

export const states = ['part', 'casting', 'pattern', 'gated'] as const;
export type State = (typeof states)[number];

/** A part's mesh, read from its STL; read once. */
export function stlMesh({ files }: WrittenJob, part: PartSummary, state: State): WeldedMesh {
  const bytes = bytesOf(files, part.files[state]);
  const known = meshes.get(bytes) ?? weld(readBinaryStl(bytes).corners);
  meshes.set(bytes, known);
  return known;
}

const meshes = new WeakMap<Uint8Array, WeldedMesh>();
