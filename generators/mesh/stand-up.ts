import { findGatePlaces, readGateGround } from '../../core/mesh/entry/index.js';
import {
  rankDirections,
  type StandingDirection,
  type TurnedMesh,
  turnToStand,
} from '../../core/mesh/stand/index.js';
import type { BuildKit, GatePlace } from '../../core/part/contract.js';
import { type Finding, note, stop, warn } from '../../core/part/finding.js';
import type { Mesh, Vec3 } from '../../core/solid/types.js';
import type { MeshParameters } from './parameters.js';

/** A mesh as it is printed and poured, and what was weighed. */
export type Stood =
  | { readonly ok: true; readonly turned: TurnedMesh; readonly findings: readonly Finding[] }
  | { readonly ok: false; readonly findings: readonly Finding[] };

const ranks = { best: 0, second: 1, third: 2 } as const;

const sides: Readonly<Record<Exclude<MeshParameters['up'], keyof typeof ranks>, Vec3>> = {
  'as-drawn': [0, 0, 1],
  bottom: [0, 0, -1],
  left: [-1, 0, 0],
  right: [1, 0, 0],
  front: [0, -1, 0],
  back: [0, 1, 0],
};

/** Gating over a part on the print bed, mm: a sprue and a cup, roughly (common practice, no source). */
const headroom = 60;

/** Turns the mesh the way that is asked for; of the best found, all that were weighed are told. */
export function standUp(
  mesh: Mesh,
  up: MeshParameters['up'],
  avoid: Uint8Array,
  bed: BuildKit['bed'],
): Stood {
  if (!(up in ranks)) {
    const direction = sides[up as keyof typeof sides];
    return stood(turnToStand(mesh, direction), []);
  }
  const ways = waysUp(mesh, avoid, bed);
  const way = ways[ranks[up as keyof typeof ranks]];
  if (way === undefined)
    return {
      ok: false,
      findings: [
        stop('no-such-stand', `only ${ways.length} ways to stand were found`, 'use best', 'up', {
          up: 'best',
        }),
      ],
    };
  const told = ways.slice(0, words.length).map((w, i) => tell(w, i, w === way));
  const unfit = way.measures.fits
    ? []
    : [
        warn(
          'stand-off-bed',
          way.reasons[0] ?? 'it does not fit the bed',
          'turn it another way, scale it, or print on a larger bed',
          'up',
        ),
      ];
  // One that would be better than all, but for the bed.
  const missed = ways
    .slice(words.length)
    .map((w) =>
      note(
        'stand-too-large',
        `It would stand best ${w.name}: ${w.reasons.join(' ')}`,
        'A larger bed would take it.',
        'up',
      ),
    );
  return stood(way.turned ?? turnToStand(mesh, way.direction), [...told, ...missed, ...unfit]);
}

/** A way to stand; of those that fit the bed the first are tried: the mesh so turned, and where its gate would stand. */
export interface WayUp extends StandingDirection {
  readonly turned?: TurnedMesh;
  readonly gate?: GatePlace;
}

/** The ways to stand in their order, but those that fit the bed and hold no gate after those that do. */
export function waysUp(mesh: Mesh, avoid: Uint8Array, bed?: BuildKit['bed']): readonly WayUp[] {
  const ways = rankDirections(mesh, { avoid, ...(bed ? { bed: { ...bed, headroom } } : {}) });
  const fitting = ways.filter((way) => way.measures.fits).slice(0, words.length);
  const tried = fitting.map((way): WayUp => {
    const turned = turnToStand(mesh, way.direction);
    const gate = gateOn(turned.mesh, avoid);
    return gate
      ? { ...way, turned, gate }
      : { ...way, turned, reasons: [...way.reasons, 'No gate stands on it.'] };
  });
  return [
    ...tried.filter((way) => way.gate),
    ...tried.filter((way) => !way.gate),
    ...ways.filter((way) => !fitting.includes(way)),
  ];
}

/** A gate off the marked surfaces, else on them. */
function gateOn(stood: Mesh, avoid: Uint8Array): GatePlace | undefined {
  const ground = readGateGround(stood);
  const unmarked = findGatePlaces(stood, { avoid, count: 1 }, ground);
  const found = unmarked.ok ? unmarked : findGatePlaces(stood, { count: 1 }, ground);
  return found.ok ? found.places[0] : undefined;
}

const words = Object.keys(ranks);

const tell = ({ name, score, reasons }: StandingDirection, i: number, chosen: boolean): Finding =>
  note(
    `stand-${words[i]}`,
    `${chosen ? 'It stands' : 'It could stand'} ${name} (${words[i]}, ${Math.round(100 * score)} of 100): ${reasons.join(' ')}`,
    chosen ? 'The others that were weighed are told beside it.' : `Choose it with up: ${words[i]}.`,
    'up',
    ...(chosen ? [] : [{ up: words[i]! }]),
  );

function stood(turned: TurnedMesh, findings: readonly Finding[]): Stood {
  if (turned.problems.length === 0) return { ok: true, turned, findings };
  return {
    ok: false,
    findings: [
      stop(
        'turn-spoils',
        `turned, the mesh is no longer sound: ${turned.problems.join('; ')}`,
        'mend its slivers, or leave it as drawn',
        'up',
        { up: 'as-drawn' },
      ),
      ...findings,
    ],
  };
}

/** Where a point as drawn goes. */
export const standing = ({ rotation, shift }: TurnedMesh, point: Vec3): Vec3 =>
  rotation.map(
    (row, k) => row[0] * point[0] + row[1] * point[1] + row[2] * point[2] + shift[k]!,
  ) as unknown as Vec3;

/** Where a point of the standing mesh is as drawn: a turn's rows are the columns of the turn back. */
export function asDrawn({ rotation, shift }: TurnedMesh, point: Vec3): Vec3 {
  const moved = point.map((v, k) => v - shift[k]!);
  return [0, 1, 2].map(
    (k) => rotation[0][k]! * moved[0]! + rotation[1][k]! * moved[1]! + rotation[2][k]! * moved[2]!,
  ) as unknown as Vec3;
}
