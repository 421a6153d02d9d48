import { formatPlanSvg } from '../files/plan-svg.js';
import { writeCheckedStl } from '../files/stl.js';
import { write3mf } from '../files/three-mf.js';
import { joinMeshes, type PlacedMesh, plateMeshes } from '../plate/place.js';
import { formatFigure, formatSheet } from '../report/drawing/index.js';
import { gatingColour, plasticColour } from '../report/render/colour.js';
import { renderPreview } from '../report/render/index.js';
import { formatTraveller } from '../report/traveller.js';
import type { LengthUnit, TemperatureUnit } from '../units/index.js';
import type { FrozenPaper } from './freeze-job.js';
import type { JobResult } from './make-job.js';
import { type MadePart, meshStates } from './make-part.js';
import {
  freezeFieldFile,
  freezeFiles,
  partFiles,
  plateFiles,
  summaryFile,
  travellerFile,
} from './output-names.js';
import type { PlateSummary } from './summary.js';

export interface JobFile {
  /** Relative to the output folder, with forward slashes. */
  readonly path: string;
  readonly bytes: Uint8Array;
}

export interface PaperUnits {
  readonly lengthUnit: LengthUnit;
  readonly degrees: TemperatureUnit;
}

const text = (value: string): Uint8Array => new TextEncoder().encode(value);

/**
 * Every file of a job, made one at a time so that only one is held. Meshes are read back from their bytes and
 * inspected; a file that is not sound throws. `summary.json` comes last: a folder that has it is whole.
 */
export function* jobFiles(result: JobResult, units: PaperUnits): Generator<JobFile> {
  const { summary, parts, frozen } = result;
  const pictures: Record<string, Uint8Array> = {};
  const drawings: Record<string, string> = {};
  for (const told of summary.parts) {
    const part = parts.get(told.name) as MadePart;
    const picture = pictureOf(part);
    pictures[told.name] = picture;
    drawings[told.name] = formatFigure(told, part.drawing, units);
    yield* filesOfPart(part, picture);
    yield { path: partFiles(told.name).drawing, bytes: text(formatSheet(told, part.drawing, units)) };
    yield* filesOfFreeze(told.name, frozen.get(told.name));
  }
  const plans: Record<string, string> = {};
  for (const plate of summary.plates) {
    const plan = planOf(plate, result);
    plans[plate.name] = plan;
    yield* filesOfPlate(plate, result, plan);
  }
  yield {
    path: travellerFile,
    bytes: text(formatTraveller(summary, pictures, plans, units, drawings, Object.fromEntries(frozen))),
  };
  yield { path: summaryFile, bytes: text(`${JSON.stringify(summary, null, 2)}\n`) };
}

function* filesOfFreeze(name: string, paper: FrozenPaper | undefined): Generator<JobFile> {
  if (!paper) return;
  const paths = freezeFiles(name);
  yield { path: paths.freezeSection, bytes: text(paper.section) };
  yield { path: paths.freezeSurface, bytes: text(paper.surface) };
  if (paper.fields) yield { path: freezeFieldFile(name), bytes: paper.fields };
}

/** Pattern and gating in two tints; they overlap where one is sunk into the other, which does not show. */
function pictureOf({ standing, gatingMesh }: MadePart): Uint8Array {
  const start = standing.triangles.length / 3;
  return renderPreview(joinMeshes([standing, gatingMesh]), {
    colour: plasticColour,
    groups: [{ start, count: gatingMesh.triangles.length / 3, colour: gatingColour }],
  });
}

function* filesOfPart(part: MadePart, picture: Uint8Array): Generator<JobFile> {
  const { name } = part.request;
  const paths = partFiles(name);
  for (const state of meshStates) {
    yield { path: paths[state], bytes: writeCheckedStl(part.meshes[state], `${name}, ${state}`) };
  }
  yield { path: paths.gated3mf, bytes: write3mf([{ name, mesh: part.meshes.gated }], { title: name }) };
  yield { path: paths.preview, bytes: picture };
}

function* filesOfPlate(plate: PlateSummary, { summary, parts }: JobResult, plan: string): Generator<JobFile> {
  const paths = plateFiles(plate.name);
  const gated = new Map([...parts].map(([name, part]) => [name, part.meshes.gated]));
  const placed = plateMeshes(plate.placements, gated);
  yield { path: paths.stl, bytes: writeCheckedStl(joinMeshes(placed.map((p) => p.mesh)), plate.name) };
  const names = [...new Set(plate.placements.map((p) => p.name))];
  yield {
    path: paths.threeMf,
    bytes: write3mf(
      names.map((name) => ({
        name,
        mesh: (parts.get(name) as MadePart).meshes.gated,
        placements: placed.filter((p: PlacedMesh) => p.name === name).map((p) => p.placing),
      })),
      { title: `${summary.job.title}, ${plate.name}` },
    ),
  };
  yield { path: paths.plan, bytes: text(plan) };
}

const planOf = (plate: PlateSummary, { summary, parts }: JobResult): string =>
  formatPlanSvg({
    title: `${summary.job.title}, ${plate.name}`,
    bed: summary.bed,
    patterns: plate.placements.map((placement) => ({
      placement,
      outlines: (parts.get(placement.name) as MadePart).silhouette,
    })),
  });
