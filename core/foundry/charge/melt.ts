/** Crucible, heats, heating, and the metal that each mould sees. */
import { type Finding, note, warn } from '../../part/finding.js';
import { formatNumber } from '../../units/index.js';
import { checkPositive, checkRange, FoundryInputError } from '../input.js';
import { stepUp, usualScaleStep } from '../scale.js';
import type { BenchCheck } from './bench-check.js';
import { heatToMelt } from './charge.js';
import { coolInCrucible, crucibleBody } from './cooling.js';
import { type Crucible, crucibles as commonCrucibles, workingCapacity } from './crucibles.js';
import { type HeatMould, splitHeats } from './heats.js';
import type { HeatPlan, MeltInput, MeltPlan } from './melt-plan.js';
import { defaultBetween, defaultToFirst, moltenMass, planStart, temperatures } from './melt-temperatures.js';

const handling = 'common practice, no source';

/**
 * The smallest crucible that takes all in one heat, or the largest there is and as many heats as that makes. Thinnest
 * first in each heat; where a mould would get metal too cold to fill it the start is raised or the pot reheated.
 * @throws FoundryInputError for no castings and values out of range.
 */
export function planMelt(input: MeltInput, bench: readonly BenchCheck[] = []): MeltPlan {
  const { alloy, castings, furnace, scaleStep = usualScaleStep } = input;
  if (!castings.some((c) => c.quantity > 0))
    throw new FoundryInputError('castings', 'an empty list', 'give at least one casting to pour');
  checkPositive('scaleStep', scaleStep, 'g');
  checkRange('meltLoss', input.meltLoss, 0, 0.5);
  checkRange('reserve', input.reserveFraction, 0, 1);
  checkRange('furnaceEfficiency', furnace.efficiency, 0.01, 1);
  if (furnace.power !== undefined) checkPositive('furnace power', furnace.power, 'W');

  const perGram = (1 + input.reserveFraction) / (1 - input.meltLoss);
  const owned = input.crucibles !== undefined && input.crucibles.length > 0;
  const crucible = chooseCrucible(input, perGram, scaleStep);
  const capacity = workingCapacity(crucible, alloy);
  const inMoulds = Math.floor(capacity / scaleStep) * (scaleStep / perGram);
  const split = splitHeats(castings, Math.max(inMoulds, 1e-6));
  const { start, findings: cooling } = planStart(input, crucible, split.heats, perGram);

  const heats = split.heats.map((moulds) => planHeat(input, crucible, moulds, start, perGram, scaleStep));
  const findings: Finding[] = [
    ...split.tooLarge.map((name) => exceeds(name, input, crucible, capacity, perGram)),
    ...cooling,
    ...overheated(input, heats),
    ...(heats.length > 1
      ? [
          note(
            'several-heats',
            `${alloy.title} takes ${heats.length} heats of at most ${Math.floor(capacity)} g in ${lower(crucible.title)}.`,
            'Charge and pour them one after the other, each from what the traveller lists for it.',
          ),
        ]
      : []),
  ];
  return {
    crucible: { name: crucible.name, title: crucible.title, capacity, owned },
    scaleStep,
    efficiency: furnace.efficiency,
    ...(furnace.power === undefined ? {} : { power: furnace.power }),
    metalTemperature: start,
    heats,
    bench,
    findings,
    bases: basesOf(input, crucible, scaleStep, bench),
  };
}

function chooseCrucible(input: MeltInput, perGram: number, step: number): Crucible {
  const list = [...(input.crucibles?.length ? input.crucibles : commonCrucibles)];
  list.sort((a, b) => a.brimVolume - b.brimVolume);
  const all = input.castings.reduce((sum, c) => sum + c.quantity * c.metal, 0);
  const charge = stepUp(all * perGram, step);
  return list.find((c) => workingCapacity(c, input.alloy) >= charge) ?? list.at(-1)!;
}

function planHeat(
  input: MeltInput,
  crucible: Crucible,
  moulds: readonly HeatMould[],
  start: number,
  perGram: number,
  step: number,
): HeatPlan {
  const { alloy, furnace } = input;
  const inMoulds = moulds.reduce((sum, m) => sum + m.metal, 0);
  const charge = stepUp(inMoulds * perGram, step);
  const body = crucibleBody(crucible);
  const leaves = coolInCrucible(
    alloy,
    body,
    moltenMass(input, moulds, perGram),
    start,
    -(input.toFirst ?? defaultToFirst),
  );
  const drawn = (charge * heatToMelt(alloy, leaves)) / furnace.efficiency;
  const counts = new Map<string, number>();
  for (const { name } of moulds) counts.set(name, (counts.get(name) ?? 0) + 1);
  return {
    castings: [...counts].map(([name, quantity]) => ({ name, quantity })),
    inMoulds,
    charge,
    drawn,
    ...(furnace.power === undefined ? {} : { time: drawn / furnace.power }),
    leaves,
    moulds: temperatures(input, crucible, moulds, start, perGram),
  };
}

/** A note where the metal must leave the furnace over its pouring range, to be at the mould as asked. */
function overheated(
  { alloy, metalRange, toFirst = defaultToFirst }: MeltInput,
  heats: readonly HeatPlan[],
): Finding[] {
  const hottest = Math.max(...heats.flatMap((h) => [h.leaves, ...h.moulds.map((m) => m.leaves ?? 0)]));
  if (hottest <= metalRange[1]) return [];
  return [
    note(
      'melt-leaves-hot',
      `${alloy.title} has to leave the furnace at up to ${Math.round(hottest)} °C, over its pouring range, which ends at ${Math.round(metalRange[1])} °C: so little metal cools fast on a way of ${toFirst} s.`,
      'Bring the mould to the furnace and pour at once, then it may leave cooler; or melt more at a time. Metal heated over its range takes up gas and boils off its zinc or tin.',
    ),
  ];
}

function exceeds(
  name: string,
  input: MeltInput,
  crucible: Crucible,
  capacity: number,
  perGram: number,
): Finding {
  const { metal = 0, patterns = 1 } = input.castings.find((c) => c.name === name) ?? {};
  const charge = Math.ceil(metal * perGram);
  const enough = commonCrucibles.find((c) => workingCapacity(c, input.alloy) >= charge);
  return warn(
    'mould-exceeds-crucible',
    `One mould of ${name} takes a charge of ${charge} g; ${lower(crucible.title)} holds ${Math.floor(capacity)} g of ${input.alloy.title}, and a mould is never filled from two heats.`,
    enough === undefined
      ? `${patterns > 1 ? 'Stand fewer patterns on the tree' : 'Cast it in pieces'}, or have it cast by a foundry.`
      : `Use one that holds as much as ${lower(enough.title)}, or ${patterns > 1 ? 'stand fewer patterns on the tree' : 'lighten the casting or its gating'}.`,
  );
}

/** Within a sentence; `A-shape` keeps its letter. */
const lower = (title: string): string =>
  title.charAt(1) === '-' ? title : title.charAt(0).toLowerCase() + title.slice(1);

function basesOf(
  input: MeltInput,
  crucible: Crucible,
  step: number,
  bench: readonly BenchCheck[],
): MeltPlan['bases'] {
  const percent = Math.round(input.furnace.efficiency * 100);
  return {
    weighOut: {
      rule: `each heat's charge, rounded up to ${formatNumber(step, { digits: 2 })} g, the scale's step`,
      source: 'Mass balance',
    },
    crucible: {
      rule: 'brim volume × 0.8 × liquid density',
      source: `${crucible.source}; share of the brim from memory`,
    },
    heats: {
      rule: 'whole moulds only, thinnest first in each; fewest heats of two orders of packing',
      source: 'First fit decreasing; thinnest first is common practice, no source',
    },
    drawn: {
      rule: `heat to melt and bring to the temperature it leaves at, over an efficiency of ${percent} %; the furnace itself already warm`,
      source:
        'Electric resistance 40–60 %, small gas furnaces 5–15 % (from memory), unless set in the shop profile',
    },
    leaves: {
      rule: `radiation and convection from surface and crucible for ${input.toFirst ?? defaultToFirst} s to the first mould and ${input.between ?? defaultBetween} s between moulds, metal and crucible at one temperature`,
      source: `Stefan–Boltzmann and Newton; emissivities from memory; times ${handling}`,
    },
    ...(bench.length === 0
      ? {}
      : {
          weighing: {
            rule: 'metal density / plastic density / growth in volume, for a solid print',
            source: 'Mass balance; sparse infill weighs less than its volume and makes it wrong',
          },
        }),
  };
}
