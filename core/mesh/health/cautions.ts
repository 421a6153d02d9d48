import { leastWall } from '../../hardware/casting-rules.js';
import type { Mesh } from '../../solid/types.js';
import { findKnifeEdges } from './fins.js';
import type { MeshEdges } from './mesh-edges.js';
import { counted, figure, type MeshRemark, near } from './remark.js';
import { longestSide, type MeshShell, middleOfBox } from './shells.js';
import { findThinWalls } from './walls.js';

export interface CautionOptions {
  /** Least wall that can be cast, mm; that of an unnamed alloy when left out. */
  readonly leastWall?: number;
}

/** A loose body smaller than this, mm, or with less than a ten-thousandth of the largest body's volume, is a speck. */
const speckSize = 1;
const speckShare = 1e-4;

/**
 * What is hard to cast: cavities, specks, knife edges and thin walls.
 *
 * @param mesh its triangles running one way
 */
export function cautionsOf(
  mesh: Mesh,
  edges: MeshEdges,
  shells: readonly (MeshShell & { readonly kind: string })[],
  closed: boolean,
  options: CautionOptions,
): MeshRemark[] {
  const found: MeshRemark[] = [];
  for (const cavity of shells.filter((s) => s.kind === 'cavity').slice(0, 8))
    found.push(remarkOfCavity(cavity));
  const specks = findSpecks(shells);
  if (specks.length > 0) {
    const volume = specks.reduce((sum, s) => sum + Math.abs(s.volume), 0);
    const at = middleOfBox(specks[0]!.box);
    found.push({
      code: 'specks',
      count: specks.length,
      at,
      message: `${counted(specks.length, 'loose speck')}, ${figure(volume)} mm³ together, the first ${near(at)}: each would be a casting of its own, cut off from the gate.`,
    });
  }
  const knife = findKnifeEdges(mesh, edges);
  if (knife)
    found.push({
      code: 'knife-edges',
      count: knife.edges,
      at: knife.at,
      message: `${figure(knife.length)} mm of edges run out to nothing, the sharpest at ${figure((knife.angle * 180) / Math.PI)}°, ${near(knife.at)}: metal does not fill them.`,
    });
  const least = options.leastWall ?? leastWall();
  const volume = shells.reduce((sum, s) => sum + s.volume, 0);
  const walls = closed && volume > 0 ? findThinWalls(mesh, least) : null;
  if (walls)
    found.push({
      code: 'thin-walls',
      count: Math.round(walls.share * walls.places),
      at: walls.at,
      message: `Walls are down to ${figure(walls.thickness)} mm ${near(walls.at)}; at least ${figure(least)} mm can be cast. About ${walls.share < 0.01 ? 'a hundredth or less' : `${Math.round(100 * walls.share)} %`} of the surface has too little behind it.`,
    });
  return found;
}

export function remarkOfCavity(cavity: MeshShell): MeshRemark {
  const at = middleOfBox(cavity.box);
  return {
    code: 'closed-cavity',
    count: 1,
    at,
    message: `A closed cavity of ${figure(Math.abs(cavity.volume))} mm³ ${near(at)}: no investment gets into it, so metal would fill it.`,
  };
}

/** Closed outer shells too small to be meant, the smallest first. */
export function findSpecks<S extends MeshShell & { readonly kind: string }>(
  shells: readonly S[],
): readonly S[] {
  const bodies = shells.filter((s) => s.kind === 'body' || s.kind === 'inside-out');
  const largest = bodies.reduce((most, s) => Math.max(most, Math.abs(s.volume)), 0);
  return bodies
    .filter((s) => Math.abs(s.volume) < largest)
    .filter((s) => longestSide(s.box) < speckSize || Math.abs(s.volume) < speckShare * largest)
    .sort((a, b) => Math.abs(a.volume) - Math.abs(b.volume));
}
