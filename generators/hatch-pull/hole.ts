import { type Finding, note, stop, warn } from '../../core/part/finding.js';
import type { HoleForm } from './body.js';
import type { PullState } from './levels.js';
import type { HatchPullParameters } from './parameters.js';

export interface HolePlan {
  readonly form: HoleForm;
  readonly findings: readonly Finding[];
}
