import { examineMesh } from '../../core/mesh/health/index.js';
import type { MeshFile, MeshFormat } from '../../core/mesh/mesh-file.js';
import { boxSize, guessUnit, scaleExactMesh } from '../../core/mesh/size/index.js';
import { findSurfaces, type MeshSurface } from '../../core/mesh/surfaces/index.js';
import { type Finding, note, warn } from '../../core/part/finding.js';
import type { Kernel, Vec3 } from '../../core/solid/types.js';
import type { LengthUnit } from '../../core/units/index.js';
import type { MeshParameters } from './parameters.js';
import { bodyFindings, cautionFinding, readSource } from './source.js';
import { asDrawn, waysUp } from './stand-up.js';

/** What a person wants to know of a mesh before a part is made of it: mm, mm², mm³, as drawn. Plain data. */
export interface MeshSurvey {
  readonly format: MeshFormat;
  readonly triangles: number;
  readonly size: Vec3;
  /** Of the mended mesh; null where it cannot be mended. */
  readonly volume: number | null;
  /** What keeps it from being a part (`stop`), what was mended, what is hard to cast. */
  readonly findings: readonly Finding[];
  readonly surfaces: readonly SurveyedSurface[];
  readonly ways: readonly {
    readonly name: string;
    readonly score: number;
    readonly reasons: readonly string[];
  }[];
  /** Where metal would enter, for each of those ways; null where no gate stands. */
  readonly gates: readonly (SurveyedGate | null)[];
}

export interface SurveyedSurface {
  /** As marks name it. */
  readonly name: string;
  readonly kind: 'plane' | 'cylinder';
  readonly area: number;
  readonly centre: Vec3;
  /** Of a cylinder. */
  readonly diameter?: number;
  /** Of a cylinder, along its axis. */
  readonly length?: number;
}

export interface SurveyedGate {
  readonly at: Vec3;
  readonly diameter: number;
}

type SurveySettings = Pick<
  MeshParameters,
  'file' | 'fileUnit' | 'scaleTo' | 'scaleAlong' | 'closeHoles' | 'fillCavities'
>;

/** Looks at a mesh as the part of it would be made; a unit that nobody states is guessed. */
export function surveyMesh(
  settings: SurveySettings,
  file: MeshFile,
  kernel: Kernel,
  unit: LengthUnit,
): MeshSurvey {
  const { fileUnit, guessed } = unitOf(settings, file);
  const taken = { ...settings, fileUnit };
  const source = kernel.scope(() => readSource(taken, file, kernel));
  const triangles = file.mesh.triangles.length / 3;
  if (!source.ok) {
    const { faults } = examineMesh(scaleExactMesh(file.mesh, source.factor));
    const known = new Set(source.findings.map((f) => f.code));
    const besides = faults
      .filter((f) => !known.has(f.code))
      .map((f) => warn(f.code, f.message, 'Mend it in the program it comes from.', 'file'));
    return {
      format: file.format,
      triangles,
      size: sized(boxSize(file.mesh), source.factor),
      volume: null,
      findings: [...guessed, ...source.findings, ...besides],
      surfaces: [],
      ways: [],
      gates: [],
    };
  }
  const { mesh } = source;
  const health = examineMesh(mesh);
  const ways = waysUp(mesh, new Uint8Array(mesh.triangles.length / 3));
  return {
    format: file.format,
    triangles,
    size: boxSize(mesh),
    volume: health.volume,
    findings: [
      ...bodyFindings(health),
      ...guessed,
      ...source.findings,
      ...health.cautions.map(cautionFinding),
    ],
    surfaces: findSurfaces(mesh, unit).map(surveyed),
    ways: ways.map(({ name, score, reasons }) => ({ name, score, reasons })),
    gates: ways.map(({ turned, gate }) =>
      turned && gate ? { at: asDrawn(turned, gate.at), diameter: gate.outerDiameter } : null,
    ),
  };
}

const sized = ([x, y, z]: Vec3, factor: number): Vec3 => [x * factor, y * factor, z * factor];

function unitOf(
  { fileUnit, scaleTo }: SurveySettings,
  { unit, mesh }: MeshFile,
): { readonly fileUnit: MeshParameters['fileUnit']; readonly guessed: readonly Finding[] } {
  if (fileUnit !== 'stated' || unit !== null || scaleTo !== undefined) return { fileUnit, guessed: [] };
  const { best, reason } = guessUnit(boxSize(mesh));
  const taken = best?.unit ?? 'mm';
  return {
    fileUnit: taken,
    guessed: [
      note(
        'unit-guessed',
        reason,
        best
          ? `To make a part of it, say so: --file-unit ${taken}.`
          : `Say so with --file-unit or --scale-to; what follows takes it as ${taken}.`,
        'fileUnit',
      ),
    ],
  };
}

function surveyed(surface: MeshSurface): SurveyedSurface {
  const { name, kind, area, centre } = surface;
  if (surface.kind === 'plane') return { name, kind, area, centre };
  const [from, to] = surface.extent;
  return { name, kind, area, centre, diameter: 2 * surface.radius, length: to - from };
}
