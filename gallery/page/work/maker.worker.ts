/** A worker that makes whole jobs exactly, as the command line does, and the files of the job last made. */
import { zipSync } from 'fflate';
import type { Job } from '../../../core/job/job.js';
import { planFiles } from '../../../core/job/job-files.js';
import { type JobResult, makeJobInSteps, type RefusedJob } from '../../../core/job/make-job.js';
import { rememberLast } from '../../../core/job/remember.js';
import { findPart } from '../../../generators/index.js';
import { HeldMeshes } from './held-meshes.js';
import { learntFrom } from './learnt-from.js';
import { loadPageKernel } from './load-kernel.js';
import { frozenOf, Stamps } from './made-job.js';
import type { MakeOrder, MakeReply, Sources, WrittenFile } from './protocol.js';

const kernelLoading = loadPageKernel();
/** Enough for what a job of a few parts goes back and forth between; its meshes are some 3 MB a part. */
const mostRemembered = 32;
/** The same where its meshes are large: some 30 bytes a triangle and state. */
const fewRemembered = 8;
const largeMeshes = 200_000;
let remember = rememberLast(mostRemembered);
let remembers = mostRemembered;
const meshes = new HeldMeshes();
/** What the remembered was made with besides its job. */
let logText: string | undefined;
const stamps = new Stamps();
let newest = 0;
let last: { readonly key: string; readonly job: Job; readonly result: JobResult } | undefined;

const say = (reply: MakeReply, transfer: Transferable[] = []): void => self.postMessage(reply, { transfer });
const keyOf = (sources: Sources): string => JSON.stringify(sources);
const trianglesIn = ({ meshFiles }: Job): number =>
  [...(meshFiles?.values() ?? [])].reduce((sum, { mesh }) => sum + mesh.triangles.length / 3, 0);
/** Lets messages in that came meanwhile. */
const turn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

/** Makes the job, telling how it goes; says no more once a newer order has come. */
async function make(id: number, sources: Sources): Promise<void> {
  const isStale = (): boolean => id !== newest;
  const reading = await meshes.read(sources);
  if (isStale()) return;
  if (!reading.ok) {
    say({ kind: 'refused', id, problems: reading.problems, findings: [] });
    return;
  }
  const { job } = reading;
  const most = trianglesIn(job) > largeMeshes ? fewRemembered : mostRemembered;
  if (sources.log?.text !== logText || most !== remembers) remember = rememberLast(most);
  remembers = most;
  logText = sources.log?.text;
  const learntGrowth = await learntFrom(sources);
  const steps = makeJobInSteps(job, {
    kernel: await kernelLoading,
    findPart,
    remember,
    volumes: true,
    // A piece that cannot be made does not hide the others.
    keepGoing: true,
    ...(learntGrowth === undefined ? {} : { learntGrowth }),
    onProgress: ({ stage, done, of }) => say({ kind: 'progress', id, stage, share: done / of }),
  });
  for (;;) {
    await turn();
    if (isStale()) return;
    const step = steps.next();
    if (step.done) {
      finish(id, sources, job, step.value);
      return;
    }
    const { stage, done, of, planned } = step.value;
    if (planned) sayMade(id, false, job, planned);
    say({ kind: 'progress', id, stage, share: done / of });
  }
}

function finish(id: number, sources: Sources, job: Job, result: JobResult | RefusedJob): void {
  if ('refused' in result) {
    say({ kind: 'refused', id, problems: [], findings: result.refused });
    return;
  }
  last = { key: keyOf(sources), job, result };
  sayMade(id, true, job, result);
}

const sayMade = (id: number, final: boolean, job: Job, result: JobResult): void =>
  say({
    kind: 'made',
    id,
    final,
    summary: result.summary,
    castings: stamps.send(result, job.units),
    frozen: frozenOf(result),
  });

/** Files of the job last made: byte for byte what the command line writes. */
function write(id: number, sources: Sources, paths: readonly string[] | 'zip'): void {
  if (last?.key !== keyOf(sources)) {
    say({
      kind: 'broken',
      id,
      message: 'The job has changed since it was made. Wait until it is made.',
    });
    return;
  }
  const { job, result } = last;
  const planned = planFiles(result, { lengthUnit: job.units, degrees: job.degrees });
  const files: readonly WrittenFile[] =
    paths === 'zip'
      ? [
          zipped(
            job.name,
            planned.map(({ path, make }) => ({ path, bytes: make() })),
          ),
        ]
      : planned.flatMap(({ path, make }) => (paths.includes(path) ? [{ path, bytes: make() }] : []));
  say(
    { kind: 'files', id, files },
    files.map(({ bytes }) => bytes.buffer as ArrayBuffer),
  );
}

/** The whole folder, its files as they are. */
const zipped = (name: string, files: readonly WrittenFile[]): WrittenFile => ({
  path: `${name}.zip`,
  bytes: zipSync(Object.fromEntries(files.map(({ path, bytes }) => [`${name}/${path}`, bytes])), {
    level: 6,
  }),
});

self.onmessage = async ({ data }: MessageEvent<MakeOrder>) => {
  const { id, sources } = data;
  try {
    if (data.kind === 'files') write(id, sources, data.paths);
    else {
      newest = id;
      meshes.take(data);
      await make(id, sources);
    }
  } catch (error) {
    say({ kind: 'broken', id, message: error instanceof Error ? error.message : String(error) });
  }
};
