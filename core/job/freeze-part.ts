/** How one part of a job fills and freezes. */
import { type Alloy, findAlloy } from '../foundry/alloys/index.js';
import { defaultGatingSettings, type GatingSettings } from '../foundry/gating/index.js';
import { findInvestment, type Investment } from '../foundry/investment.js';
import type { PourPlan } from '../foundry/plans.js';
import type { CastFields } from '../freeze/cast-fields.js';
import { freezeCasting } from '../freeze/cast-freeze.js';
import type { CastStart } from '../freeze/cast-heat.js';
import type { Crew } from '../freeze/kernel/crew.js';
import type { MouldKind } from '../freeze/mould-block.js';
import type { FreezeLevel, FreezePlan } from '../freeze/plans.js';
import type { Vec2 } from '../solid/types.js';
import type { Job, JobPart } from './job.js';
import { gatingOf, type MadePart, type PartRecord } from './make-part.js';
import { present } from './present.js';
import type { PartMould } from './summary.js';

/** s from the kiln to the pour of a flask. Common practice, no source. */
export const usualDelay = 60;

export interface FrozenPart {
  readonly plan: FreezePlan;
  readonly fields: CastFields;
}

/** What of a made part its mould is filled and frozen from. */
export interface PartInMould extends PartRecord, Pick<MadePart, 'standing'> {
  readonly meshes: Pick<MadePart['meshes'], 'gated'>;
}

/** What of a pour its moulds fill and freeze by. */
export type PourState = Pick<PourPlan, 'metalTemperature' | 'flaskTemperature' | 'carry'>;

/** Fills and freezes a part's mould; undefined where the job wants none of it. */
export function freezePart(
  made: PartInMould,
  mould: PartMould,
  pour: PourState,
  job: Job,
  options: { readonly crew?: Crew; readonly onProgress?: (share: number) => void } = {},
): FrozenPart | undefined {
  const level: FreezeLevel = job.freeze ?? 'coarse';
  if (level === 'off') return undefined;
  const { gated } = made.meshes;
  return freezeCasting(
    {
      gated,
      standing: made.standing,
      mould: kindOf(mould, made.flaskAxis),
      gating: made.gating,
      alloy: findAlloy(made.request.alloy, job.shop.alloys) as Alloy,
      investment: findInvestment(job.investment) as Investment,
      settings: settingsOf(made.request, job),
      start: startOf(mould, pour, job),
      level,
    },
    options,
  );
}

/** What the gating of a part was planned with. */
export const settingsOf = (request: JobPart, job: Job): GatingSettings => ({
  ...defaultGatingSettings,
  ...gatingOf(request, job),
});

const kindOf = ({ flask, shell }: PartMould, axis: Vec2 | undefined): MouldKind =>
  flask
    ? {
        kind: 'flask',
        insideDiameter: flask.insideDiameter,
        floor: flask.clearance.floor,
        ...present({ axis }),
      }
    : // A layer t thick of volume V over an area A: the outside is 2V/t − A, as Steiner's formula has it to its second term.
      {
        kind: 'shell',
        thickness: shell.thickness,
        outerArea: (2 * shell.volume) / shell.thickness - shell.area,
      };

/** A shell's plan says what it has at the pour, carried there. */
const startOf = ({ shell }: PartMould, pour: PourState, job: Job): CastStart => ({
  metal: pour.metalTemperature,
  mould: pour.flaskTemperature,
  delay: shell ? (pour.carry?.seconds ?? 0) : (job.pourDelay ?? usualDelay),
  stands: shell ? shell.stands : 'in its flask',
});
