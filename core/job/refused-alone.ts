/** What refuses made parts one by one: their moulds, the kiln, the metal, the bed. */
import { type Alloy, findAlloy } from '../foundry/alloys/index.js';
import { checkInKiln } from '../foundry/burnout.js';
import { findInvestment, type Investment } from '../foundry/investment.js';
import type { PourPlan } from '../foundry/plans.js';
import { planPour } from '../foundry/pour.js';
import { type Finding, hasStop } from '../part/finding.js';
import type { Job } from './job.js';
import type { RefusedPart } from './left-out.js';
import type { PartRecord } from './make-part.js';
import { notOnBed } from './nest-plates.js';
import { mouldFor } from './part-mould.js';
import { mouldFindings, type PartMould } from './summary.js';

/** Of the parts, each as it stands alone; the same part may be told of twice. */
export function refusedAlone(job: Job, made: readonly PartRecord[]): readonly RefusedPart[] {
  const investment = findInvestment(job.investment) as Investment;
  const unsuitable = new Map(
    distinctAlloys(made, job).map((alloy) => [alloy.name, pourFor(alloy, made, investment).findings]),
  );
  return [
    ...made.map((m) => ({
      name: m.request.name,
      findings: [...checkMould(m, mouldFor(m, job), job), ...(unsuitable.get(m.request.alloy) ?? [])],
    })),
    ...notOnBed(job, made),
  ].filter(({ findings }) => hasStop(findings));
}

/** What speaks against a part in its mould: no mould holds it, or no kiln the mould. */
export function checkMould(made: PartRecord, mould: PartMould, { shop }: Job): readonly Finding[] {
  const { name } = made.request;
  const inKiln = mould.flask
    ? { name, diameter: mould.flask.insideDiameter, height: mould.flask.insideHeight }
    : { name, diameter: mould.shell.diameter, height: mould.shell.size[2] };
  const findings = mouldFindings(mould);
  return hasStop(findings)
    ? findings
    : [...findings, ...checkInKiln(shop.kiln, inKiln, mould.flask ? 'flask' : 'shell')];
}

/** In the order of the parts. */
export const distinctAlloys = (made: readonly PartRecord[], job: Job): readonly Alloy[] =>
  [...new Set(made.map((m) => m.request.alloy))].flatMap((name) => findAlloy(name, job.shop.alloys) ?? []);

/** The pour of those that are of the alloy. */
export function pourFor(alloy: Alloy, made: readonly PartRecord[], investment: Investment): PourPlan {
  return planPour({
    alloy,
    investment,
    parts: made
      .filter((m) => m.request.alloy === alloy.name)
      .map((m) => ({ name: m.request.name, thinnestModulus: m.thinnestModulus })),
  });
}
