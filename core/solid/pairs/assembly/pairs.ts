/**
 * Pairs of triangles whose bounds overlap and that no plane parts: see `../triangle-pairs.ts`, which lays out the memory.
 * Bounds along nine axes (x, y, z and the diagonals of the three coordinate planes) are twelve floats below and twelve
 * above, the last three nought. They are float32: rounding to nearest keeps the order of numbers, so what overlaps still
 * does.
 */

const leafSize: i32 = 4;
const boxBytes: usize = 96;
const above: usize = 48;
/** A normal and, for its rounding, the sums of its terms without their signs. */
const planeBytes: usize = 48;

/**
 * More than the relative rounding of a height over a plane: eight operations of 2⁻⁵³ on each term, as in the first stage
 * of Shewchuk's orient3d ("Adaptive precision floating-point arithmetic", 1997), twice over.
 */
const rounding: f64 = 2e-15;

let points: usize = 0;
let corners: usize = 0;
let order: usize = 0;
let bounds: usize = 0;
let boxes: usize = 0;
let planes: usize = 0;
let stack: usize = 0;
let found: usize = 0;
/** Bytes of `found`. */
let room: usize = 0;

let count: i32 = 0;
let leaves: i32 = 0;
let top: usize = 0;
/** Pairs whose bounds overlapped. */
let looks: f64 = 0;

/** Addresses, and how many triangles are listed at `list`; `spare` holds three words for each of them. */
export function begin(
  atPoints: usize,
  pointsEnd: usize,
  atCorners: usize,
  cornersEnd: usize,
  list: usize,
  size: i32,
  atOrder: usize,
  spare: usize,
  atBounds: usize,
  atBoxes: usize,
  leafCount: i32,
  atPlanes: usize,
  atStack: usize,
  atFound: usize,
  foundBytes: usize,
): void {
  points = atPoints;
  corners = atCorners;
  order = atOrder;
  bounds = atBounds;
  boxes = atBoxes;
  planes = atPlanes;
  stack = atStack;
  found = atFound;
  room = foundBytes;
  count = size;
  leaves = leafCount;
  sort(pointsEnd, list, spare);
  for (let n = 0; n < count; n++) bound(n);
  fitBoxes();
  for (let f = corners, at = planes; f < cornersEnd; f += 12, at += planeBytes) layPlane(f, at);
  store<i32>(stack, 1);
  store<i32>(stack + 4, 1);
  top = stack + 8;
  looks = 0;
}

/** Writes pairs of triangle numbers at `found` until it is full or there are no more; how many. */
export function next(): i32 {
  let to = found;
  const full = found + room - 8 * leafSize * leafSize;
  while (top > stack && to <= full) {
    top -= 8;
    const a = load<i32>(top);
    const b = load<i32>(top + 4);
    if (a !== b && !overlap(boxes + boxBytes * a, boxes + boxBytes * b)) continue;
    if (a >= leaves) {
      const startA = (a - leaves) * leafSize;
      const startB = (b - leaves) * leafSize;
      const endA = min(startA + leafSize, count);
      const endB = min(startB + leafSize, count);
      for (let i = startA; i < endA; i++) {
        const one = load<u32>(order + 4 * i);
        for (let j = a === b ? i + 1 : startB; j < endB; j++) {
          if (!overlap(bounds + boxBytes * i, bounds + boxBytes * j)) continue;
          looks++;
          const other = load<u32>(order + 4 * j);
          if (areClearlyApart(one, other)) continue;
          store<u32>(to, one);
          store<u32>(to + 4, other);
          to += 8;
        }
      }
      continue;
    }
    push(2 * a, 2 * b);
    push(2 * a, 2 * b + 1);
    push(2 * a + 1, 2 * b + 1);
    if (a !== b) push(2 * a + 1, 2 * b);
  }
  return <i32>((to - found) >> 3);
}

/** Whether `next` has come to the end. */
export function isDone(): bool {
  return top <= stack;
}

export function lookCount(): f64 {
  return looks;
}

function push(a: i32, b: i32): void {
  store<i32>(top, a);
  store<i32>(top + 4, b);
  top += 8;
}

function overlap(a: usize, b: usize): bool {
  return v128.all_true<i32>(
    v128.and(
      v128.and(
        v128.and(f32x4.le(v128.load(a), v128.load(b, 48)), f32x4.le(v128.load(b), v128.load(a, 48))),
        v128.and(f32x4.le(v128.load(a, 16), v128.load(b, 64)), f32x4.le(v128.load(b, 16), v128.load(a, 64))),
      ),
      v128.and(f32x4.le(v128.load(a, 32), v128.load(b, 80)), f32x4.le(v128.load(b, 32), v128.load(a, 80))),
    ),
  );
}

/** Address of corner `k` of the triangle whose corners stand at `f`. */
function pointOf(f: usize, k: usize): usize {
  return points + 24 * <usize>load<u32>(f + 4 * k);
}

function bound(n: i32): void {
  const f = corners + 12 * <usize>load<u32>(order + 4 * n);
  const at = bounds + boxBytes * n;
  for (let k: usize = 0; k < 3; k++) {
    const v = pointOf(f, k);
    const x = load<f64>(v);
    const y = load<f64>(v + 8);
    const z = load<f64>(v + 16);
    const a = four(x, y, z, x + y);
    const b = four(x - y, y + z, y - z, z + x);
    const c = four(z - x, 0, 0, 0);
    if (k === 0) {
      put(at, a, b, c);
      put(at + above, a, b, c);
    } else widen(at, a, b, c, a, b, c);
  }
}

function four(a: f64, b: f64, c: f64, d: f64): v128 {
  let lanes = f32x4.splat(<f32>a);
  lanes = f32x4.replace_lane(lanes, 1, <f32>b);
  lanes = f32x4.replace_lane(lanes, 2, <f32>c);
  return f32x4.replace_lane(lanes, 3, <f32>d);
}

function put(at: usize, a: v128, b: v128, c: v128): void {
  v128.store(at, a);
  v128.store(at, b, 16);
  v128.store(at, c, 32);
}

/** Takes in what lies between lower and upper bounds. */
function widen(at: usize, a: v128, b: v128, c: v128, d: v128, e: v128, f: v128): void {
  put(at, f32x4.min(v128.load(at), a), f32x4.min(v128.load(at, 16), b), f32x4.min(v128.load(at, 32), c));
  put(
    at + above,
    f32x4.max(v128.load(at, 48), d),
    f32x4.max(v128.load(at, 64), e),
    f32x4.max(v128.load(at, 80), f),
  );
}

function widenBy(at: usize, by: usize): void {
  widen(
    at,
    v128.load(by),
    v128.load(by, 16),
    v128.load(by, 32),
    v128.load(by, 48),
    v128.load(by, 64),
    v128.load(by, 80),
  );
}

/** Bounds of every node: node n has children 2n and 2n + 1; leaf l is node leaves + l. */
function fitBoxes(): void {
  const most = f32x4.splat(f32.MAX_VALUE);
  const least = f32x4.splat(-f32.MAX_VALUE);
  for (let leaf = 0; leaf < leaves; leaf++) {
    const at = boxes + boxBytes * (leaves + leaf);
    put(at, most, most, most);
    put(at + above, least, least, least);
    const end = min((leaf + 1) * leafSize, count);
    for (let n = leaf * leafSize; n < end; n++) widenBy(at, bounds + boxBytes * n);
  }
  for (let node = leaves - 1; node >= 1; node--) {
    const at = boxes + boxBytes * node;
    memory.copy(at, boxes + boxBytes * (2 * node), boxBytes);
    widenBy(at, boxes + boxBytes * (2 * node + 1));
  }
}

/** The listed triangles along a Morton curve through their centres, 10 bits an axis, those of one cell as listed. */
function sort(pointsEnd: usize, list: usize, spare: usize): void {
  let x0 = f64.MAX_VALUE;
  let y0 = f64.MAX_VALUE;
  let z0 = f64.MAX_VALUE;
  let x1 = -f64.MAX_VALUE;
  let y1 = -f64.MAX_VALUE;
  let z1 = -f64.MAX_VALUE;
  for (let v = points; v < pointsEnd; v += 24) {
    const x = load<f64>(v);
    const y = load<f64>(v + 8);
    const z = load<f64>(v + 16);
    x0 = min(x0, x);
    y0 = min(y0, y);
    z0 = min(z0, z);
    x1 = max(x1, x);
    y1 = max(y1, y);
    z1 = max(z1, z);
  }
  const extent = max(max(x1 - x0, y1 - y0), z1 - z0);
  const cells = 1024 / (extent > 0 ? extent : 1);
  const words: usize = 4 * <usize>count;
  const keys = spare;
  for (let n: usize = 0; n < words; n += 4) {
    const triangle = load<u32>(list + n);
    const f = corners + 12 * <usize>triangle;
    const a = pointOf(f, 0);
    const b = pointOf(f, 1);
    const c = pointOf(f, 2);
    const key =
      spread(cellOf(a, b, c, 0, x0, cells)) |
      (spread(cellOf(a, b, c, 8, y0, cells)) << 1) |
      (spread(cellOf(a, b, c, 16, z0, cells)) << 2);
    store<u32>(keys + n, key);
    store<u32>(order + n, triangle);
  }
  // Three passes, ten bits each: from keys and order into the spare ones and back; the third ends there.
  pass(keys, order, keys + words, keys + 2 * words, words, 0);
  pass(keys + words, keys + 2 * words, keys, order, words, 10);
  pass(keys, order, keys + words, keys + 2 * words, words, 20);
  memory.copy(order, keys + 2 * words, words);
}

function cellOf(a: usize, b: usize, c: usize, axis: usize, least: f64, cells: f64): u32 {
  const middle = (load<f64>(a + axis) + load<f64>(b + axis) + load<f64>(c + axis)) / 3;
  return <u32>min(1023.0, max(0.0, floor((middle - least) * cells)));
}

/** Two empty bits between the bits of a 10-bit number. */
function spread(x: u32): u32 {
  let v = x;
  v = (v | (v << 16)) & 0x030000ff;
  v = (v | (v << 8)) & 0x0300f00f;
  v = (v | (v << 4)) & 0x030c30c3;
  return (v | (v << 2)) & 0x09249249;
}

/** Counts of the digits, on the stack's place, which is not in use yet. */
function pass(keys: usize, values: usize, toKeys: usize, toValues: usize, words: usize, shift: u32): void {
  memory.fill(stack, 0, 4096);
  for (let n: usize = 0; n < words; n += 4) {
    const at = stack + 4 * <usize>((load<u32>(keys + n) >> shift) & 1023);
    store<u32>(at, load<u32>(at) + 4);
  }
  let sum: u32 = 0;
  for (let at = stack; at < stack + 4096; at += 4) {
    const here = load<u32>(at);
    store<u32>(at, sum);
    sum += here;
  }
  for (let n: usize = 0; n < words; n += 4) {
    const key = load<u32>(keys + n);
    const at = stack + 4 * <usize>((key >> shift) & 1023);
    const to = <usize>load<u32>(at);
    store<u32>(at, to + 4);
    store<u32>(toKeys + to, key);
    store<u32>(toValues + to, load<u32>(values + n));
  }
}

function layPlane(f: usize, at: usize): void {
  const a = pointOf(f, 0);
  const b = pointOf(f, 1);
  const c = pointOf(f, 2);
  const ux = load<f64>(b) - load<f64>(a);
  const uy = load<f64>(b + 8) - load<f64>(a + 8);
  const uz = load<f64>(b + 16) - load<f64>(a + 16);
  const vx = load<f64>(c) - load<f64>(a);
  const vy = load<f64>(c + 8) - load<f64>(a + 8);
  const vz = load<f64>(c + 16) - load<f64>(a + 16);
  store<f64>(at, uy * vz - uz * vy);
  store<f64>(at + 8, uz * vx - ux * vz);
  store<f64>(at + 16, ux * vy - uy * vx);
  store<f64>(at + 24, abs(uy * vz) + abs(uz * vy));
  store<f64>(at + 32, abs(uz * vx) + abs(ux * vz));
  store<f64>(at + 40, abs(ux * vy) + abs(uy * vx));
}

const unsure: i32 = 0;
const beside: i32 = 1;
const inPlane: i32 = 2;

/**
 * Whether two triangles beyond doubt have nothing in common but the corners they share and the edge between them: a plane
 * or, where both lie in one, an edge of either parts them. False says nothing.
 */
function areClearlyApart(i: u32, j: u32): bool {
  const place = placeOf(i, j);
  if (place !== inPlane) return place === beside || placeOf(j, i) === beside;
  return isBeyondEdge(i, j) || isBeyondEdge(j, i);
}

/** Where the corners of triangle `j` that are not corners of `i` lie: all strictly on one side of the plane of `i`, or all in it. */
function placeOf(i: u32, j: u32): i32 {
  const f = corners + 12 * <usize>i;
  const g = corners + 12 * <usize>j;
  const a = load<u32>(f);
  const b = load<u32>(f + 4);
  const c = load<u32>(f + 8);
  const at = planes + planeBytes * <usize>i;
  const first = points + 24 * <usize>a;
  const x = load<f64>(first);
  const y = load<f64>(first + 8);
  const z = load<f64>(first + 16);
  let up = 0;
  let down = 0;
  let inside = 0;
  for (let k: usize = 0; k < 12; k += 4) {
    const v = load<u32>(g + k);
    if (v === a || v === b || v === c) continue;
    const point = points + 24 * <usize>v;
    const dx = load<f64>(point) - x;
    const dy = load<f64>(point + 8) - y;
    const dz = load<f64>(point + 16) - z;
    const height = dx * load<f64>(at) + dy * load<f64>(at + 8) + dz * load<f64>(at + 16);
    const doubt =
      rounding * (abs(dx) * load<f64>(at + 24) + abs(dy) * load<f64>(at + 32) + abs(dz) * load<f64>(at + 40));
    if (height > doubt) up++;
    else if (height < -doubt) down++;
    // Every term is nought, which float32 corners cannot round to: no doubt either (a plane along two axes).
    else if (doubt === 0) inside++;
    else return unsure;
  }
  if (inside > 0) return up + down === 0 ? inPlane : unsure;
  return (up === 0) !== (down === 0) ? beside : unsure;
}

/** For triangles in one plane: whether an edge of `i` has all of `j` strictly beyond it, but for the edge's own corners. */
function isBeyondEdge(i: u32, j: u32): bool {
  const at = planes + planeBytes * <usize>i;
  const nx = abs(load<f64>(at));
  const ny = abs(load<f64>(at + 8));
  const nz = abs(load<f64>(at + 16));
  // Seen along the axis that shows most of the triangle.
  const drop: usize = nz >= nx && nz >= ny ? 16 : nx >= ny ? 0 : 8;
  const normal = load<f64>(at + drop);
  if (!(abs(normal) > rounding * load<f64>(at + 24 + drop))) return false;
  const sense: f64 = normal > 0 ? 1 : -1;
  const x: usize = drop === 16 ? 0 : drop + 8;
  const y: usize = x === 16 ? 0 : x + 8;
  const f = corners + 12 * <usize>i;
  const g = corners + 12 * <usize>j;
  for (let e: usize = 0; e < 12; e += 4) {
    const u = load<u32>(f + e);
    const v = load<u32>(f + (e === 8 ? 0 : e + 4));
    const pu = points + 24 * <usize>u;
    const pv = points + 24 * <usize>v;
    const ux = load<f64>(pu + x);
    const uy = load<f64>(pu + y);
    const ex = load<f64>(pv + x) - ux;
    const ey = load<f64>(pv + y) - uy;
    let beyond = true;
    for (let k: usize = 0; beyond && k < 12; k += 4) {
      const q = load<u32>(g + k);
      if (q === u || q === v) continue;
      const pq = points + 24 * <usize>q;
      const left = ex * (load<f64>(pq + y) - uy);
      const right = ey * (load<f64>(pq + x) - ux);
      beyond = sense * (left - right) < -rounding * (abs(left) + abs(right));
    }
    if (beyond) return true;
  }
  return false;
}
