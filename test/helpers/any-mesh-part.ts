import fc from 'fast-check';
import { BufferAttribute, BufferGeometry, DoubleSide, Ray, Vector3 } from 'three';
import { MeshBVH } from 'three-mesh-bvh';
import { readMeshFile } from '../../core/files/mesh-read/index.js';
import { type MadePart, meshStates } from '../../core/job/make-part.js';
import { inspectMesh } from '../../core/solid/index.js';
import type { Kernel, Mesh, Vec3 } from '../../core/solid/types.js';
import { stands } from '../../generators/mesh/parameters.js';
import { type MeshSurvey, surveyMesh } from '../../generators/mesh/survey.js';
import { anySolid, fileOf, fileUnits, formats, meshOfAny } from './any-solid.js';
import { accidents, makeMesh, type Outcome } from './mesh-jobs.js';

/** Random parts from meshes over their legal space, and what must hold of whatever comes of them. */

const classes = ['flank', 'tip', 'face', 'bore', 'skin', 'mating'] as const;
const pick = fc.nat({ max: 1e6 });
const amount = fc.integer({ min: 0, max: 20 }).map((n) => n / 10);

export const anyMeshPart = fc.record({
  solid: anySolid,
  format: fc.constantFrom(...formats),
  unit: fc.constantFrom(...(Object.keys(fileUnits) as (keyof typeof fileUnits)[])),
  units: fc.constantFrom('mm', 'in'),
  up: fc.constantFrom(...stands),
  /** Surfaces by chance, and what they get. */
  marks: fc.array(fc.record({ of: pick, gets: fc.oneof(fc.constantFrom(...classes), amount) }), {
    maxLength: 4,
  }),
  wear: fc.oneof(fc.constant(null), fc.array(fc.record({ of: pick, gets: amount }), { maxLength: 2 })),
  gate: fc.oneof(
    { weight: 3, arbitrary: fc.constant('' as const) },
    { weight: 1, arbitrary: fc.constantFrom('surface' as const, 'found' as const) },
  ),
  gateOf: pick,
  scale: fc.oneof(
    { weight: 3, arbitrary: fc.constant(1) },
    { weight: 1, arbitrary: fc.constantFrom(0.5, 2) },
  ),
  stock: fc.record({ skin: fc.constantFrom(0, 0.25, 1), bore: fc.constantFrom(0.5, 1) }),
  fillCavities: fc.boolean(),
});

export type AnyMeshPart = typeof anyMeshPart extends fc.Arbitrary<infer T> ? T : never;

export interface Tried {
  readonly outcome: Outcome;
  readonly survey: MeshSurvey;
  /** Of the mesh as it was, scaled, mm³. */
  readonly volume: number;
  readonly parameters: Record<string, unknown>;
  readonly job: { readonly job: object; readonly part: object };
  readonly bytes: Uint8Array;
  readonly fileName: string;
}

const perInch = 25.4;

/** Writes a random solid to its file, reads it back, marks it by the names found, and makes it; null where nothing is left of it. */
export function tryMeshPart(any: AnyMeshPart, kernel: Kernel): Tried | null {
  const mesh = meshOfAny(kernel, any.solid);
  if (mesh === null) return null;
  const fileName = `any.${any.format}`;
  const bytes = fileOf(mesh, any.format, any.unit);
  const file = readMeshFile(bytes, fileName);
  const unit = any.units as 'mm' | 'in';
  const scaled = any.scale === 1 ? {} : { scaleTo: `${any.solid.longest * any.scale}mm` };
  const sized = { ...(any.format === '3mf' ? {} : { fileUnit: any.unit }), ...scaled };
  const survey = surveyMesh(
    {
      file: 'x',
      fileUnit: any.format === '3mf' ? 'stated' : any.unit,
      scaleTo: any.scale === 1 ? undefined : any.solid.longest * any.scale,
      scaleAlong: 'longest',
      closeHoles: undefined,
      fillCavities: any.fillCavities,
    },
    file,
    kernel,
    unit,
  );
  const surface = (of: number): string | undefined => survey.surfaces[of % survey.surfaces.length]?.name;
  const markText = (list: readonly { readonly of: number; readonly gets: string | number }[]): string =>
    list
      .flatMap(({ of, gets }) => {
        const name = surface(of);
        return name === undefined ? [] : [`${name} = ${typeof gets === 'number' ? `${gets}mm` : gets}`];
      })
      .join('; ');
  const way = survey.gates[Math.max(0, ['best', 'second', 'third'].indexOf(any.up))];
  const per = unit === 'in' ? perInch : 1;
  const gateAt =
    any.gate === 'surface'
      ? (surface(any.gateOf) ?? '')
      : any.gate === 'found' && way
        ? way.at.map((v) => (v / per).toFixed(4)).join(', ')
        : '';
  const parameters = {
    ...sized,
    up: any.up,
    fillCavities: any.fillCavities,
    marks: markText(any.marks),
    gateAt,
    ...(any.wear === null ? {} : { measuredFromCasting: true, wear: markText(any.wear) }),
  };
  const job = {
    job: { units: unit },
    part: { stock: { skin: `${any.stock.skin}mm`, bore: `${any.stock.bore}mm` } },
  };
  const outcome = makeMesh(file, kernel, parameters, job);
  const { volume } = inspectMesh(mesh);
  return { outcome, survey, volume: volume * any.scale ** 3, parameters, job, bytes, fileName };
}

export const treeOf = ({ positions, triangles }: Mesh): MeshBVH => {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(Float32Array.from(positions), 3));
  geometry.setIndex(new BufferAttribute(Uint32Array.from(triangles), 1));
  return new MeshBVH(geometry);
};

const askew = new Vector3(0.123, 0.456, 0.881).normalize();

/** Whether a point lies in a closed mesh: hits of a ray from it, counted. */
export const isInside = (mesh: Mesh, at: Vec3): boolean =>
  treeOf(mesh).raycast(new Ray(new Vector3(...at), askew), DoubleSide).length % 2 === 1;

/** mm by which the corners of a mesh stand out of a body at most; a general library's distances and rays. */
export function standsOut(inner: Mesh, outer: Mesh): number {
  const tree = treeOf(outer);
  let most = 0;
  const { positions: p } = inner;
  for (let i = 0; i < p.length; i += 3) {
    const at = new Vector3(p[i]!, p[i + 1]!, p[i + 2]!);
    const { distance } = tree.closestPointToPoint(at)!;
    if (distance <= most) continue;
    if (tree.raycast(new Ray(at, askew), DoubleSide).length % 2 === 0) most = distance;
  }
  return most;
}

/** mm by which part and casting are told to be off what they should be, where stock or wear could not be put on. */
const toldOff = ({ findings }: MadePart): number =>
  findings
    .filter((f) => f.code === 'stock-off')
    .reduce((sum, f) => sum + Number(/by ([\d.]+) mm at most/.exec(f.message)?.[1] ?? Number.NaN), 0);

/** What is wrong with what came of a part; empty where it is sound, or refused in clear words. */
export function faultsOf(tried: Tried, any: AnyMeshPart): string[] {
  const { outcome, volume } = tried;
  const faults: string[] = [];
  if (!outcome.ok) {
    const stops = outcome.findings.filter((f) => f.severity === 'stop');
    if (stops.length === 0) faults.push('refused without a stop');
    for (const { code, message, remedy } of stops) {
      if (code === 'shape-not-sound') faults.push(`not sound: ${message}`);
      if (accidents.test(message + remedy)) faults.push(`accident: ${message} ${remedy}`);
    }
    return faults;
  }
  const { made } = outcome;
  for (const state of meshStates) {
    const { problems, components } = inspectMesh(made.meshes[state]);
    if (problems.length > 0) faults.push(`${state}: ${problems.join('; ')}`);
    if (components !== 1) faults.push(`${state}: ${components} components`);
  }
  const part = inspectMesh(made.meshes.part).volume;
  const worn = any.wear?.some((w) => w.gets > 0) ?? false;
  if (!worn && Math.abs(part / volume - 1) > 1e-3) faults.push(`volume ${part} for ${volume}`);
  if (worn && part < volume * (1 - 1e-3)) faults.push(`worn volume ${part} for ${volume}`);
  const out = standsOut(made.meshes.part, made.meshes.casting);
  if (out > 0.02 + toldOff(made)) faults.push(`the part stands ${out} mm out of its casting`);
  for (const f of made.findings)
    if (accidents.test(f.message + f.remedy)) faults.push(`accident: ${f.message} ${f.remedy}`);
  return faults;
}
