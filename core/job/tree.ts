import { defaultGatingSettings, placeTree, type TreePlace } from '../foundry/gating/index.js';
import type { GatePlace } from '../part/contract.js';
import { type Finding, note } from '../part/finding.js';
import { joinMeshes, placeMesh } from '../plate/place.js';
import type { Mesh, Vec2 } from '../solid/types.js';
import type { JobPart } from './job.js';

/** Where the patterns of one mould stand. */
export function treeOf(
  { patternsPerTree = 1 }: JobPart,
  { positions }: Mesh,
  gate: GatePlace | undefined,
  gap = defaultGatingSettings.patternGap,
): readonly TreePlace[] {
  const outline: Vec2[] = [];
  for (let i = 0; i < positions.length; i += 3)
    outline.push([positions[i] as number, positions[i + 1] as number]);
  const [x, y] = gate?.at ?? [0, 0];
  return placeTree(outline, [x, y], patternsPerTree, gap);
}

/** The patterns of one mould as one mesh; they stand apart. */
export const treeMesh = (pattern: Mesh, tree: readonly TreePlace[]): Mesh =>
  tree.length === 1
    ? pattern
    : joinMeshes(tree.map(({ turn, x, y }) => placeMesh(pattern, { turn, x, y, z: 0 })));

/** Moulds that give at least `quantity` castings. */
export const mouldsFor = ({ quantity, patternsPerTree = 1 }: JobPart): number =>
  Math.ceil(quantity / patternsPerTree);

/** What full trees give beyond what is wanted, and how there would be less of it. */
export const spareFindings = (request: JobPart): readonly Finding[] => {
  const { quantity, patternsPerTree = 1 } = request;
  const moulds = mouldsFor(request);
  const made = moulds * patternsPerTree;
  if (made === quantity) return [];
  const fewer = Math.ceil(quantity / moulds);
  const trees =
    moulds === 1 ? `One tree of ${patternsPerTree} gives` : `${moulds} trees of ${patternsPerTree} give`;
  const instead =
    fewer === patternsPerTree
      ? ''
      : fewer === 1
        ? ', leave patternsPerTree out'
        : `, stand ${fewer} on a tree`;
  return [
    note(
      'tree-spares',
      `${trees} ${made} castings, ${made - quantity} more than the ${quantity} wanted; plastic, mould, metal and cost are for all of them.`,
      `Keep them as spares${instead}, or make the quantity ${made}.`,
      'patternsPerTree',
    ),
  ];
};
