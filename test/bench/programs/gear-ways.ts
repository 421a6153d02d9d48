/**
 * A double-helical gear's gated pattern by several ways, each until its binary STL is on the disk, one after the other
 * in turns. Argument: `GearWaysRequest` as JSON; prints `GearWaysResult`.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import serializer from '@jscad/stl-serializer';
import type { Manifold, ManifoldToplevel } from 'manifold-3d/manifold.js';
import { writeCheckedStl } from '../../../core/files/stl.js';
import { buildGating } from '../../../core/foundry/gating/index.js';
import { type MadePart, makePart, meshStates } from '../../../core/job/make-part.js';
import { parseJob } from '../../../core/job/read-job.js';
import type { PartDefinition } from '../../../core/part/contract.js';
import { loadKernel } from '../../../core/solid/kernel.js';
import { scaleMesh } from '../../../core/solid/scale-mesh.js';
import type { Kernel, Mesh, Vec3 } from '../../../core/solid/types.js';
import { findPart } from '../../../generators/index.js';
import { jobContext } from '../../../generators/job-context.js';
import { bareStl, loadBareKernel, makeBare, takeIn } from './bare-kernel.js';
import { type Geom3, makeByModeling, scaledByModeling, volumeByModeling } from './modeling-way.js';
import { type DoubleHelical, rimByOwnMeans } from './own-means.js';
import { type Construction, recordKernel } from './recorded-kernel.js';

export interface GearWaysRequest {
  readonly parameters: Readonly<Record<string, number | string>>;
  /** mm */
  readonly tolerance: number;
  /** Turns of ours and the floor; the first of each is told apart. */
  readonly turns: number;
  /**
   * How the gear is made wholly by @jscad/modeling too, once: its rim by the library's own means, or lofted through our
   * outlines and sections, which are close to the fewest there can be.
   */
  readonly modeling: 'own' | 'lent' | 'none';
}

/** ms, each until the file is written. */
export interface GearWaysResult {
  /** Stock, growth and gating given, as the other ways are given them: parameters to the gated pattern's checked file. */
  readonly shape: readonly number[];
  /** All of that planned as well, part and drawing too; with the gated pattern's file alone, and with all four. */
  readonly planned: readonly number[];
  readonly plannedAllFour: readonly number[];
  /** The booleans alone, of meshes that stand ready, and the file; and all four. */
  readonly floor: readonly number[];
  readonly floorAllFour: readonly number[];
  readonly modeling: number | null;
  readonly triangles: { readonly ours: number; readonly floor: number; readonly modeling: number | null };
  /** mm³ */
  readonly volume: { readonly ours: number; readonly floor: number; readonly modeling: number | null };
}

const request = JSON.parse(process.argv[2] as string) as GearWaysRequest;
const folder = mkdtempSync(join(tmpdir(), 'patternwright-bench-'));
try {
  process.stdout.write(JSON.stringify(await measure(request)));
} finally {
  rmSync(folder, { recursive: true, force: true });
}

async function measure({ parameters, tolerance, turns, modeling }: GearWaysRequest): Promise<GearWaysResult> {
  const kernel = await loadKernel();
  const wasm = await loadBareKernel();
  const make = gearMaker(parameters, tolerance);
  const write = (name: string, bytes: Uint8Array): void => writeFileSync(join(folder, `${name}.stl`), bytes);
  const times = {
    shape: [] as number[],
    planned: [] as number[],
    plannedAllFour: [] as number[],
    floor: [] as number[],
    floorAllFour: [] as number[],
  };
  const timed = (list: number[], work: () => void): void => {
    const begun = performance.now();
    work();
    list.push(performance.now() - begun);
  };
  const plain = (states: readonly (typeof meshStates)[number][]) => () => {
    const made = make(kernel);
    for (const state of states) write(state, writeCheckedStl(made.meshes[state], state));
  };
  // First of all, so that nothing is warm.
  timed(times.planned, plain(['gated']));
  const recorder = recordKernel(kernel);
  const made = make(recorder.kernel);
  const states = constructionsOf(made, recorder.constructionOf);
  let bare = { triangles: 0, volume: 0 };
  for (let turn = 0; turn < turns; turn++) {
    timed(times.floor, () => {
      bare = writeBare(wasm, states, ['gated'], write);
    });
    timed(times.shape, () => write('shape', writeShape(made, kernel)));
    timed(times.planned, plain(['gated']));
    timed(times.floorAllFour, () => {
      writeBare(wasm, states, meshStates, write);
    });
    timed(times.plannedAllFour, plain(meshStates));
  }
  const facts = made.facts.gated;
  const byModeling =
    modeling === 'none' ? null : makeWholly(states, modeling === 'own' ? ownRim(made) : undefined, write);
  return {
    ...times,
    modeling: byModeling?.time ?? null,
    triangles: { ours: facts.triangles, floor: bare.triangles, modeling: byModeling?.triangles ?? null },
    volume: { ours: facts.volume, floor: bare.volume, modeling: byModeling?.volume ?? null },
  };
}

function gearMaker(parameters: object, tolerance: number): (kernel: Kernel) => MadePart {
  const source = {
    job: 'bench',
    tolerance: `${tolerance}mm`,
    freeze: 'off',
    parts: [{ name: 'gear', part: 'double-helical-gear', parameters }],
  };
  const reading = parseJob(JSON.stringify(source), jobContext('bench'));
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  const { job } = reading;
  const [part] = job.parts;
  const definition = gear();
  if (!part) throw new Error('no gear');
  return (kernel) => {
    const outcome = makePart(part, definition, job, kernel);
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.findings));
    return outcome.made;
  };
}

/** By the program's own functions and with its checks, from the plans of a gear that is made. */
function writeShape({ request, stock, tolerance, gating, facts }: MadePart, kernel: Kernel): Uint8Array {
  return kernel.scope(() => {
    const { solid } = gear().build(request.parameters, stock.stock, { kernel, tolerance });
    if (solid === null) throw new Error('no gear');
    const pattern = scaleMesh(solid.mesh(), growthOf(facts));
    const gated = kernel
      .fromMesh(pattern)
      .add(buildGating(gating, kernel, tolerance))
      .mesh();
    return writeCheckedStl(gated, 'gated');
  });
}

function growthOf({ casting, pattern }: MadePart['facts']): Vec3 {
  const along = (axis: 0 | 1 | 2): number => pattern.size[axis] / casting.size[axis];
  return [along(0), along(1), along(2)];
}

function gear(): PartDefinition {
  const definition = findPart('double-helical-gear');
  if (!definition) throw new Error('no gear');
  return definition;
}

interface States {
  readonly part: Construction;
  readonly casting: Construction;
  /** Of the pattern, a ready mesh, and its gating. */
  readonly gated: Construction;
  readonly growth: Vec3;
}

function constructionsOf(made: MadePart, of: (mesh: MadePart['standing']) => Construction): States {
  const { part, casting, pattern, gated } = made.meshes;
  if (pattern !== made.standing && pattern.positions.some((x, i) => x !== made.standing.positions[i]))
    throw new Error('the pattern is moved before it is gated');
  return {
    part: of(part),
    casting: of(casting),
    gated: of(gated),
    growth: growthOf(made.facts),
  };
}

function ownRim(made: MadePart): () => Geom3 {
  const { parameters } = made.request;
  return () => rimByOwnMeans(parameters as unknown as DoubleHelical, made.stock.stock, made.tolerance);
}

/**
 * The casting for the pattern's sake, and what else is asked for. The pattern is the casting's mesh, grown, as its own
 * file has it: so it goes out of the kernel and in again.
 */
function writeBare(
  wasm: ManifoldToplevel,
  { part, casting, gated, growth }: States,
  wanted: readonly (typeof meshStates)[number][],
  write: (name: string, bytes: Uint8Array) => void,
): { triangles: number; volume: number } {
  const meshOf = (construction: Construction, given?: Manifold): { mesh: Mesh; volume: number } => {
    const solid = makeBare(wasm, construction, given);
    const { vertProperties: positions, triVerts: triangles } = solid.getMesh();
    const volume = solid.volume();
    solid.delete();
    return { mesh: { positions, triangles }, volume };
  };
  if (wanted.includes('part')) write('part', bareStl(meshOf(part).mesh));
  const { mesh: cast } = meshOf(casting);
  if (wanted.includes('casting')) write('casting', bareStl(cast));
  const pattern: Mesh = {
    positions: cast.positions.map((x, i) => x * (growth[i % 3] as number)),
    triangles: cast.triangles,
  };
  if (wanted.includes('pattern')) write('pattern', bareStl(pattern));
  const standing = takeIn(wasm, pattern);
  const { mesh, volume } = meshOf(gated, standing);
  standing.delete();
  write('gated', bareStl(mesh));
  return { triangles: mesh.triangles.length / 3, volume };
}

/** From outlines to the gated pattern's file, serialised as its library does it. */
function makeWholly(
  { casting, gated, growth }: States,
  rim: (() => Geom3) | undefined,
  write: (name: string, bytes: Uint8Array) => void,
): { time: number; triangles: number; volume: number } {
  const begun = performance.now();
  const mesh = scaledByModeling(growth, makeByModeling(casting, rim ? { loft: rim } : {}));
  const solid = makeByModeling(gated, { mesh });
  const bytes = Buffer.concat(
    serializer.serialize({ binary: true }, solid).map((part) => Buffer.from(part as ArrayBuffer)),
  );
  write('modeling', bytes);
  const time = performance.now() - begun;
  return { time, triangles: (bytes.length - 84) / 50, volume: volumeByModeling(solid) };
}
