/** The files of each kind on a tree of several, beside the tree's own. */
import { formatFigure, formatSheet } from '../report/drawing/index.js';
import { castingsOf } from './castings-of.js';
import { stlOf } from './file-bytes.js';
import type { PaperUnits, PlannedFile } from './job-files.js';
import { type MemberBodies, memberStates } from './make-part.js';
import { partFiles } from './output-names.js';
import type { PartSummary } from './summary.js';

/** Meshes and drawing of every kind; none where the part is no such tree. */
export const filesOfMembers = (
  told: PartSummary,
  bodies: readonly MemberBodies[] | undefined,
  units: PaperUnits,
): readonly PlannedFile[] =>
  membersOf(told, bodies).flatMap(([casting, { meshes, drawing }]) => {
    const paths = partFiles(casting.name);
    return [
      ...memberStates.map((state) => ({
        path: paths[state],
        make: () => stlOf(casting.name, state, meshes[state]),
      })),
      {
        path: paths.drawing,
        make: () => new TextEncoder().encode(formatSheet(casting, drawing, units)),
      },
    ];
  });

/** The figures of every kind for the traveller, by the casting's name. */
export const figuresOfMembers = (
  told: PartSummary,
  bodies: readonly MemberBodies[] | undefined,
  units: PaperUnits,
): readonly (readonly [name: string, make: () => string])[] =>
  membersOf(told, bodies).map(([casting, { drawing }]) => [
    casting.name,
    () => formatFigure(casting, drawing, units),
  ]);

const membersOf = (
  told: PartSummary,
  bodies: readonly MemberBodies[] | undefined,
): readonly (readonly [PartSummary, MemberBodies])[] =>
  bodies === undefined ? [] : castingsOf([told]).map((casting, i) => [casting, bodies[i] as MemberBodies]);
