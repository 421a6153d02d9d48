/** A worker that makes one state of one casting, coarse and at once, while a size is being dragged. */
import { sketchPart, sketchTree } from '../../../core/job/sketch-part.js';
import type { PartDefinition } from '../../../core/part/contract.js';
import { findPart } from '../../../generators/index.js';
import { HeldMeshes } from './held-meshes.js';
import { learntFrom } from './learnt-from.js';
import { loadPageKernel } from './load-kernel.js';
import type { SketchOrder, SketchReply } from './protocol.js';

const kernelLoading = loadPageKernel();
const meshes = new HeldMeshes();

async function sketch({ id, sources, casting, state }: SketchOrder): Promise<SketchReply> {
  const reading = await meshes.read(sources);
  if (!reading.ok) return { kind: 'refused', id, problems: reading.problems, findings: [] };
  const { job } = reading;
  const request = job.parts.find((p) => p.name === casting) ?? job.parts[0];
  if (!request) return { kind: 'refused', id, problems: [], findings: [] };
  const learnt = request.growth === 'log' ? await learntFrom(sources) : undefined;
  const kernel = await kernelLoading;
  const outcome = request.tree
    ? sketchTree(request, findPart, job, kernel, state, learnt)
    : sketchPart(request, findPart(request.part) as PartDefinition, job, kernel, state, learnt);
  return outcome.ok
    ? { kind: 'sketch', id, casting: request.name, ...outcome.sketch }
    : { kind: 'refused', id, problems: [], findings: [{ name: request.name, findings: outcome.findings }] };
}

const buffersOf = (reply: SketchReply): Transferable[] =>
  reply.kind === 'sketch'
    ? [...Object.values(reply.meshes), ...(reply.gating ? [reply.gating] : [])].flatMap((mesh) => [
        mesh.positions.buffer as ArrayBuffer,
        mesh.triangles.buffer as ArrayBuffer,
      ])
    : [];

self.onmessage = async ({ data }: MessageEvent<SketchOrder>) => {
  meshes.take(data);
  try {
    const reply = await sketch(data);
    // A mesh that two states share is sent once.
    self.postMessage(reply, { transfer: [...new Set(buffersOf(reply))] });
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    self.postMessage({ kind: 'broken', id: data.id, message } satisfies SketchReply);
  }
};
