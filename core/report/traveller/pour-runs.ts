import type { PouredMould } from '../../foundry/charge/melt-plan.js';
import type { PourPlan } from '../../foundry/plans.js';
import type { PartSummary, Summary } from '../../job/summary.js';
import { type Html, html } from '../html.js';
import { own } from './context.js';

/** Moulds of one part that are poured one after another, and the metal they should see. */
export interface PourRun {
  /** From 0; undefined where the heats are not planned. */
  readonly heat?: number;
  readonly name: string;
  /** Undefined for a name that no part of the job has. */
  readonly part: PartSummary | undefined;
  /** First and last copy, from 1. */
  readonly copies: readonly [number, number];
  /** °C at the last and at the first of them; undefined where the heats are not planned. */
  readonly metal?: readonly [number, number];
  /** The least that fills them, °C. */
  readonly lowest?: number;
  /** Whether the pot goes back into the furnace before the first, and the °C it leaves that at, where planned. */
  readonly reheated: boolean;
  readonly leaves?: number;
}

/** Moulds of one name that follow each other in a heat without a reheat between. */
function together(moulds: readonly PouredMould[]): readonly (readonly PouredMould[])[] {
  const all: PouredMould[][] = [];
  for (const m of moulds) {
    const last = all.at(-1);
    if (last !== undefined && last[0]!.name === m.name && !m.reheated) last.push(m);
    else all.push([m]);
  }
  return all;
}

/** What is poured in which order: heat by heat where they are planned, else as the pour's plan has it. */
export function pourRuns({ parts, charge }: Summary, plan: PourPlan): readonly PourRun[] {
  const byName = new Map(parts.map((p) => [p.name, p]));
  const partOf = (name: string): PartSummary | undefined => byName.get(name);
  const heats = charge.find((c) => c.alloy === plan.alloy)?.melt?.heats;
  if (heats === undefined)
    return plan.order.map((name) => ({
      name,
      part: partOf(name),
      copies: [1, partOf(name)?.moulds ?? 1],
      reheated: false,
    }));
  return heats.flatMap((h, heat) =>
    together(h.moulds).map((run) => {
      const [first, last] = [run[0]!, run.at(-1)!];
      return {
        heat,
        name: first.name,
        part: partOf(first.name),
        copies: [first.copy, last.copy] as const,
        metal: [last.temperature, first.temperature] as const,
        lowest: Math.max(...run.map((m) => m.lowest)),
        reheated: first.reheated,
        ...(first.leaves === undefined ? {} : { leaves: first.leaves }),
      };
    }),
  );
}

/** `strand-pinion no. 1 to 2`, `strand-pinion × 3` for all of them, the name alone where there is one. */
export function runName({ name, part, copies: [first, last] }: PourRun): Html {
  const of = part?.moulds ?? 1;
  const times =
    of === 1
      ? ''
      : first === 1 && last === of
        ? `×\u00A0${of}`
        : `no.\u00A0${first === last ? first : `${first}\u00A0to\u00A0${last}`}`;
  return html`${own(name)}${times !== '' && html` <span class="times">${times}</span>`}`;
}

/** `back into the furnace, to leave it at 1189 °C`; nothing where the pot does not go back. */
export const backAgain = (run: PourRun, temperature: (c: number) => string): string | false =>
  run.reheated &&
  `back into the furnace${run.leaves === undefined ? '' : `, to leave it at ${temperature(run.leaves)}`}`;
