import type { Caution } from '../../foundry/plans.js';
import { type Html, html } from '../html.js';
import { type Context, capital } from './context.js';

/** What stands above this sheet, at each step that can hurt someone. */
const above: Readonly<Record<Caution['step'], string>> = {
  print: "The printer maker's and filament maker's instructions come before this sheet.",
  mix: "The investment maker's datasheet and safety sheet come before this sheet.",
  burnout: "The kiln's and investment's datasheets and local fire and air rules come before this sheet.",
  melt: "The furnace's, alloy's and flux's datasheets, local codes and licensed practice come before this sheet.",
  pour: "The makers' datasheets, local codes and the practice you were trained in come before this sheet.",
  quench: "The investment maker's datasheet comes before this sheet.",
  finish: "The tool's and abrasive's instructions and the alloy's safety sheet come before this sheet.",
  use: 'A loaded, lifting or safety part needs a competent person’s approval, and local codes come before this sheet.',
};

const sign = html`<svg class="sign" viewBox="0 0 24 22" aria-hidden="true"><path d="M12 1.5L23 20.5H1Z" fill="none" stroke="#000" stroke-width="2.2" stroke-linejoin="round"/><path d="M12 8V14" stroke="#000" stroke-width="2.4"/><circle cx="12" cy="17.3" r="1.4"/></svg>`;

/** The cautions of some steps in one box; nothing where the job has none there. */
export function cautionBox(ctx: Context, steps: readonly Caution['step'][]): Html {
  const cautions = ctx.summary.cautions.filter((c) => steps.includes(c.step));
  if (cautions.length === 0) return html``;
  return html`<div class="caution" data-step="${steps.join(' ')}">
<p class="caution-head">${sign} Caution</p>
<ul>${cautions.map((c) => html`<li><b>${capital(c.hazard)}.</b> ${c.text}</li>`)}</ul>
<p class="above">${steps.map((s) => above[s]).join(' ')}</p>
</div>`;
}

export interface Step {
  readonly number: number;
  readonly id: string;
  readonly title: string;
  /** What is done, in a sentence. */
  readonly lead: string;
  /** Whose cautions stand at the head. */
  readonly cautions: readonly Caution['step'][];
  readonly body: Html | readonly Html[];
}

/** One operation: its number, what to do, a place to sign it off, its cautions, then its work. */
export const renderStep = (ctx: Context, step: Step): Html => html`<section class="step" id="${step.id}">
<header>
<div class="number">${step.number}</div>
<div class="title"><h2>${step.title}</h2><p>${step.lead}</p></div>
<div class="signoff"><span>done by</span><span>date</span></div>
</header>
${cautionBox(ctx, step.cautions)}
${step.body}
</section>`;

/** Things to do, each with a box to tick. */
export const checklist = (items: readonly (string | Html | false)[]): Html =>
  html`<ul class="checklist">${items
    .filter((i) => i !== false)
    .map((i) => html`<li><span class="tick"></span><span>${i}</span></li>`)}</ul>`;
