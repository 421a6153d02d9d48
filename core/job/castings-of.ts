import type { PartSummary, Summary } from './summary.js';

/**
 * What a job's castings are, one kind each: a part by itself, or each kind on a tree of several, called `tree/member`.
 * What is of the whole tree (gating, mould, charge) each has as the tree has it.
 */
export const castingsOf = (parts: Summary['parts']): readonly PartSummary[] =>
  parts.flatMap((part): readonly PartSummary[] => {
    const { members, ...tree } = part;
    if (members === undefined) return [part];
    return members.map(({ count: patternsPerTree, ...own }) => ({
      ...tree,
      ...own,
      patternsPerTree,
      name: castingName(part.name, own.name),
      mass: { ...tree.mass, ...own.mass },
      volume: { ...tree.volume, ...own.volume },
      meshes: { ...tree.meshes, ...own.meshes },
      findings: [],
    })) as readonly PartSummary[];
  });

/** What a kind on a tree of several is called among the castings of a job, and its folder. */
export const castingName = (tree: string, member: string): string => `${tree}/${member}`;
