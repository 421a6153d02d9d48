import type { MeshHealth, MeshRemark } from '../../core/mesh/health/index.js';
import type { MeshFile } from '../../core/mesh/mesh-file.js';
import { repairMesh } from '../../core/mesh/repair/index.js';
import {
  boxSize,
  checkSize,
  guessUnit,
  type MeshUnit,
  millimetresPer,
  scaleExactMesh,
  scaleTo,
} from '../../core/mesh/size/index.js';
import { type Finding, note, stop, warn } from '../../core/part/finding.js';
import { measureBounds } from '../../core/solid/mesh-bounds.js';
import type { Kernel, Mesh } from '../../core/solid/types.js';
import { formatNumber } from '../../core/units/index.js';
import type { MeshParameters } from './parameters.js';

/** The mesh as drawn, in mm, mended; or why it cannot be had. */
export type SourceMesh =
  | { readonly ok: true; readonly mesh: Mesh; readonly findings: readonly Finding[] }
  /** `factor`: mm in one unit of the file, as far as that is known. */
  | { readonly ok: false; readonly findings: readonly Finding[]; readonly factor: number };

type SourceParameters = Pick<
  MeshParameters,
  'file' | 'fileUnit' | 'scaleTo' | 'scaleAlong' | 'closeHoles' | 'fillCavities'
>;

/** Brings what the file holds to millimetres, to the length that is known, and to one sound solid. */
export function readSource(p: SourceParameters, file: MeshFile, kernel: Kernel): SourceMesh {
  const sized = sizeOf(p, file);
  if ('findings' in sized) return { ok: false, findings: sized.findings, factor: file.unit ?? 1 };
  const scaled = scaleExactMesh(file.mesh, sized.factor);
  const far = farAway(scaled.positions);
  if (far) return { ok: false, findings: [far], factor: sized.factor };
  const repair = repairMesh(scaled, kernel, {
    cavities: p.fillCavities ? 'fill' : 'refuse',
    ...(p.closeHoles === undefined ? {} : { widestHole: p.closeHoles }),
  });
  const told = sized.told.map((text) =>
    note('mesh-size', text, 'Check one size against the drawing.', 'fileUnit'),
  );
  const done = repair.done.map((r) =>
    note('mesh-mended', r.message, 'Look at the picture of the finished part.', 'file'),
  );
  if (!repair.ok)
    return {
      ok: false,
      findings: [...repair.faults.map(faultFinding), ...told, ...done],
      factor: sized.factor,
    };
  return { ok: true, mesh: repair.mesh, findings: [...told, ...done] };
}

/** Places so far off, in sizes of the part, leave too little of single precision for the part itself. */
const farthest = 1000;

function farAway(positions: Float64Array): Finding | null {
  const box = measureBounds({ positions });
  if (!box) return null;
  const size = Math.max(...box.max.map((high, k) => high - box.min[k]!));
  const off = Math.max(...box.min.map(Math.abs), ...box.max.map(Math.abs));
  return off <= farthest * size
    ? null
    : stop(
        'far-from-origin',
        `the mesh lies ${formatNumber(off, { digits: 0 })} mm from the origin of its file, ${formatNumber(off / size, { digits: 0 })} times its own size: its corners are no longer told apart well`,
        'move it to the origin in the program it comes from',
        'file',
      );
}

interface Sized {
  /** mm in one unit of the file. */
  readonly factor: number;
  readonly told: readonly string[];
}

function sizeOf(p: SourceParameters, file: MeshFile): Sized | { readonly findings: readonly Finding[] } {
  const refuse = (finding: Finding) => ({ findings: [finding] });
  if (p.scaleTo !== undefined) {
    const scaling = scaleTo(file.mesh, p.scaleTo, p.scaleAlong);
    return scaling.ok
      ? { factor: scaling.factor, told: [scaling.reason] }
      : refuse(stop(scaling.fault.code, scaling.fault.message, 'Check the length that is known.', 'scaleTo'));
  }
  const size = boxSize(file.mesh);
  if (file.unit !== null && p.fileUnit !== 'stated' && millimetresPer[p.fileUnit as MeshUnit] !== file.unit)
    return refuse(
      stop(
        'unit-stated',
        `the file says what its unit is, ${file.unit} mm, and the job says ${p.fileUnit}`,
        'leave the unit out, or scale to a length that is known',
        'fileUnit',
        { fileUnit: 'stated' },
      ),
    );
  const factor = file.unit ?? (p.fileUnit === 'stated' ? null : millimetresPer[p.fileUnit as MeshUnit]);
  if (factor === null) {
    const { best, reason } = guessUnit(size);
    return refuse(
      stop(
        'no-unit',
        reason,
        best
          ? `say so: fileUnit: ${best.unit} (--file-unit ${best.unit})`
          : 'say what the unit is with fileUnit, or give scaleTo',
        'fileUnit',
        ...(best ? [{ fileUnit: best.unit }] : []),
      ),
    );
  }
  const absurd = checkSize([size[0] * factor, size[1] * factor, size[2] * factor]);
  return absurd
    ? refuse(
        stop(absurd.code, absurd.message, 'Give the unit the file was drawn in, or scaleTo.', 'fileUnit'),
      )
    : { factor, told: [] };
}

function faultFinding({ code, message }: MeshRemark): Finding {
  if (code.includes('cavit'))
    return stop(
      code,
      message,
      'Let it be filled (fillCavities), or open it to the outside.',
      'fillCavities',
      {
        fillCavities: true,
      },
    );
  if (code === 'open-hole' || code === 'open-sheet')
    return stop(
      code,
      message,
      'Where a flat hole is meant closed, say how wide such are with closeHoles (--close-holes); or mend it in the program it comes from.',
      'closeHoles',
    );
  return stop(
    code,
    message,
    'Mend it in the program it comes from: only what is certain is mended here.',
    'file',
  );
}

/** What a sound mesh would still be hard to cast with. */
export const cautionFinding = ({ code, message }: MeshRemark): Finding =>
  warn(code, message, 'Thicken it, blunt it, or leave it off.', 'file');

/** A sound mesh of several bodies, not counting specks, is refused: metal that enters one does not get to the others. */
export function bodyFindings({
  shells,
  cautions,
}: Pick<MeshHealth, 'shells' | 'cautions'>): readonly Finding[] {
  const specks = cautions.find(({ code }) => code === 'specks')?.count ?? 0;
  const bodies = shells
    .filter(({ kind }) => kind === 'body')
    .toSorted((a, b) => b.volume - a.volume)
    .slice(0, -specks || undefined);
  const least = bodies.at(-1);
  if (least === undefined || bodies.length === 1) return [];
  const { min, max } = least.box;
  const at = min.map((v, k) => formatNumber((v + max[k]!) / 2, { digits: 1 })).join(', ');
  return [
    stop(
      'several-bodies',
      `the mesh is ${bodies.length} bodies that do not touch; the least, ${formatNumber(least.volume, { digits: 1 })} mm³, lies near ${at} mm: metal that enters one does not get to the others`,
      'let them overlap where they are meant to be one, leave out what is none of the part, or make a part of each',
      'file',
    ),
  ];
}
