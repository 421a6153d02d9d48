import {
  areaOf,
  encloses,
  type Flat,
  horizontal,
  type Loop,
  nearestApproach,
  radii,
  section,
  type Vec,
  verticalHits,
} from './sections.js';
import { boxOf, type WeldedMesh } from './welded-mesh.js';

/**
 * Measures a gear as a bench would, on the triangles of its file: no formula of gears is used. The axis is Z. A
 * double-helical gear is measured over one of its halves.
 */
export interface GearToMeasure {
  readonly mesh: WeldedMesh;
  readonly teeth: number;
  /** 1 for spur and helical gears, 2 for double-helical ones. */
  readonly halves: 1 | 2;
}

const largest = (values: Iterable<number>): number => {
  let most = -Infinity;
  for (const v of values) if (v > most) most = v;
  return most;
};

export function measureGear(gear: GearToMeasure): GearReadings {
  const known = readings.get(gear.mesh) ?? readGear(gear);
  readings.set(gear.mesh, known);
  return known;
}

type GearReadings = ReturnType<typeof readGear>;
const readings = new WeakMap<WeldedMesh, GearReadings>();

function readGear({ mesh, halves }: GearToMeasure) {
  const { points } = mesh;
  const { min, max } = boxOf(mesh);
  const [bottom, top] = [min[2] as number, max[2] as number];
  const radius = (i: number): number => Math.hypot(points[3 * i] as number, points[3 * i + 1] as number);
  const count = points.length / 3;
  const tipRadius = largest(Array.from({ length: count }, (_, i) => radius(i)));

  // The toothed rim is where there are tips.
  let [lower, upper] = [Infinity, -Infinity];
  for (let i = 0; i < count; i++) {
    if (radius(i) < tipRadius - 0.05) continue;
    lower = Math.min(lower, points[3 * i + 2] as number);
    upper = Math.max(upper, points[3 * i + 2] as number);
  }
  const outline = (z: number): Loop => outerLoop(section(mesh, horizontal(z)));
  const half = [lower, toothedUpTo(outline, lower, lower + (upper - lower) / halves, tipRadius)] as const;
  const levels = (n: number): number[] =>
    Array.from({ length: n }, (_, i) => half[0] + ((i + 0.5) / n) * (half[1] - half[0]));
  const rootRadius = Math.min(...levels(5).map((z) => nearestApproach(outline(z))));

  const middle = section(mesh, horizontal((lower + upper) / 2 + 1e-3));
  const holes = middle.filter((loop) => areaOf(loop) < 0 && encloses(loop, [0, 0]));
  const bore = holes.length === 0 ? 0 : 2 * Math.min(...holes.map((loop) => largest(radii(loop))));

  // A hub that rises is seen above the rim; one that does not stands free inside the recess of the web.
  const face = section(mesh, horizontal(upper - 0.05));
  const recess = face.filter((loop) => areaOf(loop) < 0).sort((a, b) => areaOf(a) - areaOf(b))[0];
  const insideRim = recess && nearestApproach(recess) > bore / 2 + 0.5 ? nearestApproach(recess) : undefined;
  const overRim = top > upper + 0.1 ? outerLoop(section(mesh, horizontal((upper + top) / 2))) : undefined;
  const island = insideRim
    ? face.filter((loop) => areaOf(loop) > 0).sort((a, b) => areaOf(a) - areaOf(b))[0]
    : undefined;
  const hubLoop = overRim ?? island;
  const hub = hubLoop ? 2 * largest(radii(hubLoop)) : undefined;

  let web: number | undefined;
  if (insideRim && hub) {
    const r = (insideRim + hub / 2) / 2;
    const walls = Array.from({ length: 7 }, (_, i) => {
      const hits = verticalHits(mesh, r * Math.cos(i + 0.1), r * Math.sin(i + 0.1));
      if (hits.length !== 2) throw new Error(`${hits.length} surfaces on a line through the web`);
      return (hits[1] as number) - (hits[0] as number);
    });
    web = walls.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a));
  }
  return {
    d_a: 2 * tipRadius,
    d_f: 2 * rootRadius,
    b: upper - lower,
    L: top - bottom,
    D: bore,
    d_h: hub,
    t_w: web,
    half,
    tipRadius,
    rootRadius,
  };
}

/** Where the teeth that begin at `from` end: at `to`, or at the groove before it. */
function toothedUpTo(outline: (z: number) => Loop, from: number, to: number, tipRadius: number): number {
  const toothed = (z: number): boolean => largest(radii(outline(z))) > tipRadius - 0.05;
  if (toothed(to - 1e-3)) return to;
  let [low, high] = [from + 1e-3, to];
  while (high - low > 1e-6) {
    const middle = (low + high) / 2;
    if (toothed(middle)) low = middle;
    else high = middle;
  }
  return low;
}

/** Directions of the tooth middles at height `z`, radians. */
export const toothDirections = ({ mesh }: GearToMeasure, z: number): readonly number[] =>
  lobeDirections(outlineAt(mesh, z));

/** Directions of the middles of what lies outside half height: of teeth, or of spaces in the bore of a ring. */
export const lobeDirections = (loop: Loop): readonly number[] =>
  teethOf(loop, (nearestApproach(loop) + largest(radii(loop))) / 2).map(({ middle }) => wrap(middle));

const outerLoop = (loops: readonly Loop[]): Loop => loops.reduce((a, b) => (areaOf(b) > areaOf(a) ? b : a));

/** One tooth in one section: its outline above the cut, and the direction of its middle, radians. */
interface ToothSlice {
  readonly outline: readonly Flat[];
  readonly middle: number;
}

/** The teeth of a section, in order round the gear: the runs of the outline outside the cutting radius, ends on it. */
function teethOf(loop: Loop, cut: number): ToothSlice[] {
  const outside = loop.map(([x, y]) => Math.hypot(x, y) > cut);
  const start = outside.findIndex((o, i) => o && !outside.at(i - 1));
  const teeth: ToothSlice[] = [];
  let run: Flat[] = [];
  for (let k = 0; k <= loop.length && start >= 0; k++) {
    const i = (start + k) % loop.length;
    const [before, here] = [loop.at(i - 1) as Flat, loop[i] as Flat];
    if (k < loop.length && outside[i]) {
      if (run.length === 0) run.push(passing(before, here, cut));
      run.push(here);
    } else if (run.length > 0) {
      run.push(passing(before, here, cut));
      // The bisector of the two places where the flanks pass the cut.
      const [first, last] = [run[0], run.at(-1)].map((p) => Math.atan2((p as Flat)[1], (p as Flat)[0])) as [
        number,
        number,
      ];
      teeth.push({ outline: run, middle: first + wrap(last - first) / 2 });
      run = [];
    }
  }
  return teeth;
}

/** The outline with points along its sides, not only at their ends. */
const divided = (outline: readonly Flat[]): readonly Flat[] =>
  outline.flatMap(([x, y], i) => {
    const [u, v] = outline[i + 1] ?? [x, y];
    return [0, 0.25, 0.5, 0.75].map((f): Flat => [x + f * (u - x), y + f * (v - y)]);
  });

/** Where the straight line from p to q passes the radius. */
function passing(p: Flat, q: Flat, radius: number): Flat {
  const [dx, dy] = [q[0] - p[0], q[1] - p[1]];
  const [a, b, c] = [dx * dx + dy * dy, p[0] * dx + p[1] * dy, p[0] ** 2 + p[1] ** 2 - radius ** 2];
  const root = Math.sqrt(Math.max(0, b * b - a * c));
  const f = [(-b - root) / a, (-b + root) / a].find((t) => t >= -1e-9 && t <= 1 + 1e-9) ?? 0;
  return [p[0] + f * dx, p[1] + f * dy];
}

const wrap = (angle: number): number => angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));

export interface SpanReading {
  readonly span: number;
  /** Tilt of the jaws' normal out of the transverse plane at the smallest reading, radians. */
  readonly tilt: number;
  /** The same without the outer and inner sixth of the flanks: less only if the jaws touch nothing but those. */
  readonly middleSpan: number;
}

/**
 * Closes two parallel planes on the outer flanks of `k` neighbouring teeth, set evenly, and rocks them for the
 * smallest reading, as with a disc micrometer. Only what lies outside `cut` can touch: jaws do not reach the fillets.
 */
export function spanOverTeeth(gear: GearToMeasure, k: number, levels = 49): SpanReading {
  const { half, tipRadius, rootRadius } = measureGear(gear);
  const cut = rootRadius + 0.25 * (tipRadius - rootRadius);
  const inset = 1e-4;
  const heights = Array.from(
    { length: levels },
    (_, i) => half[0] + inset + (i / (levels - 1)) * (half[1] - half[0] - 2 * inset),
  );
  const slices = heights.map((z) => teethOf(outlineAt(gear.mesh, z), cut));
  for (const slice of slices) {
    if (slice.length !== gear.teeth) throw new Error(`${slice.length} teeth in a section`);
  }
  // Follows the k teeth from section to section by the least turn.
  const middleLevel = (levels - 1) / 2;
  const first = slices.map(() => 0);
  const follow = (from: number, to: number): void => {
    const near = (slices[from] as ToothSlice[])[first[from] as number] as ToothSlice;
    const turns = (slices[to] as ToothSlice[]).map((tooth) => Math.abs(wrap(tooth.middle - near.middle)));
    first[to] = turns.indexOf(Math.min(...turns));
  };
  for (let i = middleLevel; i < levels - 1; i++) follow(i, i + 1);
  for (let i = middleLevel; i > 0; i--) follow(i, i - 1);
  const cloud: Vec[] = slices.flatMap((slice, level) =>
    Array.from({ length: k }, (_, j) => slice[((first[level] as number) + j) % gear.teeth] as ToothSlice)
      .filter((_, j) => j === 0 || j === k - 1)
      .flatMap((tooth) => divided(tooth.outline).map(([x, y]): Vec => [x, y, heights[level] as number])),
  );
  const block = slices[middleLevel] as ToothSlice[];
  const [one, other] = [block[0] as ToothSlice, block[k - 1] as ToothSlice];
  const axis =
    one.middle + ((((other.middle - one.middle) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI)) / 2;
  const across = axis + Math.PI / 2;

  const reading = (tilt: number, points = cloud): number => {
    const n: Vec = [Math.cos(tilt) * Math.cos(across), Math.cos(tilt) * Math.sin(across), Math.sin(tilt)];
    let [high, low] = [-Infinity, Infinity];
    for (const p of points) {
      const d = n[0] * p[0] + n[1] * p[1] + n[2] * p[2];
      if (d > high) high = d;
      if (d < low) low = d;
    }
    return high - low;
  };
  const step = Math.PI / 180;
  // Rocked from the transverse plane as long as the reading falls: farther over, planes pass across narrow faces.
  const way = reading(step) < reading(-step) ? step : -step;
  let best = 0;
  while (Math.abs(best) < 50 * step && reading(best + way) < reading(best)) best += way;
  let [from, to] = [best - step, best + step];
  while (to - from > 1e-8) {
    const [a, b] = [from + (to - from) / 3, to - (to - from) / 3];
    if (reading(a) < reading(b)) to = b;
    else from = a;
  }
  const tilt = (from + to) / 2;
  const sixth = (tipRadius - cut) / 6;
  const inner = cloud.filter(([x, y]) => {
    const r = Math.hypot(x, y);
    return r > cut + sixth && r < tipRadius - sixth;
  });
  return { span: reading(tilt), tilt, middleSpan: reading(tilt, inner) };
}

const outlineAt = (mesh: WeldedMesh, z: number): Loop => outerLoop(section(mesh, horizontal(z)));

/**
 * The reading of a gear-tooth calliper: its tongue on the tooth's tip, its jaws `height` below, square to the tooth.
 * Taken on the section of the mesh normal to the tooth where it passes the middle of the (half) face width.
 */
export function chordAtHeight(gear: GearToMeasure, height: number): number {
  const { half, tipRadius, rootRadius } = measureGear(gear);
  const z = (half[0] + half[1]) / 2;
  const cut = tipRadius - height;
  if (cut < rootRadius) throw new Error('the chordal height is more than the tooth');
  const dz = Math.min(0.5, (half[1] - half[0]) / 8);
  const at = (level: number): ToothSlice[] => teethOf(outlineAt(gear.mesh, level), cut);
  const { middle } = at(z)[0] as ToothSlice;
  const turnTo = (level: number): number => {
    const turns = at(level).map((tooth) => wrap(tooth.middle - middle));
    return turns.reduce((a, b) => (Math.abs(b) < Math.abs(a) ? b : a));
  };
  const slope = ((turnTo(z + dz) - turnTo(z - dz)) / (2 * dz)) * cut;
  const long = Math.hypot(1, slope);
  const radial: Vec = [Math.cos(middle), Math.sin(middle), 0];
  const round: Vec = [-radial[1], radial[0], 0];
  // Square to the tooth's run (slope round the gear for 1 along the axis).
  const u: Vec = [round[0] / long, round[1] / long, -slope / long];
  const loops = section(gear.mesh, { origin: [0, 0, z], u, v: radial });
  const crossings = loops.flatMap((loop) =>
    loop.flatMap(([x, y], i) => {
      const [p, q] = loop[(i + 1) % loop.length] as Flat;
      return y >= cut === q >= cut ? [] : [x + ((cut - y) / (q - y)) * (p - x)];
    }),
  );
  return Math.min(...crossings.filter((x) => x > 0)) - Math.max(...crossings.filter((x) => x < 0));
}
