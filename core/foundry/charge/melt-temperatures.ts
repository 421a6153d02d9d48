/** The metal that each mould of a heat sees, and when the pot must go back into the furnace. */
import { type Finding, note, warn } from '../../part/finding.js';
import { lowestPour } from '../pour.js';
import { coolInCrucible, crucibleBody } from './cooling.js';
import type { Crucible } from './crucibles.js';
import type { HeatMould } from './heats.js';
import type { MeltInput, PouredMould } from './melt-plan.js';

/** s from the furnace to the first mould, and from one mould to the next. */
export const defaultToFirst = 15;
export const defaultBetween = 5;

export interface PourStart {
  /** °C at the first mould of every heat. */
  readonly start: number;
  readonly findings: readonly Finding[];
}

/**
 * The temperature asked for, or one raised within its range until every heat can be poured straight through. Where no
 * raising is enough it stays as asked, and the pot goes back into the furnace on the way.
 */
export function planStart(
  input: MeltInput,
  crucible: Crucible,
  heats: readonly (readonly HeatMould[])[],
  perGram: number,
): PourStart {
  const { metalTemperature: asked, alloy } = input;
  const top = input.temperatureSet ? asked : Math.max(asked, input.metalRange[1]);
  const straight = (start: number): boolean =>
    heats.every((h) => temperatures(input, crucible, h, start, perGram).every((m) => !m.reheated));
  if (straight(asked)) return { start: asked, findings: [] };
  if (!straight(top)) return { start: asked, findings: [coolsFinding(input, crucible, heats, perGram)] };
  let [low, high] = [asked, top];
  while (high - low > 0.25) {
    const middle = (low + high) / 2;
    if (straight(middle)) high = middle;
    else low = middle;
  }
  const start = Math.min(top, Math.ceil(high));
  return {
    start,
    findings: [
      note(
        'pour-raised',
        `The pour of ${alloy.title} starts at ${Math.round(start)} °C instead of ${Math.round(asked)} °C, so that the last mould still gets metal hot enough.`,
        'Pour fast, thinnest first; a fuller crucible cools more slowly.',
      ),
    ],
  };
}

/**
 * What each mould of a heat gets. The pot holds the charge less its melt loss, and each pour takes its metal. Where a
 * mould would get metal under its least, the pot is first brought back to `start`.
 */
export function temperatures(
  input: MeltInput,
  crucible: Crucible,
  moulds: readonly HeatMould[],
  start: number,
  perGram: number,
  reheats = true,
): readonly PouredMould[] {
  const { alloy, metalRange } = input;
  const body = crucibleBody(crucible);
  let metal = moltenMass(input, moulds, perGram);
  let now = start;
  return moulds.map((mould, i) => {
    if (i > 0) now = coolInCrucible(alloy, body, metal, now, input.between ?? defaultBetween);
    const wanted = lowestPour(alloy, mould.thinnestModulus);
    // Where the mould's material caps the metal below what so thin a section asks, the foot of the range is all there is.
    const lowest = Math.min(start, wanted > metalRange[1] ? metalRange[0] : wanted);
    const reheated = reheats && now < lowest - 1e-6;
    if (reheated) now = start;
    const temperature = now;
    const leaves = reheated && coolInCrucible(alloy, body, metal, start, -(input.toFirst ?? defaultToFirst));
    now = coolInCrucible(alloy, body, Math.max(0, metal - mould.metal / 2), now, mould.pourTime ?? 0);
    metal = Math.max(0, metal - mould.metal);
    return {
      name: mould.name,
      copy: mould.copy,
      temperature,
      lowest,
      reheated,
      ...(leaves === false ? {} : { leaves }),
    };
  });
}

/** g in the pot at the first mould. */
export const moltenMass = (input: MeltInput, moulds: readonly HeatMould[], perGram: number): number =>
  moulds.reduce((sum, m) => sum + m.metal, 0) * perGram * (1 - input.meltLoss);

function coolsFinding(
  input: MeltInput,
  crucible: Crucible,
  heats: readonly (readonly HeatMould[])[],
  perGram: number,
): Finding {
  const start = input.metalTemperature;
  const lasts = heats.map((h) => temperatures(input, crucible, h, start, perGram, false));
  const cold = lasts.flat().filter((m) => m.temperature < m.lowest - 1e-6);
  const worst = cold.reduce((a, b) => (b.temperature - b.lowest < a.temperature - a.lowest ? b : a));
  const heat = lasts.find((h) => h.includes(worst))!;
  return warn(
    'metal-cools',
    `Poured straight through, ${worst.name} (mould ${heat.indexOf(worst) + 1} of ${heat.length}) would get ${input.alloy.title} at ${Math.round(worst.temperature)} °C; it needs ${Math.ceil(worst.lowest)} °C to fill.`,
    'Put the crucible back to reheat where the traveller says so, or use a larger one, kept full.',
  );
}
