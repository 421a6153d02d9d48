/** Chooses a shell's coats and says what it takes, weighs and bears. */
import { maths } from '../../maths/maths.js';
import type { Vec3 } from '../../solid/types.js';
import type { Alloy } from '../alloys/index.js';
import { slurryLift } from '../flask-loads.js';
import { checkPositive, checkRange } from '../input.js';
import { defaultWaste, type ShellInvestment } from '../investment.js';
import { massOf } from '../material.js';
import { checkShell, fullGap } from './check.js';
import { coatMasses, shellSlurryDensity, shellThickness } from './coats.js';
import type { ShellPlan } from './plans.js';
import { coatsToBear, shellSafety, shellStress } from './strength.js';
import type { ShellSurface } from './surface.js';

export interface ShellInput {
  readonly investment: ShellInvestment;
  readonly alloy: Alloy;
  /** Of the gated pattern: outside sizes, mm; mm³; radius in plan, mm. */
  readonly gatedSize: Vec3;
  readonly gatedVolume: number;
  readonly gatedRadius: number;
  readonly surface: ShellSurface;
  /** Narrowest gap between walls of the pattern, mm; left out where there is none. */
  readonly narrowestGap?: number;
  /** Openings beside the cup. */
  readonly vents: number;
  /** Of the pattern's plastic, g/mm³. */
  readonly plasticDensity: number;
  /** Fraction of slurry and stucco lost: drained to the floor, dried on the tank, fallen off. */
  readonly wasteFraction?: number;
}

/** mm of slurry round, under and over the pattern in the tank. Common practice, no source. */
const tankGap = 25;

/**
 * The fewest coats, from the trade's least for the metal, whose stress under the metal's head stays within a third of
 * the fired strength; at most what is laid in practice, and then the shell is bedded in dry sand. Slurry and stucco by
 * the grown surface of each coat. Bare it stands with half of the allowed stress to spare.
 * @throws FoundryInputError for sizes that are not positive.
 */
export function planShell(input: ShellInput): ShellPlan {
  const { investment, alloy, surface, wasteFraction = defaultWaste } = input;
  const { coats, mould } = investment;
  for (const size of input.gatedSize) checkPositive('gatedSize', size, 'mm');
  checkPositive('gatedVolume', input.gatedVolume, 'mm³');
  checkPositive('gatedRadius', input.gatedRadius, 'mm');
  checkPositive('area', surface.area, 'mm²');
  checkRange('wasteFraction', wasteFraction, 0, 1);

  const least = coats.least[leastKind(alloy)];
  const allowed = mould.strength / shellSafety;
  const stressOf = (count: number) =>
    shellStress(surface, input.gatedRadius, alloy, shellThickness(coats, count));
  const count = coatsToBear((n) => stressOf(n).greatest, allowed, { least, most: coats.most });
  const thickness = shellThickness(coats, count);
  const stress = { ...stressOf(count), allowed };
  const laid = coatMasses(investment, surface, input.gatedVolume, count);
  const fired = massOf(laid.volume, { density: mould.density });
  const slurryDensity = shellSlurryDensity(coats);
  const size: Vec3 = [
    input.gatedSize[0] + 2 * thickness,
    input.gatedSize[1] + 2 * thickness,
    input.gatedSize[2] + 2 * thickness,
  ];
  const diameter = 2 * (input.gatedRadius + thickness);
  const tank = tankFor(diameter, size, input.gatedVolume + laid.volume, slurryDensity);
  const narrow = input.narrowestGap !== undefined && input.narrowestGap < fullGap(coats);
  const plan: Omit<ShellPlan, 'findings'> = {
    coats: count,
    thickness,
    area: surface.area,
    volume: laid.volume,
    size,
    diameter,
    slurry: laid.slurry * (1 + wasteFraction),
    stucco: laid.stucco * (1 + wasteFraction),
    tank,
    mass: {
      dried: fired * (1 + coats.residualWater) + input.gatedVolume * input.plasticDensity,
      fired,
      poured: fired + massOf(input.gatedVolume, alloy),
    },
    lift: slurryLift(input.gatedVolume, slurryDensity, input.plasticDensity),
    stress,
    stands: stress.greatest <= allowed / 2 ? 'bare' : 'in dry sand',
    ...(narrow ? { narrowGap: input.narrowestGap as number } : {}),
    bases: basesOf(investment, least, wasteFraction),
  };
  return { ...plan, findings: checkShell(plan, input) };
}

const leastKind = ({ family }: Alloy): keyof ShellInvestment['coats']['least'] =>
  family === 'iron' ? 'iron' : family === 'copper' || family === 'silver' ? 'copper' : 'light';

/**
 * The round tank that a body goes into with the least slurry, upright or on end, and what covers it there: the tank
 * less the body.
 * @param diameter of a circle that holds it in plan, upright
 */
function tankFor(diameter: number, [x, y, z]: Vec3, volume: number, density: number): ShellPlan['tank'] {
  const tanks = [
    [diameter, z],
    [maths.hypot(y, z), x],
    [maths.hypot(x, z), y],
  ].map(([across = 0, high = 0]) => {
    const tank = { diameter: across + 2 * tankGap, depth: high + 2 * tankGap };
    return { ...tank, slurry: ((Math.PI / 4) * tank.diameter ** 2 * tank.depth - volume) * density };
  });
  return tanks.sort((a, b) => a.slurry - b.slurry)[0]!;
}

function basesOf(investment: ShellInvestment, least: number, waste: number): ShellPlan['bases'] {
  const { coats, sources } = investment;
  return {
    coats: {
      rule: `at least ${least} for this metal; more until σ ≤ fired strength / ${shellSafety}, at most ${coats.most}`,
      source: sources.coats,
    },
    thickness: {
      rule: `prime ${coats.prime.thickness}, backups ${coats.backup.thickness}, seal ${coats.seal.thickness} mm`,
      source: sources.coats,
    },
    stress: {
      rule: `p = ρ g h to the cup's brim; flats held at their edges σ = β p b² / t², hollow places not counted off; round p R / t`,
      source: `Roark’s Formulas for Stress and Strain, table 11.4, case 8a; strength ${sources.mould}`,
    },
    slurry: {
      rule: `coat by coat on the grown surface A + 2 M t + 2π χ t²; ${Math.round(coats.stuccoShare * 100)} % of a dry coat is stucco; × ${1 + waste} for what drains and falls off for good`,
      source: `Steiner’s polynomial (Santaló, ch. 13); ${sources.coats}; waste: common practice, no source`,
    },
    tank: {
      rule: `round, the pattern upright or on end, ${tankGap} mm of slurry round, under and over the coated pattern, less what that displaces`,
      source: 'Geometry; clearance: common practice, no source',
    },
    lift: { rule: 'slurry displaced, less the weight of the pattern', source: 'Archimedes' },
    mass: { rule: 'shell and metal by volume', source: `Mass balance; shell ${sources.mould}` },
    gaps: {
      rule: `gaps under ${Math.round(fullGap(coats) * 100) / 100} mm take no two coats on both walls`,
      source: sources.gaps,
    },
  };
}
