/** What a tree by hand takes beyond its patterns by themselves: powder, and hours in the kiln. */
import type { BlockInvestment } from '../foundry/investment.js';
import type { Plastic } from '../foundry/material.js';
import type { FlaskPlan, PourPlan } from '../foundry/plans.js';
import { type Finding, hasStop, note } from '../part/finding.js';
import { formatDuration } from '../units/index.js';
import { fireFlasks } from './flask-fire.js';
import type { Job } from './job.js';
import type { PartRecord } from './make-part.js';
import { asPart } from './make-tree.js';
import { treeTrial } from './tree-trial.js';

/** Less is within what the moulds by themselves are estimated by: their air vents are not known. */
const worthTelling = 1.05;

const kilograms = (g: number): string => `${(g / 1000).toPrecision(2)} kg`;

/** None where the tree takes no more, or where its patterns could not be had alone. @param flask the tree's */
export function treeCost(
  tree: PartRecord,
  flask: FlaskPlan,
  pour: readonly PourPlan[],
  investment: BlockInvestment,
  plastic: Plastic,
  job: Job,
): readonly Finding[] {
  const { members, request, single } = tree;
  const hung =
    members?.map((m) => ({ ...m.single, request: asPart(m.request, request), count: m.request.count })) ??
    (single ? [{ ...single, request, count: request.patternsPerTree ?? 1 }] : []);
  const kinds = hung.map((kind) => ({
    ...kind,
    area: 0,
    slurry: 0,
    charge: 0,
    // What it falls short in is told of the tree.
    broken: { has: () => true },
  }));
  const alone = kinds.map((kind) => treeTrial([kind], job)([1])?.flask);
  const flasks = alone.flatMap((own, k) =>
    own === undefined ? [] : [{ flask: own, alloy: request.alloy, moulds: kinds[k]!.count, name: '' }],
  );
  if (kinds.length === 0 || flasks.length < kinds.length) return [];
  const count = flasks.reduce((sum, f) => sum + f.moulds, 0);
  const powder = flasks.reduce((sum, f) => sum + f.moulds * f.flask.weigh.powder, 0);
  const fireOf = (of: typeof flasks) => fireFlasks(of, pour, investment, plastic, job);
  const [fire, own] = [fireOf([{ ...flasks[0]!, flask, moulds: 1 }]), fireOf(flasks)];
  if (hasStop([...fire.findings, ...own.findings])) return [];
  const told = [
    ...(flask.weigh.powder > worthTelling * powder
      ? [
          `takes ${kilograms(flask.weigh.powder)} of powder, its ${count} patterns by themselves about ${kilograms(powder)}`,
        ]
      : []),
    ...(fire.total > worthTelling * own.total
      ? [
          `burns out in ${formatDuration(fire.total)}, those of its patterns by themselves in about ${formatDuration(own.total)}`,
        ]
      : []),
  ];
  if (told.length === 0) return [];
  return [
    note(
      'tree-takes-more',
      `The flask of ${request.name} ${told.join('; it ')}.`,
      'Cast them by themselves or fewer on a tree, unless fewer moulds and pours are worth that.',
    ),
  ];
}
