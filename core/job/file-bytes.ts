/** What each file of a job holds. Meshes are read back from their bytes and inspected; one that is not sound throws. */
import { formatPlanSvg } from '../files/plan-svg.js';
import { writeCheckedStl } from '../files/stl.js';
import { write3mf } from '../files/three-mf.js';
import { joinMeshes, type PlacedMesh, plateMeshes } from '../plate/place.js';
import { gatingColour, plasticColour } from '../report/render/colour.js';
import { renderPreview } from '../report/render/index.js';
import type { Mesh } from '../solid/types.js';
import type { LengthUnit } from '../units/index.js';
import type { MadePart, MeshState, PartRecord } from './make-part.js';
import type { PlateSummary, Summary } from './summary.js';

export const stlOf = (name: string, state: MeshState, mesh: Mesh): Uint8Array =>
  writeCheckedStl(mesh, `${name}, ${state}`);

export const gated3mfOf = (name: string, gated: Mesh): Uint8Array =>
  write3mf([{ name, mesh: gated }], { title: name });

/** Pattern and gating in two tints; they overlap where one is sunk into the other, which does not show. */
export function pictureOf({ standing, gatingMesh }: Pick<MadePart, 'standing' | 'gatingMesh'>): Uint8Array {
  const start = standing.triangles.length / 3;
  return renderPreview(joinMeshes([standing, gatingMesh]), {
    colour: plasticColour,
    groups: [{ start, count: gatingMesh.triangles.length / 3, colour: gatingColour }],
  });
}

/** A plate's two files of meshes. */
export function plateMeshFiles(
  plate: PlateSummary,
  jobTitle: string,
  gatedOf: (name: string) => Mesh,
): { readonly stl: () => Uint8Array; readonly threeMf: () => Uint8Array } {
  const gated = new Map(plate.placements.map(({ name }) => [name, gatedOf(name)]));
  const placed = plateMeshes(plate.placements, gated);
  const objects = [...gated].map(([name, mesh]) => ({
    name,
    mesh,
    placements: placed.filter((p: PlacedMesh) => p.name === name).map((p) => p.placing),
  }));
  return {
    stl: () => writeCheckedStl(joinMeshes(placed.map((p) => p.mesh)), plate.name),
    threeMf: () => write3mf(objects, { title: `${jobTitle}, ${plate.name}` }),
  };
}

export const planOf = (
  plate: PlateSummary,
  { job, bed }: Pick<Summary, 'job' | 'bed'>,
  partOf: (name: string) => Pick<PartRecord, 'silhouette' | 'footprint'>,
  lengthUnit: LengthUnit,
): string =>
  formatPlanSvg({
    title: [job.title, plate.name, ...(plate.batch ? [plate.batch] : [])].join(', '),
    bed,
    patterns: plate.placements.map((placement) => {
      const { silhouette, footprint } = partOf(placement.name);
      return { placement, outlines: silhouette, foot: footprint };
    }),
    filled: plate.filled,
    lengthUnit,
  });
