/**
 * One implicit step along four lines of cells at once, a lane each. Temperatures in here are K over the solidus, so that
 * single precision is finest where metal freezes. Heat content is changed by the fluxes alone: what leaves a cell enters
 * the next.
 */
import {
  atAbove,
  atBelow,
  atContent,
  atConvection,
  atMoreConductivity,
  atMoreRadiation,
  atMouldConductivity,
  atMouldHeat,
  atOutside,
  atRadiation,
  atRange,
  atShares,
  atSolidConductivity,
  atSolidus,
  atTemperature,
  atWithin,
  recordBytes,
} from '../layout';
import { add, all, any, div, head, mul, over, pick, sub, word } from './lanes';

/**
 * The step is solved as if each cell stayed on one straight piece of its heat law. Where one leaves it, the next piece
 * is taken and the line solved anew (Newton's method on a law of straight pieces), so many times at most.
 */
const corrections = 6;

/** Within the record of four cells: share, heat content, temperature after the step, piece of the heat law (0, 1, 2); */
const S: usize = 0;
const H: usize = 16;
const A: usize = 32;
const P: usize = 48;
/** heat capacity times length by time, and the heat that belongs to it; conductance to the next cell, and outward; */
const J: usize = 64;
const Q: usize = 80;
const C: usize = 96;
const F: usize = 112;
/** the elimination's upper diagonal, and the conductance to all that lies behind the next cell's face. */
const U: usize = 128;
const B: usize = 144;

/** Bytes from lane to lane; the last lane is said again by those that have no line. */
let lane1: usize = 0;
let lane2: usize = 0;
let lane3: usize = 0;
let lanes: i32 = 0;
let side: bool = false;

/** How the four lines lie: bytes from one to the next, and how many of them there are. */
export function placeLanes(across: usize, count: i32): void {
  lanes = count;
  side = across === 4 && count === 4;
  lane1 = count > 1 ? across : 0;
  lane2 = count > 2 ? 2 * across : lane1;
  lane3 = count > 3 ? 3 * across : lane2;
}

function get(at: usize): v128 {
  if (side) return v128.load(at);
  let v = v128.load32_zero(at);
  v = v128.load32_lane(at + lane1, v, 1);
  v = v128.load32_lane(at + lane2, v, 2);
  return v128.load32_lane(at + lane3, v, 3);
}

function put(at: usize, v: v128): void {
  if (side) {
    v128.store(at, v);
    return;
  }
  v128.store32_lane(at, v, 0);
  if (lanes > 1) v128.store32_lane(at + lane1, v, 1);
  if (lanes > 2) v128.store32_lane(at + lane2, v, 2);
  if (lanes > 3) v128.store32_lane(at + lane3, v, 3);
}

/** Of cells that hold `share` of metal, J/(mm³·K). */
function capacity(share: v128, metal: i32): v128 {
  const rest = head(atMouldHeat);
  return add(all(rest), mul(share, all(head(metal) - rest)));
}

/** True area over that of the cells' faces to the surroundings, along the axis at work. */
let exposed: f32 = 1;
export function setExposed(part: f32): void {
  exposed = part;
}

/** To the surroundings through half a cell, W/(mm²·K); bare metal radiates by its own emissivity. */
function film(t: v128, half: v128, share: v128): v128 {
  const zero = head(atSolidus) + <f32>273.15;
  const a = add(t, all(zero));
  const b = all(head(atOutside) + zero);
  const sum = mul(add(mul(a, a), mul(b, b)), add(a, b));
  const metal = mul(f32x4.max(share, all(0)), all(head(atMoreRadiation)));
  const radiation = mul(sum, add(all(head(atRadiation)), metal));
  const h = mul(all(exposed), add(all(head(atConvection)), radiation));
  return div(h, add(all(1), mul(h, half)));
}

/** The share's own line of the heat law: capacity of a piece, and what the line has at the solidus less the law's. */
let slope: v128 = i32x4.splat(0);
let lift: v128 = i32x4.splat(0);

/** Sets `slope` and `lift` for cells on given pieces. */
function takePiece(share: v128, wet: v128, molten: v128): void {
  const s = f32x4.max(share, all(0));
  const within = capacity(s, atWithin);
  const above = capacity(s, atAbove);
  slope = pick(molten, above, pick(wet, within, capacity(s, atBelow)));
  lift = v128.and(molten, mul(sub(above, within), all(head(atRange))));
}

/** Records from the first to past the last with metal on the lines. */
let metalFrom: usize = 0;
let metalTo: usize = 0;

/** Reads the lines, sets up the step and eliminates forward. */
function gather(
  cell: usize,
  step: usize,
  count: i32,
  lengths: usize,
  faces: usize,
  perSecond: f32,
  open: bool,
  scratch: usize,
): void {
  const zero = all(0);
  const one = all(1);
  const range = head(atRange);
  const mouldHeat = head(atMouldHeat);
  const perMouldHeat = all(1 / mouldHeat);
  const mouldResistance = <f32>0.5 / head(atMouldConductivity);
  const outside = all(head(atOutside));
  const shares: usize = word(atShares);
  const content: usize = word(atContent);
  const solid = all(head(atSolidConductivity));
  const more = all(head(atMoreConductivity));
  const mould = all(head(atMouldConductivity));
  let from: usize = 0;
  let to: usize = 0;
  let metalBefore = false;
  let thereBefore = zero;
  let shareBefore = zero;
  let halfBefore = zero;
  let tBefore = zero;
  let at = scratch;
  for (let i = 0; i < count; i++) {
    const length = load<f32>(lengths + ((<usize>i) << 3));
    const share = get(shares + cell);
    const h = get(content + cell);
    const there = f32x4.ge(share, zero);
    let t: v128;
    let half: v128;
    const metalHere = any(over(share, zero));
    if (metalHere) {
      if (to === 0) from = at;
      to = at + recordBytes;
      const s = f32x4.max(share, zero);
      const full = mul(capacity(s, atWithin), all(range));
      const wet = over(h, zero);
      const molten = over(h, full);
      takePiece(share, wet, molten);
      const lifted = add(h, lift);
      t = div(lifted, slope);
      const part = f32x4.min(one, f32x4.max(zero, mul(t, all(1 / range))));
      const own = add(solid, mul(part, more));
      half = div(all(<f32>0.5 * length), add(mould, mul(s, sub(own, mould))));
      const weight = all(length * perSecond);
      v128.store(at, add(v128.and(wet, one), v128.and(molten, one)), P);
      v128.store(at, mul(slope, weight), J);
      v128.store(at, mul(lifted, weight), Q);
    } else {
      t = mul(h, perMouldHeat);
      half = all(mouldResistance * length);
      v128.store(at, all(mouldHeat * length * perSecond), J);
      v128.store(at, mul(h, all(length * perSecond)), Q);
    }
    let way = add(halfBefore, half);
    // Between cells of mould alone there is nothing more in the way.
    if (i > 0 && (metalHere || metalBefore)) way = add(way, get(faces + cell - step));
    const link = div(one, way);
    // The conductance to the next belongs to the record before, the first one's falls into the room before the scratch.
    v128.store(at - recordBytes, v128.and(link, v128.and(there, thereBefore)), C);
    let outward = zero;
    const edge = v128.xor(there, thereBefore);
    if (open && any(edge)) {
      outward = v128.and(film(t, half, share), v128.and(edge, there));
      const back = v128.and(film(tBefore, halfBefore, shareBefore), v128.and(edge, thereBefore));
      v128.store(at - recordBytes, add(v128.load(at - recordBytes, F), back), F);
    }
    if (i > 0) forward(at - recordBytes, outside);
    v128.store(at, share, S);
    v128.store(at, h, H);
    v128.store(at, outward, F);
    metalBefore = metalHere;
    shareBefore = share;
    thereBefore = there;
    halfBefore = half;
    tBefore = t;
    cell += step;
    at += recordBytes;
  }
  v128.store(at - recordBytes, zero, C);
  if (open) {
    const back = v128.and(film(tBefore, halfBefore, shareBefore), thereBefore);
    v128.store(at - recordBytes, add(v128.load(at - recordBytes, F), back), F);
  }
  forward(at - recordBytes, outside);
  metalFrom = from;
  metalTo = to;
}

/**
 * A cell's part of the tridiagonal system of the implicit step, eliminated forward. What lies behind a face is a
 * conductance, of resistances in series: no difference of near numbers is taken anywhere, so single precision is enough.
 */
function forward(at: usize, outside: v128): void {
  const lost = v128.load(at, F);
  const next = v128.load(at, C);
  const sum = add(add(v128.load(at, J), lost), v128.load(at - recordBytes, B));
  const middle = div(all(1), add(sum, next));
  const before = mul(v128.load(at - recordBytes, C), v128.load(at - recordBytes, A));
  v128.store(at, mul(add(add(v128.load(at, Q), mul(lost, outside)), before), middle), A);
  v128.store(at, mul(next, middle), U);
  v128.store(at, mul(mul(next, sum), middle), B);
}

/** Temperatures after the step, from the last cell back. */
function backward(count: i32, scratch: usize): void {
  let at = scratch + <usize>count * recordBytes;
  let t = all(0);
  while (at > scratch) {
    at -= recordBytes;
    t = add(v128.load(at, A), mul(v128.load(at, U), t));
    v128.store(at, t, A);
  }
}

/** Takes the next piece of the heat law where a cell has left its own; whether any has. */
function correct(lengths: usize, perSecond: f32, scratch: usize): bool {
  const zero = all(0);
  const one = all(1);
  const range = all(head(atRange));
  let moved = false;
  for (let at = metalFrom; at < metalTo; at += recordBytes) {
    const share = v128.load(at, S);
    const metal = over(share, zero);
    if (any(metal)) {
      const a = v128.load(at, A);
      const piece = v128.load(at, P);
      const aim = add(v128.and(over(a, zero), one), v128.and(over(a, range), one));
      const way = v128.and(metal, f32x4.max(all(-1), f32x4.min(one, sub(aim, piece))));
      if (any(f32x4.ne(way, zero))) {
        moved = true;
        const next = add(piece, way);
        takePiece(share, over(next, all(0.5)), over(next, all(1.5)));
        const i = (at - scratch) / recordBytes;
        const weight = all(load<f32>(lengths + (i << 3)) * perSecond);
        v128.store(at, next, P);
        v128.store(at, mul(slope, weight), J);
        v128.store(at, mul(add(v128.load(at, H), lift), weight), Q);
      }
    }
  }
  return moved;
}

/** °C from the heat content. */
function celsius(share: v128, h: v128): v128 {
  let t: v128;
  if (any(over(share, all(0)))) {
    const full = mul(capacity(f32x4.max(share, all(0)), atWithin), all(head(atRange)));
    takePiece(share, over(h, all(0)), over(h, full));
    t = div(add(h, lift), slope);
  } else t = mul(h, all(1 / head(atMouldHeat)));
  return add(t, all(head(atSolidus)));
}

/** Moves the heat; J/mm² given to the surroundings, by lane. Writes temperatures if it is the `last` of a step. */
function carry(
  cell: usize,
  step: usize,
  count: i32,
  lengths: usize,
  seconds: f32,
  last: bool,
  scratch: usize,
): v128 {
  const content = <usize>word(atContent) + cell;
  const temperature = <usize>word(atTemperature) + cell;
  const outside = all(head(atOutside));
  let flow = all(0);
  let lost = all(0);
  let at = scratch;
  let a = v128.load(at, A);
  let offset: usize = 0;
  for (let i = 0; i < count; i++) {
    // Past the end the conductance is 0 and the record is there, whatever it holds.
    const b = v128.load(at + recordBytes, A);
    const next = mul(v128.load(at, C), sub(a, b));
    const out = mul(v128.load(at, F), sub(a, outside));
    const rate = all(seconds * load<f32>(lengths + ((<usize>i) << 3) + 4));
    const h = add(v128.load(at, H), mul(sub(sub(flow, next), out), rate));
    put(content + offset, h);
    if (last) put(temperature + offset, celsius(v128.load(at, S), h));
    lost = add(lost, out);
    flow = next;
    a = b;
    offset += step;
    at += recordBytes;
  }
  return mul(lost, all(seconds));
}

/**
 * The lines that begin at byte `cell` of the arrays and go on by `step` bytes, as `placeLanes` set them; J/mm² given to
 * the surroundings, by lane.
 */
export function solveLines(
  cell: usize,
  step: usize,
  count: i32,
  lengths: usize,
  faces: usize,
  seconds: f32,
  open: bool,
  last: bool,
  scratch: usize,
): v128 {
  const perSecond: f32 = 1 / seconds;
  gather(cell, step, count, lengths, faces, perSecond, open, scratch);
  backward(count, scratch);
  for (let round = 0; round < corrections && correct(lengths, perSecond, scratch); round++) {
    const end = scratch + <usize>count * recordBytes;
    const outside = all(head(atOutside));
    for (let at = scratch; at < end; at += recordBytes) forward(at, outside);
    backward(count, scratch);
  }
  return carry(cell, step, count, lengths, seconds, last, scratch);
}
