import { contactLines } from '../../../core/gear/running/contacts.js';
import type { RunningPair } from '../../../core/gear/running/running-pair.js';
import { lineOfAction } from '../../../core/gear/running/section-lines.js';
import { type FlankSide, type Stand, standsAt } from '../../../core/gear/running/stand.js';
import type { Vec2, Vec3 } from '../../../core/solid/types.js';
import type { Mark, Ray, Standing } from '../view/content.js';

/** A chosen part with its mate: which of them is the pair's `gear`. */
export interface Couple {
  readonly pair: RunningPair;
  readonly chosenFirst: boolean;
  readonly faceWidth: number;
}

/** What the view shows of a pair at one moment: bodies `gear` (the chosen part) and `mate`, each as its part is built. */
export interface RunningScene {
  readonly standings: Readonly<Record<'gear' | 'mate', Standing>>;
  /** Where flanks touch. */
  readonly marks: readonly Mark[];
  readonly rays: readonly Ray[];
}

/** A rack lies under its pinion; the line of centres of others runs along X. */
export const frameTurn = ({ mesh }: RunningPair): number => (mesh.kind === 'rack' ? -Math.PI / 2 : 0);

/** The pair with its first member turned by `angle`, rad. */
export function runningScene(couple: Couple, angle: number, side: FlankSide): RunningScene {
  const { pair, chosenFirst, faceWidth } = couple;
  const frame = frameTurn(pair);
  const stands = standsAt(pair, angle, side);
  const [first, second] = [stands.gear, stands.mate].map((stand) => standing(stand, frame)) as [
    Standing,
    Standing,
  ];
  const place = ([x, y]: Vec2 | Vec3, z: number): Vec3 => [...turned([x, y], frame), z];
  const { path } = lineOfAction(pair, side);
  const middle = faceWidth / 2;
  const over = 0.2 * faceWidth;
  const axis = (at: Vec2): Ray => ({ from: place(at, -over), to: place(at, faceWidth + over), kind: 'axis' });
  return {
    standings: chosenFirst ? { gear: first, mate: second } : { gear: second, mate: first },
    marks: contactLines(pair, angle, side).flatMap(({ points }) =>
      [0, 0.5, 1].map((share): Mark => {
        const [x, y, z] = alongLine(points, share);
        return { at: place([x, y], z), kind: 'contact' };
      }),
    ),
    rays: [
      ...(side === 'midway'
        ? []
        : [{ from: place(path[0], middle), to: place(path[1], middle), kind: 'action' } as const]),
      axis([0, 0]),
      ...(pair.mesh.kind === 'rack' ? [] : [axis(stands.mate.at)]),
    ],
  };
}

const turned = ([x, y]: Vec2, angle: number): Vec2 => {
  if (angle === 0) return [x, y];
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [c * x - s * y, s * x + c * y];
};

const standing = ({ turn, at }: Stand, frame: number): Standing => ({
  turn: turn + frame,
  at: [...turned(at, frame), 0],
});

/** A place on a polyline, by its height. */
function alongLine(points: readonly Vec3[], share: number): Vec3 {
  const [first, last] = [points[0] as Vec3, points.at(-1) as Vec3];
  const z = first[2] + share * (last[2] - first[2]);
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1] as Vec3, points[i] as Vec3];
    if (z > b[2] && i + 1 < points.length) continue;
    const f = b[2] > a[2] ? (z - a[2]) / (b[2] - a[2]) : 0;
    return [a[0] + f * (b[0] - a[0]), a[1] + f * (b[1] - a[1]), z];
  }
  return first;
}
