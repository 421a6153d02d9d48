import { flasks as builtInFlasks, type Flask } from '../foundry/flasks.js';
import type { Job } from './job.js';

/** The job's or the shop's own flasks, else the built-in list. */
export const flasksOf = (own: Job['flasks']): readonly Flask[] =>
  own?.map((f) => ({
    name: f.name,
    title: f.name,
    kind: f.base === 'closed' ? 'can' : 'tube',
    insideDiameter: f.diameter,
    insideHeight: f.height,
    wall: f.wall,
  })) ?? builtInFlasks;
