import { type CastFields, leastShare } from '../../freeze/cast-fields.js';
import { type Grid, middlesOf } from '../../freeze/grid.js';
import type { FreezePlan } from '../../freeze/plans.js';
import type { Vec3 } from '../../solid/types.js';
import { scaleColour } from './scale.js';
import { type SurfaceField, shownField } from './shown-field.js';
import { spreadKnown } from './spread-known.js';

/** A field over a box as a picture in space, to be looked up anywhere on a casting's surface or in a section of it. */
export interface FieldVolume {
  /** Corner of the box and its sizes, mm. */
  readonly min: Vec3;
  readonly size: Vec3;
  /** Samples along x, y, z: at the middles of equal cells of the box. */
  readonly counts: readonly [number, number, number];
  /** 0 to 255 along the scale, x fastest. */
  readonly values: Uint8Array;
  /** What the scale says, and its colours from 0 to 255: r, g, b bytes each. */
  readonly title: string;
  readonly colours: Uint8Array;
  /** Where on the scale (0 to 1) a figure stands. */
  readonly ticks: readonly { readonly at: number; readonly text: string }[];
}

/** Samples kept about the metal on every side. */
const rim = 2;
/** Finer than the cells, so that little of what lies between their middles is lost. */
const perCell = 1.6;

/**
 * A field of the metal on an even box of samples about the gated pattern, as its surface picture shows it. Where there
 * is no metal it goes on with that of the nearest, so that a lookup between samples finds metal's values all over the
 * surface.
 * @param most samples along an axis, at least 8
 */
export function fieldVolume(
  { fields, plan }: { readonly fields: CastFields; readonly plan: Pick<FreezePlan, 'fill' | 'cell'> },
  field: SurfaceField,
  most = 96,
): FieldVolume {
  const { values, share, scale } = shownField(fields, plan, field);
  const box = sampleBox(fields, plan.cell, most);
  const sampled = resample(fields.grid, weightsOf(fields, share), values, box);
  spreadKnown(sampled, box.counts);
  const bytes = Uint8Array.from(sampled, (v) => Math.round(scale.at(v) * 255));
  return {
    ...box,
    values: bytes,
    title: scale.title,
    colours: Uint8Array.from(Array.from({ length: 256 }, (_, i) => scaleColour(i / 255)).flat()),
    ticks: scale.ticks.map(({ at, text }) => ({ at, text })),
  };
}

type SampleBox = Pick<FieldVolume, 'min' | 'size' | 'counts'>;

/** About all metal, vents too. */
function sampleBox({ grid, share, present }: CastFields, cell: number, most: number): SampleBox {
  const [nx, ny, nz] = grid.counts;
  const low = [nx, ny, nz];
  const high = [-1, -1, -1];
  for (let r = 0, c = 0; r < nz; r++)
    for (let q = 0; q < ny; q++)
      for (let p = 0; p < nx; p++, c++) {
        if (share[c]! < leastShare || present[c] === 0) continue;
        if (p < low[0]!) low[0] = p;
        if (p > high[0]!) high[0] = p;
        if (q < low[1]!) low[1] = q;
        if (q > high[1]!) high[1] = q;
        if (r < low[2]!) low[2] = r;
        if (r > high[2]!) high[2] = r;
      }
  const axes = [0, 1, 2].map((k) => {
    const edges = grid.edges[k as 0 | 1 | 2];
    const [from, to] = high[k]! < 0 ? [edges[0]!, edges.at(-1)!] : [edges[low[k]!]!, edges[high[k]! + 1]!];
    const inner = Math.max(1, Math.min(most - 2 * rim, Math.ceil(((to - from) * perCell) / cell)));
    const pitch = (to - from) / inner;
    return { min: from - rim * pitch, size: (inner + 2 * rim) * pitch, count: inner + 2 * rim };
  });
  const [x, y, z] = axes as [(typeof axes)[0], (typeof axes)[0], (typeof axes)[0]];
  return {
    min: [x.min, y.min, z.min],
    size: [x.size, y.size, z.size],
    counts: [x.count, y.count, z.count],
  };
}

/** As the surface picture weighs cells: a cell with little metal has the mould's heat more than the metal's. */
const weightsOf = ({ present }: CastFields, share: Float32Array): Float32Array =>
  share.map((s, c) => (s >= leastShare && present[c] !== 0 ? s * s : 0));

/** Of each sample along one axis: the cell whose middle lies at or under it, the next, and the way between them. */
function placesAlong(edges: Float64Array, min: number, size: number, count: number) {
  const middles = middlesOf(edges);
  const last = middles.length - 1;
  const lower = new Int32Array(count);
  const upper = new Int32Array(count);
  const part = new Float64Array(count);
  for (let s = 0, i = 0; s < count; s++) {
    const at = min + ((s + 0.5) * size) / count;
    while (i < last && middles[i + 1]! <= at) i++;
    lower[s] = i;
    upper[s] = Math.min(last, i + 1);
    part[s] = i < last ? Math.max(0, Math.min(1, (at - middles[i]!) / (middles[i + 1]! - middles[i]!))) : 0;
  }
  return { lower, upper, part };
}

/** `sampleMetal` at every sample, axis by axis looked up beforehand; NaN where no cell about it has metal. */
function resample(grid: Grid, weights: Float32Array, values: Float32Array, box: SampleBox): Float32Array {
  const [nx, ny] = grid.counts;
  const [x, y, z] = [0, 1, 2].map((k) =>
    placesAlong(grid.edges[k as 0 | 1 | 2], box.min[k as 0]!, box.size[k as 0]!, box.counts[k as 0]!),
  ) as [ReturnType<typeof placesAlong>, ReturnType<typeof placesAlong>, ReturnType<typeof placesAlong>];
  const [sx, sy, sz] = box.counts;
  const out = new Float32Array(sx * sy * sz);
  const rows = new Int32Array(4);
  const shares = new Float64Array(4);
  for (let r = 0, at = 0; r < sz; r++)
    for (let q = 0; q < sy; q++) {
      const [v, w] = [y.part[q]!, z.part[r]!];
      rows[0] = nx * (y.lower[q]! + ny * z.lower[r]!);
      rows[1] = nx * (y.upper[q]! + ny * z.lower[r]!);
      rows[2] = nx * (y.lower[q]! + ny * z.upper[r]!);
      rows[3] = nx * (y.upper[q]! + ny * z.upper[r]!);
      shares[0] = (1 - v) * (1 - w);
      shares[1] = v * (1 - w);
      shares[2] = (1 - v) * w;
      shares[3] = v * w;
      for (let p = 0; p < sx; p++, at++) {
        const [i, j, u] = [x.lower[p]!, x.upper[p]!, x.part[p]!];
        let sum = 0;
        let all = 0;
        for (let k = 0; k < 4; k++) {
          const [a, b] = [rows[k]! + i, rows[k]! + j];
          const wa = weights[a]! * shares[k]! * (1 - u);
          const wb = weights[b]! * shares[k]! * u;
          all += wa + wb;
          // A field is not asked where there is no metal.
          if (wa > 0) sum += wa * values[a]!;
          if (wb > 0) sum += wb * values[b]!;
        }
        out[at] = all > 1e-4 ? sum / all : Number.NaN;
      }
    }
  return out;
}
