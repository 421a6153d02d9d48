/** What can hurt someone, at the step of the traveller where it does. Advice of the trade; the law and makers come first. */
import type { Alloy, HazardCode } from './alloys/index.js';
import type { Investment } from './investment.js';
import type { Plastic } from './material.js';
import type { Caution } from './plans.js';

/**
 * Cautions for the job, in the order of the work. Those of the melt itself stand always; those of an alloy stand
 * where the job has it, and name it.
 */
export function planCautions(
  alloys: readonly Alloy[],
  investment: Investment,
  plastic: Plastic,
): readonly Caution[] {
  const all = [...always(investment, plastic), ...alloyCautions(alloys)];
  return [...all].sort((a, b) => steps.indexOf(a.step) - steps.indexOf(b.step));
}

const steps = ['print', 'mix', 'burnout', 'melt', 'pour', 'quench', 'finish', 'use'] as const;

/** While the mould is made. */
const making = ({ coats }: Investment): readonly Caution[] =>
  coats
    ? [
        {
          step: 'mix',
          hazard: 'silica dust',
          text: 'Stucco and flour are silica, and flour and sifting raise dust that is breathed in (crystalline silica limit 50 µg/m³, OSHA 29 CFR 1910.1053): respirator rated for silica, sift under extraction or out of doors, clean up wet, never sweep dry.',
        },
        {
          step: 'mix',
          hazard: 'alkaline sol',
          text: 'Colloidal silica is alkaline (pH 9 to 10.5) and dries skin and eyes: gloves and goggles, rinse splashes with water at once. Do not let it freeze or run into a drain, where it sets.',
        },
      ]
    : [
        {
          step: 'mix',
          hazard: 'silica dust',
          text: 'Investment powder holds free crystalline silica (exposure limit 50 µg/m³, OSHA 29 CFR 1910.1053): wear a respirator rated for silica, weigh and pour without raising dust, clean up wet, never sweep dry.',
        },
      ];

function always(investment: Investment, plastic: Plastic): readonly Caution[] {
  return [
    ...making(investment),
    {
      step: 'burnout',
      hazard: 'burnout fumes',
      text: `${plastic.title} gives off carbon monoxide, irritant vapour and smoke: burn out outdoors or under a ducted hood, never in a living space, nothing that can burn near the kiln.`,
    },
    {
      step: 'burnout',
      hazard: 'decomposing mould',
      text: `Do not take ${investment.title.toLowerCase()} over ${investment.maxBurnout} °C${investment.name === 'gypsum-bonded' ? ': it gives off sulphur dioxide' : investment.coats ? ': it turns to cristobalite and cracks as it cools' : ''}. Check the controller's thermocouple; do not leave the kiln unattended without an over-temperature cut-out.`,
    },
    ...(investment.coats ? firingShells : []),
    {
      step: 'melt',
      hazard: 'steam',
      text: 'Water under molten metal flashes to steam and throws it: preheat ingots, tools, ladle and ingot mould; never add cold or damp metal to a melt; have a dry, empty ingot mould ready.',
    },
    {
      step: 'melt',
      hazard: 'metal source',
      text: 'Know what you melt: no beryllium copper, no unknown or magnesium-bearing scrap, no sealed or hollow pieces.',
    },
    {
      step: 'pour',
      hazard: 'molten metal',
      text: 'Face shield over safety glasses, leather apron, gloves, spats and boots, wool or cotton under them, no synthetics. Pour over dry sand, never over concrete. Two people, a rehearsed path, no one in it, no children or spectators within reach of a spill.',
    },
    {
      step: 'pour',
      hazard: 'damp mould',
      text: `A mould not dried to its core boils under the metal and spits it back: pour only moulds that finished the whole programme, ${investment.coats ? 'straight from the kiln' : 'within minutes of leaving the kiln'}; never one that was rained on or re-wetted.`,
    },
    {
      step: 'quench',
      hazard: investment.coats ? 'hot splinters' : 'steam',
      text: investment.coats
        ? 'Wait until the cup has lost all colour and the metal is solid throughout. Shell splinters fly as the metal shrinks and as it is knocked off: face shield, gloves, long sleeves, nobody near. Never put a hot shell into water.'
        : 'Wait until the cup has lost all colour and the metal is solid throughout; lower the flask with long tongs, face shielded, arm’s length from the steam.',
    },
    {
      step: 'finish',
      hazard: 'silica dust',
      text: `Break the mould out wet; the dry, burnt ${investment.coats ? 'shell is silica dust, part of it cristobalite' : 'investment is silica dust'}. Wet the debris, bag it damp.`,
    },
    {
      step: 'finish',
      hazard: 'metal dust',
      text: 'Eye protection and a dust mask for sawing, filing and grinding; clamp the casting; keep grinding dust of different metals apart.',
    },
    {
      step: 'use',
      hazard: 'loaded part',
      text: 'A home casting may hold hidden pores: prove a cleat, hinge, pull or gear at a load above its working one before anyone relies on it, and never lift people or hang loads over them with it.',
    },
    {
      step: 'use',
      hazard: 'authority',
      text: 'These are the usual cautions, not a safety plan. Makers’ datasheets, local codes for furnaces, gas and fumes, and licensed practice come first.',
    },
  ];
}

/** Beside what stands for any burnout and pour. */
const firingShells: readonly Caution[] = [
  {
    step: 'burnout',
    hazard: 'flash fire',
    text: 'Plastic in a hot kiln catches fire as the door opens: power off, one shell at a time with long tongs, face shield, leather, nobody in front; out of doors or under a hood, nothing that burns within reach, an extinguisher at hand. A damp shell bursts. Where the kiln’s maker forbids loading it hot, heat it from cold.',
  },
  {
    step: 'pour',
    hazard: 'shell breaks',
    text: 'A shell is a few millimetres thick and may crack under the metal: pour over a bed of dry sand deep enough to catch all of it, bed tall and flat-sided shells in it to the cup, look each shell over for cracks by its own glow before the metal goes in.',
  },
];

const byHazard: Readonly<Record<HazardCode, readonly Omit<Caution, 'hazard'>[]>> = {
  'zinc-fume': [
    {
      step: 'melt',
      text: 'Zinc boils off as white oxide fume, which causes metal fume fever (zinc oxide fume limit 5 mg/m³, OSHA 29 CFR 1910.1000): outdoors or under extraction, upwind, do not overheat; a cover of flux or charcoal helps.',
    },
  ],
  lead: [
    {
      step: 'melt',
      text: 'Holds lead: fume and dust (limit 50 µg/m³, OSHA 29 CFR 1910.1025). Extraction, respirator, no food or drink near, wash before eating, work clothes stay in the shop; keep children and pregnant women away.',
    },
    { step: 'finish', text: 'Lead in filings and grinding dust: wet methods, collect and bag, wash hands.' },
    {
      step: 'use',
      text: 'Holds lead: not for food, drink or potable water, nor where a child may mouth it.',
    },
  ],
  'copper-fume': [
    {
      step: 'melt',
      text: 'Copper fume (limit 0.1 mg/m³, OSHA 29 CFR 1910.1000): ventilate; do not hold the melt hotter or longer than the pour needs.',
    },
  ],
  antimony: [
    {
      step: 'melt',
      text: 'Holds antimony: ventilate, do not overheat, wash hands; old pewter of unknown make may hold lead.',
    },
  ],
  'manganese-fume': [
    { step: 'melt', text: 'Manganese and zinc fume: extraction, a flux cover, and no overheating.' },
  ],
  'heavy-dross': [
    {
      step: 'melt',
      text: 'Makes heavy dross: skim with a dry, preheated skimmer, stir little, pour quietly with the cup full.',
    },
  ],
  'fine-chips-burn': [
    {
      step: 'finish',
      text: 'Fine aluminium dust burns and, wet, gives off hydrogen: no sparks, no water on a fire, a class D agent at hand (NFPA 484).',
    },
  ],
  'very-hot-melt': [
    {
      step: 'melt',
      text: 'Hotter than the bronzes: check that crucible, tongs, furnace lining and eye protection (shade against infra-red) are rated for it.',
    },
  ],
};

function alloyCautions(alloys: readonly Alloy[]): readonly Caution[] {
  const codes = [...new Set(alloys.flatMap((a) => a.hazards))];
  return codes.flatMap((code) => {
    const titles = alloys.filter((a) => a.hazards.includes(code)).map((a) => a.title);
    const names = [...new Set(titles)].join(', ');
    return byHazard[code].map((c) => ({
      step: c.step,
      hazard: code.replaceAll('-', ' '),
      text: `${names}: ${c.text}`,
    }));
  });
}
