import type { JobPart } from '../../../core/job/job.js';
import { makeRequest } from '../../../core/job/make-request.js';
import { type NestBed, type NestItem, nest } from '../../../core/plate/index.js';
import { loadKernel } from '../../../core/solid/kernel.js';
import type { Kernel, Polygon } from '../../../core/solid/types.js';
import { findPart } from '../../../generators/index.js';
import { jobOf } from '../../helpers/mesh-jobs.js';
import { mixedJob, mixedKinds } from '../../helpers/mixed-job.js';
import type { Row, Sheet } from '../sheet.js';

const bed: NestBed = { width: 220, depth: 220, height: 250, margin: 5, gap: 3 };
const copies = 12;

/** Jobs of one trade each, and one of all. */
const trades: readonly (readonly [name: string, part: RegExp])[] = [
  ['everything', /./],
  ['gears and racks', /gear|^rack$/],
  ['cleats, eyes, fairleads', /cleat|eye|fairlead/],
  ['pulls and knobs', /pull|knob/],
  ['hinges, gudgeons, pintles', /hinge|gudgeon/],
];

/** How full plates come, against the area of the patterns and against plates of their boxes. */
export async function benchNesting(sheet: Sheet): Promise<void> {
  const kernel = await loadKernel();
  const job = jobOf(mixedJob(mixedKinds, { seed: 5 }));
  const outlines = new Map(job.parts.map((part) => [part, outlineOf(part)] as const));
  const room = (bed.width - 2 * bed.margin) * (bed.depth - 2 * bed.margin);
  const rows = trades.map(([name, kind]): Row => {
    const items = job.parts
      .filter(({ part }) => kind.test(part))
      .flatMap((part) =>
        itemsOf(part, outlines.get(part) as { outline: readonly Polygon[]; height: number }),
      );
    const area = items.reduce((sum, { outline }) => sum + areaOf(outline), 0);
    const begun = performance.now();
    const shapes = bedsOf(items);
    const seconds = (performance.now() - begun) / 1e3;
    const boxes = bedsOf(items.map((item) => ({ ...item, outline: [boxOf(item.outline)] })));
    const least = Math.ceil(area / room);
    const fewer = 1 - shapes / boxes;
    return {
      what: `${name}: ${items.length} patterns`,
      measured: `${shapes} beds, ${percent(area / (shapes * room))} full, ${seconds.toFixed(1)} s`,
      against: `boxes: ${boxes} beds, ${percent(area / (boxes * room))} full; by area alone at least ${least}`,
      ratio: `${percent(fewer)} fewer beds; ${(shapes / least).toFixed(2)} × the area’s`,
      wanted: { words: 'a quarter fewer, where shapes allow', met: fewer >= 0.25 },
    };
  });
  sheet.add(
    'Nesting: beds against area and against rectangles',
    `Each gated pattern ${copies} times on beds of ${bed.width} × ${bed.depth} mm, ${bed.margin} mm free along the edges, ` +
      `${bed.gap} mm between; shares are of the room inside the margins. The same nesting, the patterns once by their ` +
      'silhouettes, once by the boxes round them. How far shapes allow it is told by the box’s own share: a bed cannot be ' +
      'fuller than full.',
    rows,
  );

  function outlineOf(part: JobPart): { outline: readonly Polygon[]; height: number } {
    const outcome = makeRequest(part, findPart, job, kernel as Kernel);
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.findings));
    return { outline: outcome.made.silhouette, height: outcome.made.facts.gated.size[2] };
  }
}

const itemsOf = (
  { name }: JobPart,
  { outline, height }: { outline: readonly Polygon[]; height: number },
): readonly NestItem[] => Array.from({ length: copies }, (_, i) => ({ name, copy: i + 1, outline, height }));

function bedsOf(items: readonly NestItem[]): number {
  const { plates, refused } = nest(items, bed, { seed: 1 });
  if (refused.length > 0) throw new Error(`no bed holds ${refused.map(({ name }) => name).join(', ')}`);
  return plates.length;
}

/** mm²; holes run clockwise. */
const areaOf = (outline: readonly Polygon[]): number =>
  outline.reduce(
    (sum, polygon) =>
      sum +
      polygon.reduce((part, [x, y], i) => {
        const [u, v] = polygon[(i + 1) % polygon.length] as readonly [number, number];
        return part + (x * v - u * y) / 2;
      }, 0),
    0,
  );

function boxOf(outline: readonly Polygon[]): Polygon {
  const points = outline.flat();
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const [x0, x1, y0, y1] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  return [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
}

const percent = (share: number): string => `${(100 * share).toFixed(0)} %`;
