import type { Kernel, Mesh } from '../../solid/types.js';
import { middleOfHalf } from '../health/boundary-loops.js';
import { remarkOfCavity } from '../health/cautions.js';
import { findShellCrossings, type ShellCrossings } from '../health/crossings.js';
import { keepTriangles } from '../health/duplicates.js';
import { remarksOfCrossings } from '../health/examine.js';
import { meshEdges } from '../health/mesh-edges.js';
import { findNesting } from '../health/nesting.js';
import { turnTriangles } from '../health/patches.js';
import { counted, figure, type MeshRemark, near } from '../health/remark.js';
import { type MeshShell, measureShells, middleOfBox } from '../health/shells.js';
import { groupShells } from './group-shells.js';
import { type SortedShells, sortShells } from './sort-shells.js';
import { remark } from './step.js';
import { uniteBodies } from './unite-bodies.js';

/** What to do with closed cavities: no investment gets into them, and metal fills them. */
export type CavityChoice = 'refuse' | 'fill' | 'keep';

export interface Solved {
  /** Null where it is refused. */
  readonly mesh: Mesh | null;
  readonly done: readonly MeshRemark[];
  readonly faults: readonly MeshRemark[];
}

/**
 * Makes one solid of closed shells whose triangles run one way each: turns them by how they lie in each other, drops
 * metal within metal, unites what overlaps.
 */
export function solveShells(mesh: Mesh, kernel: Kernel, cavities: CavityChoice): Solved {
  const edges = meshEdges(mesh.triangles);
  const { shellOf, count, touching } = groupShells(mesh.triangles, edges);
  const shells = measureShells(mesh, edges, shellOf, count);
  const found = findShellCrossings(mesh, shellOf);
  if (found.tangled)
    return {
      mesh: null,
      done: [],
      faults: [
        remark(
          'tangled',
          count,
          `The mesh is of ${counted(count, 'surface')} that lie through each other, too many to unite.`,
        ),
      ],
    };
  // Shells with an edge in common touch, even where none of their triangles do so otherwise.
  const known = new Set(found.between.map((c) => c.shells.join()));
  const crossings = {
    ...found,
    between: [
      ...found.between,
      ...touching
        .filter(({ shells }) => !known.has(shells.join()))
        .map(({ shells, half }) => ({ shells, at: middleOfHalf(mesh, half) })),
    ],
  };
  if (crossings.within > 0)
    return {
      mesh: null,
      done: [],
      faults: remarksOfCrossings({ ...crossings, between: [] }).map((fault) => ({
        ...fault,
        message: `${fault.message} What lies inside is then not certain.`,
      })),
    };
  const crossing = new Set(crossings.between.map((c) => c.shells.join()));
  const nesting = findNesting(mesh, shellOf, shells, (a, b) =>
    crossing.has(a < b ? `${a},${b}` : `${b},${a}`),
  );
  const sorted = sortShells(shells, nesting);
  const faults = [...refuseMixed(shells, sorted, crossings), ...refuseCavities(shells, sorted, cavities)];
  if (faults.length > 0) return { mesh: null, done: [], faults };
  const done = tellSorting(shells, sorted, cavities);
  const isKept = keptShells(sorted, cavities);
  const turned: Mesh = {
    positions: mesh.positions,
    triangles: turnTriangles(mesh.triangles, (f) => sorted.turned[shellOf[f]!]!),
  };
  const crossed = crossings.between.filter(({ shells: [a, b] }) => isKept(a) && isKept(b));
  if (crossed.length === 0) {
    const triangles = keepTriangles(turned.triangles, (f) => isKept(shellOf[f]!));
    return { mesh: { positions: mesh.positions, triangles }, done, faults: [] };
  }
  const bodies = [...shells.keys()].filter((s) => isKept(s) && sorted.fates[s] === 'body');
  const meshes = splitShells(turned, shellOf, count);
  const cavitiesOf = new Map<number, number[]>();
  sorted.parents.forEach((parent, c) => {
    if (isKept(c) && sorted.fates[c] === 'cavity')
      cavitiesOf.set(parent, [...(cavitiesOf.get(parent) ?? []), c]);
  });
  const united = uniteBodies(
    kernel,
    bodies.map((s) => ({ outside: meshes(s), cavities: (cavitiesOf.get(s) ?? []).map(meshes) })),
  );
  const at = crossed[0]!.at;
  if (!united)
    return {
      mesh: null,
      done,
      faults: [
        remark(
          'cannot-unite',
          crossed.length,
          `Bodies that cross or touch could not be made one, the first ${near(at)}. They must overlap by a real amount, or stay apart.`,
          at,
        ),
      ],
    };
  const { shift } = united;
  const moved = shift > 0 ? `, moved by ${figure(shift)} mm so that no faces all but coincide` : '';
  return {
    mesh: united.mesh,
    done: [
      ...done,
      remark(
        'bodies-united',
        bodies.length,
        `${counted(bodies.length, 'body', 'bodies')}, of which some overlap, were united${moved}, the first overlap ${near(at)}.`,
        at,
      ),
    ],
    faults: [],
  };
}

/** Whether a shell is part of the result. */
function keptShells({ fates, parents }: SortedShells, cavities: CavityChoice): (s: number) => boolean {
  const isKept = (s: number): boolean => {
    if (fates[s] === 'swallowed') return false;
    if (cavities === 'keep') return true;
    // Filled cavities go, and what lies in them.
    return fates[s] === 'body' && parents[s]! < 0;
  };
  return isKept;
}

/** Where shells cross, only those that face alike say what is meant. */
function refuseMixed(
  shells: readonly MeshShell[],
  { fates }: SortedShells,
  { between }: ShellCrossings,
): MeshRemark[] {
  const mixed = between.find(
    ({ shells: [a, b] }) =>
      fates[a] !== fates[b] || shells[a]!.volume > 0 !== shells[b]!.volume > 0 || fates[a] === 'cavity',
  );
  if (!mixed) return [];
  return [
    remark(
      'opposed-shells-cross',
      1,
      `A surface that faces outwards and one that faces inwards cross ${near(mixed.at)}: whether metal is to be added or taken away there is not certain.`,
      mixed.at,
    ),
  ];
}

function refuseCavities(
  shells: readonly MeshShell[],
  { fates }: SortedShells,
  cavities: CavityChoice,
): MeshRemark[] {
  if (cavities !== 'refuse') return [];
  const found = shells.filter((_, s) => fates[s] === 'cavity');
  return found.slice(0, 8).map((cavity) => {
    const told = remarkOfCavity(cavity);
    return { ...told, message: `${told.message} Have it filled, or open it to the outside.` };
  });
}

function tellSorting(
  shells: readonly MeshShell[],
  { fates, turned }: SortedShells,
  cavities: CavityChoice,
): MeshRemark[] {
  const done: MeshRemark[] = [];
  const tell = (code: string, is: (s: number) => boolean, one: string, many: string): void => {
    const found = shells.filter((_, s) => is(s));
    if (found.length === 0) return;
    const at = middleOfBox(found[0]!.box);
    const volume = found.reduce((sum, shell) => sum + Math.abs(shell.volume), 0);
    done.push(
      remark(
        code,
        found.length,
        `${counted(found.length, one, many)}: ${figure(volume)} mm³, the first ${near(at)}.`,
        at,
      ),
    );
  };
  tell(
    'shells-turned',
    (s) => turned[s] === true && fates[s] !== 'swallowed',
    'shell that faced the wrong way was turned',
    'shells that faced the wrong way were turned',
  );
  tell(
    'inner-bodies-dropped',
    (s) => fates[s] === 'swallowed',
    'body wholly inside the metal of another was left out',
    'bodies wholly inside the metal of others were left out',
  );
  if (cavities === 'fill')
    tell(
      'cavities-filled',
      (s) => fates[s] === 'cavity',
      'closed cavity was filled with metal',
      'closed cavities were filled with metal',
    );
  return done;
}

/** Each shell by itself, with the corners it has. */
function splitShells(
  { positions: p, triangles: t }: Mesh,
  shellOf: Int32Array,
  count: number,
): (shell: number) => Mesh {
  const starts = new Uint32Array(count + 1);
  for (const s of shellOf) starts[s + 1]!++;
  for (let s = 0; s < count; s++) starts[s + 1]! += starts[s]!;
  const fill = starts.slice();
  const order = new Uint32Array(shellOf.length);
  shellOf.forEach((s, f) => {
    order[fill[s]!++] = f;
  });
  return (shell) => {
    const list = order.subarray(starts[shell]!, starts[shell + 1]!);
    const positions = new Float32Array(9 * list.length);
    list.forEach((f, n) => {
      for (let k = 0; k < 3; k++)
        positions.set(p.subarray(3 * t[3 * f + k]!, 3 * t[3 * f + k]! + 3), 9 * n + 3 * k);
    });
    return { positions, triangles: Uint32Array.from({ length: 3 * list.length }, (_, i) => i) };
  };
}
