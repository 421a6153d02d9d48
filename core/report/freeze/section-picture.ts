import { type CastFields, cellRole } from '../../freeze/cast-fields.js';
import { cellMiddle } from '../../freeze/grid.js';
import type { FreezePlan } from '../../freeze/plans.js';
import { maths } from '../../maths/maths.js';
import { measureBounds } from '../../solid/mesh-bounds.js';
import type { Box, Mesh, Vec2, Vec3 } from '../../solid/types.js';
import { fontFamily } from '../drawing/text-width.js';
import type { View } from '../format.js';
import { cutMesh, onPlane, type UprightPlane } from './cut-mesh.js';
import { drawKey, drawLegend, drawScaleBar, legendHeight } from './legend.js';
import { drawMarks, type PictureMark } from './marks.js';
import { letteredThin, numberedLate } from './places.js';
import { heldAt, sampleMetal } from './sample-field.js';
import { seamsOf } from './seams.js';
import { rasterOf } from './section-raster.js';
import { solidScale } from './value-scale.js';

/** What the pictures of one mould are made of; all in the pattern's coordinates. Nothing names the part: equal ones share them. */
export interface FreezeSubject {
  readonly gated: Mesh;
  /** The patterns of the mould without gating: where they end is drawn finely. */
  readonly standing?: Mesh;
  readonly fields: CastFields;
  readonly plan: Pick<FreezePlan, 'latePlaces' | 'fill' | 'cell'>;
  /** Where the sprue stands, mm. */
  readonly axis: Vec2;
}

/** Of either picture, mm on paper: two of them stand side by side. */
export const pictureWidth = 92;
const tallest = 76;
const edge = 1;
/** Mould shown about the metal, mm on paper. */
const rim = 4;
const mouldTint = '#eeeae3';

export const number = (v: number): string => String(Math.round(v * 100) / 100 + 0);

/** Of the castings' larger side in plan: what lies nearer to the sprue's axis is under the sprue. */
const under = 0.12;

/**
 * Through the sprue and the first late place, else the worst thin one, else where the castings are solid last; for one
 * under the sprue, through it along the castings' longer side.
 */
export function planeOf({ plan, axis, fields, gated }: FreezeSubject): UprightPlane {
  const place = numberedLate(plan)[0]?.place.at ?? letteredThin(plan)[0]?.place.at ?? lastPlace(fields);
  const { min, max } = measureBounds(gated) as Box;
  const [width, depth] = [max[0] - min[0], max[1] - min[1]];
  const [dx, dy] = [place[0] - axis[0], place[1] - axis[1]];
  if (maths.hypot(dx, dy) < under * Math.max(width, depth))
    return { through: [place[0], place[1]], direction: depth > width * 1.05 ? Math.PI / 2 : 0 };
  const direction = maths.atan2(dy, dx);
  // Whichever way is more to the right.
  return { through: axis, direction: maths.cos(direction) < -1e-9 ? direction + Math.PI : direction };
}

/** Middle of the full cell of the castings that is solid last, mm. */
function lastPlace({ grid, share, role, solidAt }: CastFields): Vec3 {
  let last = 0;
  for (let c = 0; c < grid.size; c++)
    if (role[c] === cellRole.casting && share[c]! >= 0.5 && solidAt[c]! > solidAt[last]!) last = c;
  return cellMiddle(grid, last);
}

/**
 * An upright section through the mould as an SVG document, `pictureWidth` wide: metal coloured by when it is solid, with
 * lines of equal time at the legend's values, its outline, late and thin places that lie in the plane, a scale bar and
 * the legend. The same input gives the same bytes.
 */
export function formatSection(subject: FreezeSubject, view: View, plane = planeOf(subject)): string {
  const { fields, gated, standing, plan } = subject;
  const scale = solidScale(fields);
  const outlines = cutMesh(gated, plane);
  const room = metalRoom(gated, plane);
  const perMm = Math.min(
    (pictureWidth - 2 * (edge + rim)) / (room.max[0] - room.min[0]),
    (tallest - 2 * edge - rim) / (room.max[1] - room.min[1]),
  );
  const height = (room.max[1] - room.min[1]) * perMm + rim;
  const left = (pictureWidth - (room.max[0] - room.min[0]) * perMm) / 2 - room.min[0] * perMm;
  const top = edge + room.max[1] * perMm;
  const paper = ([u, z]: Vec2): Vec2 => [left + u * perMm, top - z * perMm];
  const path = (loops: readonly (readonly Vec2[])[]): string =>
    loops.map((l) => outline(l.map(paper))).join('');
  const sampler = sampleMetal(fields, heldAt(fields.solidAt, latest(fields.solidAt)));
  const metal = path(outlines);
  const seams =
    standing === undefined
      ? ''
      : seamsOf(
          cutMesh(standing, plane).map((l) => l.map(paper)),
          outlines.map((l) => l.map(paper)),
        )
          .map(lineOf)
          .join('');
  const frame = { x0: edge, y0: edge, x1: pictureWidth - edge, y1: edge + height };
  const marks = marksIn(plan, plane, paper);
  const keyAt = frame.y1 + 3;
  const legendAt = keyAt + 5.6;
  const all = legendAt + legendHeight;
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${pictureWidth}mm" height="${number(all)}mm" viewBox="0 0 ${pictureWidth} ${number(all)}" font-family="${fontFamily}">\n` +
    `<title>Section: when the metal is solid</title>\n` +
    `<rect x="${number(frame.x0)}" y="${number(frame.y0)}" width="${number(frame.x1 - frame.x0)}" height="${number(height)}" fill="${mouldTint}"/>\n` +
    `<clipPath id="fc"><path clip-rule="evenodd" d="${metal}"/></clipPath>\n` +
    `<g clip-path="url(#fc)">${rasterOf({ sampler, scale, plane, outlines, room, perMm }, paper([room.min[0], room.max[1]]))}</g>\n` +
    (seams === ''
      ? ''
      : `<path d="${seams}" fill="none" stroke="#fff" stroke-width="0.9"/><path d="${seams}" fill="none" stroke="#000" stroke-width="0.4" stroke-dasharray="1.3 0.8"/>\n`) +
    `<path d="${metal}" fill="none" stroke="#000" stroke-width="0.3" stroke-linejoin="round"/>\n` +
    `${drawMarks(marks, frame)}\n` +
    `${drawScaleBar(perMm, view.lengthUnit, edge + 1, keyAt, 18)}\n` +
    `${drawKey(marks, 35, keyAt)}\n` +
    `${drawLegend(scale, edge + 1, legendAt, pictureWidth - 2 * edge - 2, 'fs')}\n</svg>\n`
  );
}

/** How far the metal reaches along the plane and upward: the same for every plane through one axis. */
function metalRoom(
  mesh: Mesh,
  { through, direction }: UprightPlane,
): { readonly min: Vec2; readonly max: Vec2 } {
  const box = measureBounds(mesh) as Box;
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  const [c, s] = [maths.cos(direction), maths.sin(direction)];
  for (let v = 0; v < mesh.positions.length; v += 3) {
    const u = (mesh.positions[v]! - through[0]) * c + (mesh.positions[v + 1]! - through[1]) * s;
    low = Math.min(low, u);
    high = Math.max(high, u);
  }
  return { min: [low, box.min[2]], max: [high, box.max[2]] };
}

export const latest = (solidAt: Float32Array): number =>
  solidAt.reduce((most, t) => (Number.isFinite(t) && t > most ? t : most), 0);

/** A path; points closer than a printer's dot are left out. */
function lineOf(points: readonly Vec2[]): string {
  const last = points.at(-1);
  const kept = points.filter((_, i) => i === 0);
  for (const p of points) {
    const from = kept.at(-1)!;
    if (p === last || Math.abs(p[0] - from[0]) + Math.abs(p[1] - from[1]) > 0.04) kept.push(p);
  }
  return `M${kept.map(([x, y]) => `${number(x)} ${number(y)}`).join('L')}`;
}

const outline = (points: readonly Vec2[]): string => (points.length < 3 ? '' : `${lineOf(points)}Z`);

/** Places that lie within a cell and a half of the plane. */
function marksIn(
  plan: FreezeSubject['plan'],
  plane: UprightPlane,
  paper: (p: Vec2) => Vec2,
): readonly PictureMark[] {
  const markOf = (kind: PictureMark['kind'], text: string, [x, y, z]: Vec3): readonly PictureMark[] => {
    const [u, off] = onPlane(plane, x, y);
    return Math.abs(off) > 1.5 * plan.cell ? [] : [{ at: paper([u, z]), text, kind, hidden: false }];
  };
  return [
    ...numberedLate(plan).flatMap(({ mark, place }) => markOf('late', mark, place.at)),
    ...letteredThin(plan).flatMap(({ mark, place }) => markOf('thin', mark, place.at)),
  ];
}
