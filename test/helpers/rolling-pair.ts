/**
 * Two toothed outlines turned against each other, for tests only: it knows points and circles, no gear formula.
 * For each position of the first gear the second is turned up to it one way and the other until outlines touch.
 */

/** One flank of a tooth centred on +X from root to tip, its points rising in radius; the tooth is symmetrical. */
export interface RollingGear {
  readonly teeth: number;
  readonly profile: readonly { readonly radius: number; readonly angle: number }[];
}

export interface Rolled {
  /** Greatest less least position of the driven gear against the theoretical ratio, mm at its pitch circle. */
  readonly transmissionError: number;
  /** Play over the positions, mm at its pitch circle; below 0 the gears overlap. */
  readonly leastPlay: number;
  readonly mostPlay: number;
  /** Some point of the first gear's tip lies inside the second's root circle. */
  readonly tipInRoot: boolean;
}

/** Half angle at a radius, linear between the points. */
function halfAngleAt(gear: RollingGear, radius: number): number | undefined {
  const p = gear.profile;
  if (radius < p[0]!.radius || radius > p.at(-1)!.radius) return undefined;
  let [low, high] = [0, p.length - 1];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (p[middle]!.radius <= radius) low = middle;
    else high = middle;
  }
  const [a, b] = [p[low]!, p[high]!];
  const f = b.radius > a.radius ? (radius - a.radius) / (b.radius - a.radius) : 0;
  return a.angle + f * (b.angle - a.angle);
}

/** Turns `first` (at the origin) through one pitch against `second` (at `distance` on +X). */
export function rollPair(first: RollingGear, second: RollingGear, distance: number, positions = 24): Rolled {
  const pitch1 = (2 * Math.PI) / first.teeth;
  const pitch2 = (2 * Math.PI) / second.teeth;
  const pitchRadius = (distance * second.teeth) / (first.teeth + second.teeth);
  const reach = Math.min(first.teeth, 7);
  const drive: number[] = [];
  const coast: number[] = [];
  let tipInRoot = false;
  const root = second.profile[0]!.radius;
  for (let k = 0; k < positions; k++) {
    const turn1 = (pitch1 * k) / positions;
    // The second gear turns the other way; it shows a space where the first shows a tooth.
    const turn2 = Math.PI - pitch2 / 2 - (turn1 * first.teeth) / second.teeth;
    let [up, down] = [Infinity, Infinity];
    for (let tooth = -reach; tooth <= reach; tooth++) {
      for (const side of [1, -1]) {
        for (const p of first.profile) {
          const a = turn1 + tooth * pitch1 + side * p.angle;
          const [dx, dy] = [p.radius * Math.cos(a) - distance, p.radius * Math.sin(a)];
          const r = Math.hypot(dx, dy);
          if (r < root) tipInRoot = true;
          const half = halfAngleAt(second, r);
          if (half === undefined) continue;
          // How far round this point is from the nearest tooth's flank on either side of its space.
          const around = Math.atan2(dy, dx) - turn2;
          const inSpace = around / pitch2 - Math.floor(around / pitch2);
          up = Math.min(up, inSpace * pitch2 - half);
          down = Math.min(down, (1 - inSpace) * pitch2 - half);
        }
      }
    }
    drive.push(up);
    coast.push(down);
  }
  const play = drive.map((d, i) => (d + coast[i]!) * pitchRadius);
  return {
    transmissionError: (Math.max(...drive) - Math.min(...drive)) * pitchRadius,
    leastPlay: Math.min(...play),
    mostPlay: Math.max(...play),
    tipInRoot,
  };
}

/**
 * The same for a pinion (at `distance` on +X) inside a ring at the origin. `space` is the ring's tooth space as if it
 * were a tooth, from the ring's tips outwards.
 */
export function rollInRing(
  pinion: RollingGear,
  space: RollingGear,
  distance: number,
  positions = 24,
): Rolled {
  const pitch2 = (2 * Math.PI) / space.teeth;
  const pitchRadius = (distance * space.teeth) / (space.teeth - pinion.teeth);
  const [drive, coast]: [number[], number[]] = [[], []];
  let tipInRoot = false;
  for (let k = 0; k < positions; k++) {
    const turn = (2 * Math.PI * k) / (pinion.teeth * positions);
    let [up, down] = [Infinity, Infinity];
    forEachPoint(pinion, turn, (px, py) => {
      const [x, y] = [px + distance, py];
      const r = Math.hypot(x, y);
      if (r > space.profile.at(-1)!.radius) tipInRoot = true;
      const half = halfAngleAt(space, r);
      if (half === undefined) return;
      const around = Math.atan2(y, x) - (turn * pinion.teeth) / space.teeth;
      const off = around - pitch2 * Math.round(around / pitch2);
      up = Math.min(up, half - off);
      down = Math.min(down, half + off);
    });
    drive.push(up * pitchRadius);
    coast.push(down * pitchRadius);
  }
  return summed(drive, coast, tipInRoot);
}

/** The same for a pinion at the origin on a rack; `tooth`: half thickness of the rack's tooth by height, root to tip. */
export function rollOnRack(
  pinion: RollingGear,
  tooth: readonly { readonly height: number; readonly half: number }[],
  pitch: number,
  mounting: number,
  positions = 24,
): Rolled {
  // Heights read as radii, thicknesses as angles: the table is the same.
  const table = { teeth: 1, profile: tooth.map(({ height, half }) => ({ radius: height, angle: half })) };
  const pitchRadius = (pitch * pinion.teeth) / (2 * Math.PI);
  const [drive, coast]: [number[], number[]] = [[], []];
  let tipInRoot = false;
  for (let k = 0; k < positions; k++) {
    const turn = (2 * Math.PI * k) / (pinion.teeth * positions);
    let [up, down] = [Infinity, Infinity];
    forEachPoint(pinion, turn, (x, y) => {
      const height = mounting - x;
      if (height < tooth[0]!.height) tipInRoot = true;
      const half = halfAngleAt(table, height);
      if (half === undefined) return;
      const along = y - pitchRadius * turn;
      const off = along - pitch * Math.round(along / pitch);
      up = Math.min(up, pitch / 2 - half - off);
      down = Math.min(down, pitch / 2 - half + off);
    });
    drive.push(up);
    coast.push(down);
  }
  return summed(drive, coast, tipInRoot);
}

function forEachPoint(gear: RollingGear, turn: number, visit: (x: number, y: number) => void): void {
  const reach = Math.min(Math.floor(gear.teeth / 4), 8);
  for (let tooth = -reach; tooth <= reach; tooth++) {
    for (const side of [1, -1]) {
      for (const p of gear.profile) {
        const a = turn + (tooth * 2 * Math.PI) / gear.teeth + side * p.angle;
        visit(p.radius * Math.cos(a), p.radius * Math.sin(a));
      }
    }
  }
}

function summed(drive: readonly number[], coast: readonly number[], tipInRoot: boolean): Rolled {
  const play = drive.map((d, i) => d + coast[i]!);
  return {
    transmissionError: Math.max(...drive) - Math.min(...drive),
    leastPlay: Math.min(...play),
    mostPlay: Math.max(...play),
    tipInRoot,
  };
}
