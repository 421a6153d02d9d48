import type { Mesh } from '../../core/solid/types.js';
import { weldedFrom } from './expect-sound.js';
import { crossing, freeTurn, leastGap, placed, type Sides, sidesNear } from './first-contact.js';
import { areaOf, type Flat, horizontal, type Loop, section } from './sections.js';

/**
 * Two meshes turned through a pitch at their tooth ratio, in sections at several heights. Knows where the axes stand
 * and the tooth numbers, no formula of gears.
 */
export interface MeshPair {
  /** Heights at which both are cut, mm. */
  readonly heights: readonly number[];
  /** Outlines that face each other at a height and at a share of a pitch; the second can turn about `centre`. */
  readonly at: (height: number, share: number) => readonly [fixed: Sides, turning: Sides];
  readonly centre: Flat;
  /** Of the member that can turn, mm; angles become arcs here. */
  readonly pitchRadius: number;
}

export interface Turned {
  /** Positions and heights at which the outlines cross each other. */
  readonly overlaps: number;
  /** Turn to and fro between first contacts, over all heights at once: least and most over the pitch, mm. */
  readonly leastPlay: number;
  readonly mostPlay: number;
  /** Greatest less least place of first contact over the pitch, worse of the two flanks, mm. */
  readonly transmissionError: number;
  /** The same within one section, the worst of them. */
  readonly sectionError: number;
  /** Least distance of the outlines, the teeth standing midway, mm. */
  readonly leastGap: number;
}

export function turnThroughPitch(pair: MeshPair, positions: number): Turned {
  const { heights, centre, pitchRadius } = pair;
  const [drive, coast] = [0, 1].map(() => heights.map(() => new Float64Array(positions))) as [
    Float64Array[],
    Float64Array[],
  ];
  let [overlaps, least] = [0, Infinity];
  heights.forEach((height, h) => {
    for (let k = 0; k < positions; k++) {
      const [fixed, turning] = pair.at(height, k / positions);
      if (crossing(fixed, turning)) overlaps++;
      const { forward, backward } = freeTurn(fixed, turning, centre);
      (drive[h] as Float64Array)[k] = forward * pitchRadius;
      (coast[h] as Float64Array)[k] = backward * pitchRadius;
      least = Math.min(least, leastGap(fixed, turning));
    }
  });
  const atOnce = (side: readonly Float64Array[]): number[] =>
    Array.from({ length: positions }, (_, k) => Math.min(...side.map((one) => one[k] as number)));
  const swing = (values: ArrayLike<number>): number =>
    Math.max(...Array.from(values)) - Math.min(...Array.from(values));
  const [driven, coasted] = [atOnce(drive), atOnce(coast)];
  const play = driven.map((d, k) => d + (coasted[k] as number));
  return {
    overlaps,
    leastPlay: Math.min(...play),
    mostPlay: Math.max(...play),
    transmissionError: Math.max(swing(driven), swing(coasted)),
    sectionError: Math.max(...[...drive, ...coast].map(swing)),
    leastGap: least,
  };
}

export interface Member {
  readonly mesh: Mesh;
  readonly teeth: number;
}

/** Sides farther apart than this, mm, are not looked at: more than any play tried. */
const reach = 1;

/** The first gear on the origin, the second on (a, 0): a tooth of the one on +X, a space of the other on −X. */
export function externalPair(
  first: Member,
  second: Member,
  distance: number,
  heights: readonly number[],
): MeshPair {
  const [one, other] = [cuts(first.mesh, outside), cuts(second.mesh, outside)];
  return {
    heights,
    centre: [distance, 0],
    pitchRadius: (distance * second.teeth) / (first.teeth + second.teeth),
    at: (height, share) => {
      const turn = (share * 2 * Math.PI) / second.teeth;
      const turning = placed(other(height), Math.PI - Math.PI / second.teeth - turn, [distance, 0]);
      const fixed = placed(one(height), (share * 2 * Math.PI) / first.teeth, [0, 0]);
      return facing(fixed, turning);
    },
  };
}

/** The ring on the origin, free to turn; the pinion on (a, 0): a tooth of the pinion in a space of the ring on +X. */
export function internalPair(
  pinion: Member,
  ring: Member,
  distance: number,
  heights: readonly number[],
): MeshPair {
  const [one, other] = [cuts(pinion.mesh, outside), cuts(ring.mesh, inside)];
  return {
    heights,
    centre: [0, 0],
    pitchRadius: (distance * ring.teeth) / (ring.teeth - pinion.teeth),
    at: (height, share) => {
      const turning = placed(other(height), (share * 2 * Math.PI) / ring.teeth, [0, 0]);
      const fixed = placed(one(height), (share * 2 * Math.PI) / pinion.teeth, [distance, 0]);
      // What of the pinion is well inside the ring's tips meets nothing.
      const tips = leastRadius(turning) - reach;
      const outer = kept(fixed, (x, y) => Math.hypot(x, y) > tips);
      return facing(outer, turning);
    },
  };
}

/** The rack as it lies, its teeth up; the pinion above its middle, free to turn: a tooth down in a space. */
export function rackPair(
  pinion: Member,
  rack: Member,
  mounting: number,
  heights: readonly number[],
): MeshPair {
  const [one, other] = [cuts(rack.mesh, outside), cuts(pinion.mesh, outside)];
  const length = lengthOf(rack.mesh);
  const pitch = length / rack.teeth;
  // Teeth end to end fill the length: spaces lie on whole pitches from its end.
  const space = pitch * Math.round(rack.teeth / 2);
  const centre: Flat = [0, mounting];
  return {
    heights,
    centre,
    pitchRadius: (pitch * pinion.teeth) / (2 * Math.PI),
    at: (height, share) => {
      const turn = (share * 2 * Math.PI) / pinion.teeth;
      const turning = placed(other(height), turn - Math.PI / 2, centre);
      const fixed = placed(one(height), 0, [share * pitch - space, 0]);
      return facing(fixed, turning);
    },
  };
}

/** What of either comes near the other. */
function facing(fixed: Sides, turning: Sides): [Sides, Sides] {
  const near = sidesNear(fixed, turning, reach);
  const facingIt = sidesNear(turning, near, reach);
  return [sidesNear(near, facingIt, reach), facingIt];
}

function kept(sides: Sides, keep: (x: number, y: number) => boolean): Sides {
  const chosen: number[] = [];
  for (let i = 0; i < sides.length; i += 4) {
    const [a, b, c, d] = sides.subarray(i, i + 4) as unknown as [number, number, number, number];
    if (keep(a, b) || keep(c, d)) chosen.push(a, b, c, d);
  }
  return Float64Array.from(chosen);
}

const leastRadius = (sides: Sides): number => {
  let least = Infinity;
  for (let i = 0; i < sides.length; i += 2)
    least = Math.min(least, Math.hypot(sides[i] as number, sides[i + 1] as number));
  return least;
};

const lengthOf = ({ positions }: Mesh): number => {
  let [from, to] = [Infinity, -Infinity];
  for (let i = 0; i < positions.length; i += 3) {
    from = Math.min(from, positions[i] as number);
    to = Math.max(to, positions[i] as number);
  }
  return to - from;
};

const outside = (loops: readonly Loop[]): Loop => loops.reduce((a, b) => (areaOf(b) > areaOf(a) ? b : a));
const inside = (loops: readonly Loop[]): Loop => loops.reduce((a, b) => (areaOf(b) < areaOf(a) ? b : a));

/** Sections of a mesh by height, each cut once. */
function cuts(mesh: Mesh, which: (loops: readonly Loop[]) => Loop): (height: number) => Loop {
  const welded = weldedFrom(mesh);
  const known = new Map<number, Loop>();
  return (height) => {
    const loop = known.get(height) ?? which(section(welded, horizontal(height)));
    known.set(height, loop);
    return loop;
  };
}
