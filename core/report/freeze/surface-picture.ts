import { encode } from 'fast-png';
import type { Vec2, Vec3 } from '../../solid/types.js';
import { dataUri } from '../data-uri.js';
import { fontFamily } from '../drawing/text-width.js';
import { type LinearColour, linearOf } from '../render/colour.js';
import { renderScene, type Scene } from '../render/index.js';
import { drawKey, drawLegend, legendHeight } from './legend.js';
import { drawMarks, type PictureMark } from './marks.js';
import { letteredThin, numberedLate } from './places.js';
import { sampleMetal } from './sample-field.js';
import { scaleColour } from './scale.js';
import { type FreezeSubject, number, pictureWidth } from './section-picture.js';
import { type ShownField, type SurfaceField, shownField } from './shown-field.js';

const edge = 1;
const height = 64;
/** Pixels to a mm on paper: 127 to the inch. */
const fineness = 5;
/** Where no metal is asked about. */
const unknown: LinearColour = [0.8, 0.8, 0.8];
const steps = 256;

/**
 * The gated pattern seen from outside as an SVG document, `pictureWidth` wide: its surface coloured by a field in the
 * metal half a cell under it, with late and thin places and the legend. The same input gives the same bytes.
 */
export function formatSurface(subject: FreezeSubject, field: SurfaceField = 'spent'): string {
  const { fields, gated, plan } = subject;
  const shown = shownField(fields, plan, field);
  const { scale } = shown;
  const scene = renderScene(gated, {
    width: Math.round((pictureWidth - 2 * edge) * fineness),
    height: Math.round(height * fineness),
    colour: { colour: '#ffffff', finish: 'even' },
    tint: tintOf(subject, shown),
  });
  const { pixels } = scene;
  const png = encode({ ...pixels, channels: 3, depth: 8 }, { zlib: { level: 6 } });
  const frame = { x0: edge, y0: edge, x1: pictureWidth - edge, y1: edge + height };
  const marks = marksOn(plan, scene);
  const keyAt = frame.y1 + 3;
  const legendAt = keyAt + 5.6;
  const all = number(legendAt + legendHeight);
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${pictureWidth}mm" height="${all}mm" viewBox="0 0 ${pictureWidth} ${all}" font-family="${fontFamily}">\n` +
    `<title>Surface: ${scale.title}</title>\n` +
    `<image x="${edge}" y="${edge}" width="${number(pixels.width / fineness)}" height="${number(pixels.height / fineness)}" preserveAspectRatio="none" href="${dataUri('image/png', png)}"/>\n` +
    `${drawMarks(marks, frame)}\n${drawKey(marks, edge + 1, keyAt)}\n` +
    `${drawLegend(scale, edge + 1, legendAt, pictureWidth - 2 * edge - 2, 'fu')}\n</svg>\n`
  );
}

function tintOf({ fields, plan }: FreezeSubject, { values, share, scale }: ShownField) {
  const sampler = sampleMetal({ ...fields, share }, values);
  const colours = Array.from({ length: steps }, (_, i) =>
    scaleColour(i / (steps - 1)).map(linearOf),
  ) as unknown as LinearColour[];
  const under = plan.cell / 2;
  return (x: number, y: number, z: number, nx: number, ny: number, nz: number): LinearColour => {
    const value = sampler(x - under * nx, y - under * ny, z - under * nz);
    return Number.isNaN(value) ? unknown : colours[Math.round(scale.at(value) * (steps - 1))]!;
  };
}

/** Dashed where a place lies deeper than three cells behind what is seen. */
function marksOn(plan: FreezeSubject['plan'], { look }: Scene): readonly PictureMark[] {
  const markOf = (kind: PictureMark['kind'], text: string, at: Vec3): PictureMark => {
    const { x, y, behind } = look(at);
    const on: Vec2 = [edge + x / fineness, edge + y / fineness];
    return { at: on, text, kind, hidden: behind > 3 * plan.cell };
  };
  return [
    ...numberedLate(plan).map(({ mark, place }) => markOf('late', mark, place.at)),
    ...letteredThin(plan).map(({ mark, place }) => markOf('thin', mark, place.at)),
  ];
}
