import type { BuiltPart } from '../../part/contract.js';
import type {
  DataNote,
  DimensionNote,
  DrawingNotes,
  DrawnLine,
  Facing,
  LineKind,
  ViewNote,
} from '../../part/drawing-notes.js';
import { SolidError } from '../../solid/errors.js';
import type { Box, Kernel, Mesh, Solid, Vec2, Vec3 } from '../../solid/types.js';
import { findMeshEdges, type MeshEdges } from './mesh-edges.js';
import { type Cell, mainFrame, onView, type ViewFrame, viewBeside } from './view-frame.js';
import { visibleLines } from './visible-lines.js';

/** A line of a view, mm of the part. */
export type Stroke =
  | { readonly kind: LineKind; readonly points: readonly Vec2[]; readonly closed?: boolean }
  | {
      readonly kind: LineKind;
      readonly centre: Vec2;
      readonly radius: number;
      readonly from?: number;
      readonly to?: number;
    };

/** Edges of areas cut, in any order and direction. */
export type Edge = readonly [Vec2, Vec2];

/** Where another view's cutting plane crosses this view. */
export interface CutMark {
  readonly letter: string;
  /** A point on the plane, and unit directions along it and as the section is looked at. */
  readonly at: Vec2;
  readonly along: Vec2;
  readonly look: Vec2;
}

/** A view with all its lines, before it has a scale. Plain data. */
export interface DrawnView {
  readonly cell: Cell;
  readonly frame: ViewFrame;
  readonly strokes: readonly Stroke[];
  readonly hatched: readonly Edge[];
  /** Width and height of the shape, mm of the part. */
  readonly size: Vec2;
  /** Letter of its cutting plane. */
  readonly letter?: string;
  readonly cuts: readonly CutMark[];
  readonly dimensions: readonly DimensionNote[];
}

export interface DrawnPart {
  readonly views: readonly DrawnView[];
  readonly dataTitle: string;
  readonly data: readonly DataNote[];
}

/**
 * Draws the views of a finished part, at no scale yet. Only views without `lines` of their own look at the solid.
 * Call it inside the scope that the solid lives in.
 * @param tolerance chord tolerance of the solid's mesh, mm
 */
export function drawPart(
  part: Pick<BuiltPart, 'solid' | 'drawing'>,
  kernel: Kernel,
  tolerance: number,
): DrawnPart {
  const notes = part.drawing ?? usualNotes(part.solid.bounds());
  const [first, ...others] = notes.views as [ViewNote, ...ViewNote[]];
  const main = mainFrame(first.from, first.up);
  const placed = [
    { note: first, frame: main, cell: { column: 0, row: 0 } },
    ...others.map((note) => ({ note, ...viewBeside(main, note.from) })),
  ];
  const letters = 'ABCDEFGH';
  const sections = placed.filter(({ note }) => note.cut !== undefined);
  const found = new Map<Mesh, MeshEdges>();
  const edgesOf = (mesh: Mesh): MeshEdges => {
    const edges = found.get(mesh) ?? findMeshEdges(mesh, tolerance);
    found.set(mesh, edges);
    return edges;
  };
  const views = placed.map((view): DrawnView => {
    const { note, frame, cell } = view;
    const letter = letters[sections.indexOf(view)];
    const lines = note.lines
      ? ownLines(note.lines, note, frame)
      : seenLines(part.solid, note, frame, kernel, edgesOf);
    return {
      cell,
      frame,
      ...lines,
      size: sizeOf(lines.strokes),
      ...(letter === undefined ? {} : { letter }),
      cuts: sections.flatMap((section, i) =>
        placed.find((other) => isEdgeOn(other.frame, section.frame)) === view
          ? [cutMark(section.note, section.frame, frame, letters[i] as string)]
          : [],
      ),
      dimensions: note.dimensions ?? [],
    };
  });
  return { views, dataTitle: notes.dataTitle ?? 'Sizes', data: notes.data ?? [] };
}

const strokeOf = (line: DrawnLine, frame: ViewFrame): Stroke =>
  'points' in line
    ? { ...line, points: line.points.map((p) => onView(frame, p)) }
    : { ...line, centre: onView(frame, line.centre) };

/** Width and height of what is thickly drawn. */
function sizeOf(strokes: readonly Stroke[]): Vec2 {
  let [u0, u1, v0, v1] = [Infinity, -Infinity, Infinity, -Infinity];
  const reach = ([u, v]: Vec2, by = 0): void => {
    [u0, u1] = [Math.min(u0, u - by), Math.max(u1, u + by)];
    [v0, v1] = [Math.min(v0, v - by), Math.max(v1, v + by)];
  };
  for (const stroke of strokes) {
    if (stroke.kind !== 'visible') continue;
    if ('points' in stroke) for (const p of stroke.points) reach(p);
    else reach(stroke.centre, stroke.radius);
  }
  return [Math.max(0, u1 - u0), Math.max(0, v1 - v0)];
}

function ownLines(lines: readonly DrawnLine[], note: ViewNote, frame: ViewFrame) {
  return {
    strokes: [...lines, ...(note.extra ?? [])].map((line) => strokeOf(line, frame)),
    hatched: (note.hatched ?? []).flatMap((polygon) => {
      const points = polygon.map((p) => onView(frame, p));
      return points.map((p, i): Edge => [p, points[(i + 1) % points.length] as Vec2]);
    }),
  };
}

function seenLines(
  solid: Solid,
  note: ViewNote,
  frame: ViewFrame,
  kernel: Kernel,
  edgesOf: (mesh: Mesh) => MeshEdges,
) {
  const { mesh, cut } = shownOf(solid, note, kernel);
  const lines = visibleLines(mesh, edgesOf(mesh), frame);
  return {
    strokes: [
      ...lines.map((points): Stroke => ({ kind: 'visible', points })),
      ...(note.extra ?? []).map((line) => strokeOf(line, frame)),
    ],
    hatched: cut === undefined ? [] : cutEdges(mesh, note.from, cut, frame),
  };
}

/** mm that a cutting plane is moved, in turn, where it grazes corners so that what is left cannot be carried. */
const asides = [0, 0.003, -0.003, 0.011, -0.011, 0.04, -0.04];

/** What a view shows; a solid that no plane near its own can cut is shown whole: no picture refuses a part. */
function shownOf(
  solid: Solid,
  { from, cut }: Pick<ViewNote, 'from' | 'cut'>,
  kernel: Kernel,
): { readonly mesh: Mesh; readonly cut?: number } {
  if (cut === undefined) return { mesh: solid.mesh() };
  for (const aside of asides)
    try {
      return { mesh: cutSolid(solid, from, cut + aside, kernel).mesh(), cut: cut + aside };
    } catch (error) {
      if (!(error instanceof SolidError)) throw error;
    }
  return { mesh: solid.mesh() };
}

const axisOf = (from: Facing): 0 | 1 | 2 => ({ x: 0, y: 1, z: 2 })[from[1] as 'x' | 'y' | 'z'] as 0 | 1 | 2;

/** What is left behind the plane; the whole solid where the plane misses it. */
function cutSolid(solid: Solid, from: Facing, cut: number, kernel: Kernel): Solid {
  const axis = axisOf(from);
  const box = solid.bounds();
  if (cut <= box.min[axis] || cut >= box.max[axis]) return solid;
  const min = box.min.map((v) => v - 1) as [number, number, number];
  const max = box.max.map((v) => v + 1) as [number, number, number];
  if (from[0] === '+') min[axis] = cut;
  else max[axis] = cut;
  return solid.subtract(kernel.box(min, max));
}

/** Outline edges of the faces that lie in the cutting plane. */
function cutEdges({ positions: p, triangles: t }: Mesh, from: Facing, cut: number, frame: ViewFrame): Edge[] {
  const axis = axisOf(from);
  const open = new Map<string, Edge>();
  const at = (v: number): Vec3 => [p[3 * v]!, p[3 * v + 1]!, p[3 * v + 2]!];
  for (let i = 0; i < t.length; i += 3) {
    const corners = [t[i]!, t[i + 1]!, t[i + 2]!] as const;
    if (corners.some((v) => Math.abs(p[3 * v + axis]! - cut) > 1e-4)) continue;
    corners.forEach((a, k) => {
      const b = corners[(k + 1) % 3] as number;
      if (!open.delete(`${b} ${a}`)) open.set(`${a} ${b}`, [onView(frame, at(a)), onView(frame, at(b))]);
    });
  }
  return [...open.values()];
}

const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const isEdgeOn = (view: ViewFrame, section: ViewFrame): boolean => dot(view.toward, section.toward) === 0;

function cutMark(note: ViewNote, section: ViewFrame, view: ViewFrame, letter: string): CutMark {
  const plane: [number, number, number] = [0, 0, 0];
  plane[axisOf(note.from)] = note.cut as number;
  const look = onView(view, section.toward);
  return {
    letter,
    at: onView(view, plane),
    along: [Math.abs(look[1]), Math.abs(look[0])],
    look: [0 - look[0], 0 - look[1]],
  };
}

/** The views of a part that says nothing: from the front, from above, and cut through its middle, with overall sizes. */
function usualNotes({ min, max }: Box): DrawingNotes {
  const size = [0, 1, 2].map((k) => (max[k] as number) - (min[k] as number)) as [number, number, number];
  return {
    views: [
      {
        from: '-y',
        dimensions: [
          { of: size[0], from: min, to: [max[0], min[1], min[2]], side: 'above' },
          { of: size[2], from: min, to: [min[0], min[1], max[2]], side: 'left' },
        ],
      },
      {
        from: '+z',
        dimensions: [{ of: size[1], from: min, to: [min[0], max[1], min[2]], side: 'left' }],
      },
      { from: '-x', cut: (min[0] + max[0]) / 2 },
    ],
  };
}
