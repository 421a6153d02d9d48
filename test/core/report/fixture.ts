/**
 * An invented job of the invented ropewalk: sizes, masses and findings are made up to fill the reports, and only
 * hang together (sums add up, a pattern is its casting times its growth). Nothing here was computed or cast.
 */

import { encode } from 'fast-png';
import type { Basis, FlaskPlan, GatingPlan } from '../../../core/foundry/plans.js';
import { defaultShop } from '../../../core/job/read-shop.js';
import {
  type DimensionRow,
  type PartSummary,
  type Summary,
  summaryUnits,
} from '../../../core/job/summary.js';
import type { Fitting } from '../../../core/part/contract.js';
import { note, stop, warn } from '../../../core/part/finding.js';
import type { SurfaceClass } from '../../../core/part/stock.js';

const invented = (rule: string): Basis => ({ rule, source: 'invented for this fixture' });

/** Names and titles that try to break out of markup, a style sheet, or a terminal. */
export const hostileTitle = `Pull <b onclick="x()">"large" & 'brass'</b></style><script>alert(1)</script>`;
export const hostileJobName = `ropewalk"}</style><script>alert(2)</script>`;
export const longName = 'traverser-carriage-guide-roller-bracket-left-hand-second-pattern-1887';

interface Shape {
  name: string;
  part: string;
  title: string;
  quantity: number;
  alloy: 'tin-bronze' | 'yellow-brass';
  size: [number, number, number];
  volume: number;
  flask: [name: string, diameter: number, height: number];
  surfaces: [SurfaceClass, string][];
  fittings?: Fitting[];
  dimensions: [
    symbol: string,
    name: string,
    part: number,
    stock: number,
    axis: 'xy' | 'z' | 'none',
    method: string,
  ][];
  vents: number;
}

const density = { 'tin-bronze': 0.00872, 'yellow-brass': 0.00844 };
const growth = { 'tin-bronze': 1.016, 'yellow-brass': 1.0156 };

const stock = { flank: 0.1, tip: 0.12, face: 0.7, bore: 0.6, skin: 0.3, mating: 0.5 };

const gear = (
  z: number,
  width: number,
  bore: number,
): Pick<Shape, 'surfaces' | 'dimensions' | 'size' | 'vents'> => {
  const d = (2 * z) / Math.cos(Math.PI * (25 / 180));
  return {
    size: [d + 4, d + 4, width + 6],
    vents: 4,
    surfaces: [
      ['flank', 'flanks of both halves'],
      ['tip', 'tooth tips'],
      ['face', 'both side faces'],
      ['face', 'hub end'],
      ['bore', 'bore'],
    ],
    dimensions: [
      [
        'd_a',
        'Tip diameter',
        d + 4,
        0.24,
        'xy',
        'calliper over tips, or over a tip and the opposite space plus half',
      ],
      ['d_f', 'Root diameter', d - 5, 0.2, 'xy', 'blade calliper in opposite spaces'],
      ['W_k', 'Span over teeth', d * 0.34, 0.2, 'xy', 'disc micrometer, normal to the flanks of one half'],
      ['b', 'Face width', width, 1.4, 'z', 'calliper across the side faces'],
      ['d_B', 'Bore', bore, -1.2, 'xy', 'bore gauge'],
      ['β', 'Helix angle', (25 * Math.PI) / 180, 0, 'none', 'roll on paper and measure'],
      ['z', 'Number of teeth', z, 0, 'none', 'count'],
    ],
  };
};

const pull = (length: number): Pick<Shape, 'surfaces' | 'dimensions' | 'size' | 'vents' | 'fittings'> => ({
  size: [length, length * 0.6, 8.5],
  vents: 2,
  surfaces: [
    ['skin', 'rim, lip and tab'],
    ['mating', 'pin hole and tab cheeks'],
  ],
  dimensions: [
    ['L', 'Length over all', length, 0.6, 'xy', 'calliper'],
    ['d_o', 'Finger opening', length * 0.45, -0.6, 'xy', 'calliper, inside jaws'],
    ['t', 'Thickness at the rim', 8.5, 0.6, 'z', 'calliper'],
  ],
  fittings: [{ quantity: 1, text: 'round bar 6 mm × 38 mm for the pin' }],
});

const shapes: readonly Shape[] = [
  {
    name: 'laying-wheel',
    part: 'double-helical-gear',
    title: 'Laying machine: double-helical wheel, 40 teeth',
    quantity: 1,
    alloy: 'tin-bronze',
    volume: 84_300,
    flask: ['round 125 × 110', 125, 110],
    ...gear(40, 24, 16),
  },
  {
    name: 'laying-pinion',
    part: 'double-helical-gear',
    title: 'Laying machine: double-helical pinion, 18 teeth',
    quantity: 2,
    alloy: 'tin-bronze',
    volume: 19_650,
    flask: ['round 90 × 100', 90, 100],
    ...gear(18, 26, 12),
  },
  {
    name: longName,
    part: 'helical-gear',
    title:
      'Traverser carriage: guide roller drive wheel with one hub, left hand, the second pattern as drawn in 1887',
    quantity: 1,
    alloy: 'tin-bronze',
    volume: 41_200,
    flask: ['round 100 × 100', 100, 100],
    ...gear(28, 18, 14),
  },
  {
    name: 'crank-pinion',
    part: 'spur-gear',
    title: 'Hand crank: spur pinion',
    quantity: 1,
    alloy: 'tin-bronze',
    volume: 12_480,
    flask: ['round 75 × 90', 75, 90],
    ...gear(14, 20, 10),
  },
  {
    name: 'pull-large',
    part: 'hatch-pull',
    title: hostileTitle,
    quantity: 2,
    alloy: 'yellow-brass',
    volume: 11_900,
    flask: ['round 75 × 90', 75, 90],
    ...pull(74),
  },
  {
    name: 'pull-small',
    part: 'hatch-pull',
    title: 'Locker pull, one finger',
    quantity: 7,
    alloy: 'yellow-brass',
    volume: 960,
    flask: ['round 65 × 75', 65, 75],
    ...pull(31),
  },
];

const row = (
  [symbol, name, part, extra, axis, method]: Shape['dimensions'][number],
  g: number,
): DimensionRow => ({
  symbol,
  name,
  unit: axis !== 'none' ? 'mm' : symbol === 'z' ? '1' : 'rad',
  axis,
  part,
  casting: part + extra,
  pattern: (part + extra) * (axis === 'none' ? 1 : g),
  method,
});

function gatingPlan(s: Shape, modulus: number): GatingPlan {
  const foot = 3 * modulus;
  return {
    gates: [
      {
        name: s.part === 'hatch-pull' ? 'tab end' : 'hub end',
        at: [0, 0, s.size[2]],
        innerDiameter: s.part === 'hatch-pull' ? 0 : 9.4,
        outerDiameter: foot + 6.4,
        area: 182.6,
        coversCore: s.part !== 'hatch-pull',
      },
    ],
    entry: { area: 182.6, velocity: 412, velocityLimit: s.name === 'crank-pinion' ? 400 : 500 },
    sprue: {
      at: [0, 0, s.size[2]],
      bottomDiameter: foot,
      topDiameter: foot * 1.32,
      length: 38,
      head: 46,
      chokeArea: (Math.PI / 4) * foot ** 2,
      governedBy: s.part === 'hatch-pull' ? 'smallest printable' : 'modulus',
    },
    cup: { topDiameter: 34, depth: 17, volume: 9_100, wallAngle: (50 * Math.PI) / 180 },
    vents: Array.from({ length: s.vents }, (_, i) => ({
      name: `rim ${i + 1}`,
      diameter: 2.4,
      path: [
        [10, 0, s.size[2]],
        [10, 0, s.size[2] + 55],
      ],
    })),
    topHeight: s.size[2] + 55,
    fill: {
      pourTime: 1.3 + s.volume / 40_000,
      flow: 21_000,
      castingModulus: modulus,
      feederModulus: modulus * 1.26,
      modulusRatio: 1.26,
      modulusRatioLimit: 1.2,
      feedDemand: s.volume * 0.055,
      feedSupply: 9_800,
      ventArea: s.vents * 4.52,
      ventAreaLimit: 9.1,
      reachLimit: 120,
    },
    compared: [],
    bases: {
      chokeArea: invented('A = W / (ρ t C √(2 g h))'),
      pourTime: invented('t = K W^(1/3), K = 1.3, kept under half the freezing time of the thinnest wall'),
      modulusRatio: invented('sprue modulus at the gate ≥ 1.2 × casting modulus'),
      gateVelocity: invented('at most 500 mm/s'),
      ventArea: invented(
        s.part === 'hatch-pull' ? 'vent area ≥ choke area' : 'vent area ≥ choke area, one each quarter',
      ),
    },
    findings:
      s.name === 'crank-pinion'
        ? [
            warn(
              'gate-velocity',
              'Metal enters crank-pinion at 412 mm/s; the rule allows 400 mm/s.',
              'Widen the hub to at least 24 mm so that the gate can spread, or accept some dross in the hub.',
            ),
          ]
        : [],
  };
}

function flaskPlan([name, insideDiameter, insideHeight]: Shape['flask'], displaced: number): FlaskPlan {
  const slurryVolume = (Math.PI / 4) * insideDiameter ** 2 * insideHeight - displaced;
  return {
    name,
    insideDiameter,
    insideHeight,
    clearance: { wall: 12.7, floor: 26.4, cover: 0 },
    slurryVolume,
    powder: slurryVolume * 0.0014,
    water: slurryVolume * 0.00056,
    weigh: { step: 1, powder: Math.ceil(slurryVolume * 0.0014), water: Math.round(slurryVolume * 0.00056) },
    loads: {
      mass: { wet: 2400, fired: 1700, poured: 2900 },
      lift: { solid: 74, hollow: 250 },
      floor: { pressure: 0.009, stress: 0.03, strength: 0.1 },
    },
    findings: [],
    bases: {
      clearance: invented('wall ≥ 6.4 mm, floor ≥ 25 mm'),
      powder: invented('ρ = (1 + w) / (1/ρ_p + w)'),
    },
  };
}

function partSummary(s: Shape): PartSummary {
  const g = growth[s.alloy];
  const rho = density[s.alloy];
  const casting = s.volume * 1.09;
  const gating = 16_400;
  const grown = s.size.map((x) => (x + 1) * g) as unknown as [number, number, number];
  const facts = (volume: number, size: readonly [number, number, number]) => ({
    triangles: 24_140,
    volume,
    size,
  });
  return {
    name: s.name,
    part: s.part,
    title: s.title,
    quantity: s.quantity,
    patternsPerTree: 1,
    moulds: s.quantity,
    parameters: { module: 2, teeth: 40 },
    alloy: s.alloy,
    growth: {
      value: g,
      basis: invented(`g = 1 + a, a = ${((g - 1) * 100).toFixed(2)} % for ${s.alloy}`),
      way: 'handbook',
      ways: [
        { way: 'handbook', value: g, range: [g - 0.003, g + 0.001] },
        { way: 'causes', value: g - 0.004, range: [g - 0.012, g + 0.01] },
      ],
      causes: [
        {
          name: 'metal contracts',
          effect: { low: 0.016, usual: 0.018, high: 0.02 },
          basis: invented('α ΔT'),
        },
        {
          name: 'mould expands by heat',
          effect: { low: -0.01, usual: -0.006, high: 0 },
          basis: invented('at 540 °C'),
        },
      ],
    },
    printerCorrection: s.name === 'laying-pinion' ? { xy: 1.0021, z: 1.0008 } : { xy: 1, z: 1 },
    stock: {
      stock: s.part === 'spur-gear' ? { ...stock, tip: 0 } : stock,
      basis: {
        flank: invented('light dressing allowance, a setting'),
        tip: invented('light dressing allowance, a setting'),
        face: invented(`RMA grade E, largest dimension ${s.size[0].toFixed(0)} mm`),
        bore: invented(`RMA grade E, largest dimension ${s.size[0].toFixed(0)} mm`),
        skin: invented('never less than the layer lines it removes'),
        mating: invented('RMA grade E'),
      },
    },
    fittings: s.fittings ?? [],
    surfaces: s.surfaces.map(([surfaceClass, name]) => ({ surfaceClass, name })),
    mass: {
      part: s.volume * rho,
      casting: casting * rho,
      gating: gating * rho,
      charge: (casting + gating) * rho,
    },
    volume: { part: s.volume, casting, pattern: casting * g ** 3, gated: (casting + gating) * g ** 3 },
    meshes: {
      part: facts(s.volume, s.size),
      casting: facts(casting, s.size),
      pattern: facts(casting * g ** 3, grown),
      gated: facts((casting + gating) * g ** 3, [grown[0], grown[1], grown[2] + 55]),
    },
    tolerance: 0.01,
    dimensions: s.dimensions.map((d) => row(d, g)),
    gating: gatingPlan(s, 3.1 + s.volume / 60_000),
    flask: flaskPlan(s.flask, casting + gating),
    findings:
      s.name === 'laying-wheel'
        ? [
            stop(
              'web-too-thin',
              'The web of laying-wheel is 1.10 mm thick; tin bronze in this mould runs no thinner than 1.50 mm.',
              'Set webThickness to 1.5 mm or more.',
              'webThickness',
            ),
            note('undercut', 'Teeth are cut 0.00 mm under; nothing to do.', 'Leave profileShift at 0.'),
          ]
        : s.name === 'pull-small'
          ? [
              warn(
                'overhang',
                'The lip of pull-small overhangs at 38°.',
                'Let the slicer support the lip only.',
              ),
            ]
          : [],
    files: { part: `${s.name}/part.stl`, gated: `${s.name}/gated.3mf` },
  };
}

const parts = shapes.map(partSummary);
const total = (of: (p: PartSummary) => number): number => parts.reduce((a, p) => a + p.quantity * of(p), 0);
const metal = (alloy: string): number =>
  parts.filter((p) => p.alloy === alloy).reduce((a, p) => a + p.quantity * p.mass.charge, 0);
const charge = (alloy: string, title: string, meltLoss: number, perGram: number) => ({
  alloy,
  title,
  inMoulds: metal(alloy),
  meltLoss,
  reserve: 0.08 * metal(alloy),
  charge: (1.08 * metal(alloy)) / (1 - meltLoss),
  energy: (metal(alloy) / (1 - meltLoss)) * 1.08 * perGram,
  bases: { charge: invented('(in moulds + reserve) / (1 − melt loss)') },
});
const names = (alloy: string): string[] =>
  parts
    .filter((p) => p.alloy === alloy)
    .map((p) => p.name)
    .reverse();
const place = (name: string, copy: number, x: number, y: number) => ({ name, copy, x, y, turn: 0 });

const segment = (purpose: string, from: number, to: number, rate: number, hours: number) => ({
  purpose,
  from,
  to,
  rate,
  ramp: (3600 * (to - from)) / rate,
  soak: 3600 * hours,
});
const segments = [
  segment('Dry the plaster and let the plastic soften', 20, 150, 60, 3),
  segment('Plastic runs out and chars', 150, 370, 100, 2),
  segment('Through the quartz inversion, burn off the char', 370, 730, 120, 4),
  segment('Down to the pour', 730, 540, -100, 1.5),
];

export const summary: Summary = {
  schemaVersion: 1,
  units: summaryUnits,
  shop: { ...defaultShop, title: 'Ropewalk foundry' },
  job: {
    name: 'ropewalk-spring',
    title: 'Ropewalk laying machine and locker pulls (invented)',
    notes: [
      'Everything in this job is invented.',
      'Wheel and pinion run together at 58 mm centres; keep them as a pair.',
    ],
  },
  bed: { shape: 'rectangle', width: 220, depth: 220, height: 250, margin: 5, gap: 5, brim: 0, keepOuts: [] },
  nesting: { sortBy: 'any', seed: 1, rounds: 0 },
  tolerance: 0.01,
  parts,
  investment: {
    name: 'gypsum-standard',
    title: 'Gypsum-bonded investment',
    waterRatio: 0.4,
    slurryDensity: 0.00175,
    powder: total((p) => p.flask!.powder),
    water: total((p) => p.flask!.water),
    weigh: {
      step: 1,
      powder: total((p) => p.flask!.weigh.powder),
      water: total((p) => p.flask!.weigh.water),
    },
    wasteFraction: 0.12,
    workingTime: 540,
    steps: [
      { purpose: 'powder into the water; mix', from: 0, to: 180 },
      { purpose: 'stand before heating', from: 540, to: 7740 },
    ],
    mixes: 2,
    bag: 11_340,
    bags: 0.6,
    bases: { waterRatio: invented('38 to 40 parts to 100'), workingTime: invented('8 to 10 min') },
  },
  burnout: {
    segments,
    total: segments.reduce((a, s) => a + s.ramp + s.soak, 0),
    peak: 730,
    castingTemperature: 540,
    flaskDiameter: 125,
    findings: [
      warn(
        'peak-near-limit',
        'The top soak is 730 °C; gypsum with soot gives off sulphur from about 740 °C.',
        'Check the controller against a second thermocouple.',
      ),
    ],
    bases: {
      ramp: invented('at most 60 °C/h to 150 °C for printed plastic'),
      soak: invented('by flask diameter'),
    },
  },
  pour: [
    {
      alloy: 'tin-bronze',
      title: 'Tin bronze C90500',
      liquidus: 999,
      metalTemperature: 1150,
      metalRange: [1095, 1205],
      flaskTemperature: 540,
      flaskRange: [480, 650],
      order: names('tin-bronze'),
      findings: [],
      bases: { metalTemperature: invented('light castings') },
    },
    {
      alloy: 'yellow-brass',
      title: 'Yellow brass C85700',
      liquidus: 941,
      metalTemperature: 1080,
      metalRange: [1065, 1150],
      flaskTemperature: 480,
      flaskRange: [430, 540],
      order: names('yellow-brass'),
      findings: [
        warn(
          'flask-too-hot',
          'Both alloys share one kiln load at 540 °C; brass wants 430 to 540 °C.',
          'Pour bronze first and let the brass flasks cool to 480 °C.',
        ),
      ],
      bases: { metalTemperature: invented('light castings') },
    },
  ],
  charge: [
    charge('tin-bronze', 'Tin bronze C90500', 0.02, 627),
    charge('yellow-brass', 'Yellow brass C85700', 0.04, 590),
  ],
  plates: [
    {
      name: 'plate-1',
      placements: [
        place('laying-wheel', 1, 52, 52),
        place('laying-pinion', 1, 130, 40),
        place('laying-pinion', 2, 182, 40),
        place(longName, 1, 45, 145),
        place('crank-pinion', 1, 110, 120),
      ],
      height: 89.4,
      plastic: 318,
      filled: 0.412,
      files: { '3mf': 'plates/plate-1.3mf', stl: 'plates/plate-1.stl' },
    },
    {
      name: 'plate-2',
      placements: [
        ...Array.from({ length: 2 }, (_, i) => place('pull-large', i + 1, 45 + 85 * i, 40)),
        ...Array.from({ length: 7 }, (_, i) => place('pull-small', i + 1, 20 + 30 * i, 95)),
      ],
      height: 66.1,
      plastic: 181,
      filled: 0.287,
      files: { '3mf': 'plates/plate-2.3mf', stl: 'plates/plate-2.stl' },
    },
  ],
  cost: {
    currency: 'EUR',
    lines: [
      { item: 'Tin bronze ingot', quantity: 2.512, unit: 'kg', price: 14, amount: 35.17 },
      { item: 'Investment powder', quantity: 13.4, unit: 'kg', price: 2.1, amount: 28.14 },
      { item: 'Kiln load', quantity: 1, unit: 'load', price: 9, amount: 9 },
    ],
    total: 72.31,
    parts: [{ name: parts[0]!.name, each: 24.1, all: 48.2 }],
  },
  cautions: [
    {
      step: 'print',
      hazard: 'Fumes and hot parts',
      text: 'Print in a ventilated room; nozzle and bed burn skin.',
    },
    {
      step: 'mix',
      hazard: 'Silica dust',
      text: 'Investment powder holds free silica. Wear a respirator rated for silica, mix with extraction, clean up wet.',
    },
    {
      step: 'burnout',
      hazard: 'Burnout fume',
      text: 'Burning plastic gives off carbon monoxide, aldehydes and smoke. Burn out outdoors or under a ducted hood.',
    },
    {
      step: 'melt',
      hazard: 'Zinc fume',
      text: 'Brass gives off zinc oxide: metal fume fever. Do not overheat; stand upwind; use extraction.',
    },
    { step: 'melt', hazard: 'Lead', text: 'C85700 holds lead. Keep dust and fume down, wash before eating.' },
    {
      step: 'pour',
      hazard: 'Molten metal and steam',
      text: 'Any water under molten metal flashes to steam and throws it. Dry moulds and tools; pour over dry sand, never over concrete. Face shield, leather, wool or cotton.',
    },
    {
      step: 'quench',
      hazard: 'Scalding steam',
      text: 'A hot flask in water boils violently. Tongs, gloves, face shield; lower it slowly.',
    },
    {
      step: 'finish',
      hazard: 'Metal and silica dust',
      text: 'File and grind with eye protection and a dust mask; leaded alloy dust is poisonous.',
    },
    {
      step: 'use',
      hazard: 'Loaded parts',
      text: 'A cast gear or pull may hide pores. Prove it under load before anyone depends on it.',
    },
  ],
  findings: [note('plates-not-full', 'Plate 2 is 38 % full.', 'More pulls would fit on it.')],
};

/** The same job with a name that attacks the style sheet and the terminal. */
export const hostileSummary: Summary = {
  ...summary,
  job: {
    name: hostileJobName,
    title: `Job \u001b[31m${hostileTitle}\u0000\uD800`,
    notes: [`<img src=x onerror=alert(3)>`],
  },
};

/** A shaded ring, so that the layout has pictures to show. */
function ringPng(tone: number): Uint8Array {
  const [w, h] = [360, 320];
  const data = new Uint8Array(w * h * 3).fill(255);
  for (let y = 0; y < h; y++)
    for (let x = 0; x < w; x++) {
      const r =
        Math.hypot(x - w / 2, (y - h / 2) * 1.4) + 8 * Math.cos(18 * Math.atan2(y - h / 2, x - w / 2));
      if (r > 50 && r < 160) data.fill(tone + ((x + y) >> 3), (y * w + x) * 3, (y * w + x) * 3 + 3);
    }
  return encode({ width: w, height: h, data, channels: 3, depth: 8 });
}

export const pictures: Readonly<Record<string, Uint8Array>> = Object.fromEntries(
  shapes.slice(0, 5).map((s, i) => [s.name, ringPng(80 + 15 * i)]),
);

/** A bare plan: bed outline and a circle a pattern. */
export const planSvgs: Readonly<Record<string, string>> = Object.fromEntries(
  summary.plates.map((p) => [
    p.name,
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 220 220" width="220mm" height="220mm"><rect x="1" y="1" width="218" height="218" fill="none" stroke="#000"/>${p.placements
      .map(
        (q) =>
          `<circle cx="${q.x}" cy="${220 - q.y}" r="${q.name.startsWith('pull') ? 15 : 22}" fill="none" stroke="#000"/><text x="${q.x}" y="${220 - q.y}" font-size="7" text-anchor="middle">${q.name.slice(0, 14)}</text>`,
      )
      .join('')}</svg>`,
  ]),
);
