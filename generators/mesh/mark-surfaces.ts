import { type MarkNote, type MeshSurface, markTriangles, readMarks } from '../../core/mesh/surfaces/index.js';
import type { SurfaceNote } from '../../core/part/contract.js';
import { type Finding, note, stop, warn } from '../../core/part/finding.js';
import type { SurfaceClass } from '../../core/part/stock.js';
import type { Mesh } from '../../core/solid/types.js';
import { formatNumber, type LengthUnit } from '../../core/units/index.js';
import type { MeshParameters } from './parameters.js';

/** What every triangle carries; or what is wrong with the marks. */
export type MarkedSurfaces =
  | {
      readonly ok: true;
      readonly classes: readonly SurfaceClass[];
      readonly own: Float64Array;
      readonly wear: Float64Array;
      readonly notes: readonly SurfaceNote[];
      readonly findings: readonly Finding[];
    }
  | { readonly ok: false; readonly findings: readonly Finding[] };

/** Stock and wear by the marks of a part, on a mesh as drawn. */
export function markSurfaces(
  p: Pick<MeshParameters, 'marks' | 'wear' | 'measuredFromCasting'>,
  mesh: Mesh,
  surfaces: readonly MeshSurface[],
  unit: LengthUnit,
): MarkedSurfaces {
  const stock = apply(p.marks, 'marks', mesh, surfaces, unit);
  const worn = apply(p.wear, 'wear', mesh, surfaces, unit);
  const findings = [...stock.findings, ...worn.findings, ...wornFindings(p, worn.notes, unit)];
  if (!stock.ok || !worn.ok || findings.some((f) => f.severity === 'stop')) return { ok: false, findings };
  return {
    ok: true,
    classes: stock.classes,
    own: stock.amounts,
    wear: worn.amounts.map((amount) => (Number.isNaN(amount) ? 0 : amount)),
    notes: notesOf(stock),
    findings,
  };
}

interface Applied {
  readonly ok: boolean;
  readonly classes: readonly SurfaceClass[];
  readonly amounts: Float64Array;
  readonly notes: readonly MarkNote[];
  readonly findings: readonly Finding[];
}

function apply(
  text: string,
  field: 'marks' | 'wear',
  mesh: Mesh,
  surfaces: readonly MeshSurface[],
  unit: LengthUnit,
): Applied {
  const count = mesh.triangles.length / 3;
  const plain = {
    classes: new Array<SurfaceClass>(count).fill('skin'),
    amounts: new Float64Array(count).fill(NaN),
  };
  if (text.trim() === '') return { ok: true, ...plain, notes: [], findings: [] };
  const refuse = (message: string, remedy: string): Applied => ({
    ok: false,
    ...plain,
    notes: [],
    findings: [stop('mark-unclear', message, remedy, field)],
  });
  const read = readMarks(text, unit, field === 'wear' ? 'amounts' : 'stock');
  if (!read.ok)
    return refuse(`${read.problem.message} (${field}, character ${read.problem.at})`, read.problem.remedy);
  const marked = markTriangles(mesh, surfaces, read.marks, unit);
  if (!marked.ok) return refuse(marked.problem.message, marked.problem.remedy);
  const hidden = marked.notes.filter((n) => n.kept === 0);
  return {
    ...marked,
    findings: hidden.map((n) =>
      warn(
        'mark-hidden',
        `"${n.mark}" has no effect: later marks take all of it`,
        'put it after them',
        field,
      ),
    ),
  };
}

function wornFindings(
  { measuredFromCasting, wear }: Pick<MeshParameters, 'wear' | 'measuredFromCasting'>,
  notes: readonly MarkNote[],
  unit: LengthUnit,
): readonly Finding[] {
  if (!measuredFromCasting)
    return wear.trim() === ''
      ? []
      : [
          stop(
            'wear-without-casting',
            'wear is put back on the scan of a worn casting only',
            'say measuredFromCasting, or leave wear out',
            'wear',
            { measuredFromCasting: true },
          ),
        ];
  const told = notes.map(({ mark, area }) => `${mark}, ${formatNumber(area / 100, { digits: 2 })} cm²`);
  const worn = notes.filter((n) => typeof n.gets === 'number' && n.gets < 0);
  return [
    note(
      'measured-from-casting',
      `The mesh is taken as finished metal, cold: stock and growth are put on it as on a drawing${
        told.length > 0 ? `, and wear put back first: ${told.join('; ')} (${unit})` : '; no wear is put back'
      }`,
      told.length > 0
        ? 'Check them against the part it runs with.'
        : 'Where it has worn, say so with wear, by surface.',
      'measuredFromCasting',
    ),
    ...worn.map((n) =>
      stop(
        'wear-inward',
        `"${n.mark}" takes metal off: wear is what is missing`,
        'give it as more than 0',
        'wear',
      ),
    ),
  ];
}

/** For the papers: what is marked, and that the rest is skin. */
function notesOf({ notes }: Applied): readonly SurfaceNote[] {
  const told = notes
    .filter((n) => n.kept > 0)
    .map(({ mark, gets, surfaces }): SurfaceNote => {
      const [place = mark] = mark.split(' = ');
      const of = surfaces.length > 1 ? `${place} (${surfaces.length})` : place;
      return typeof gets === 'number'
        ? { surfaceClass: 'skin', name: of, amount: gets }
        : { surfaceClass: gets, name: of };
    });
  return [...told, { surfaceClass: 'skin', name: told.length === 0 ? 'all over' : 'all the rest' }];
}
