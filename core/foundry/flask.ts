/** Chooses the flask and says what slurry it takes. */
import { maths } from '../maths/maths.js';
import { type Finding, stop, warn } from '../part/finding.js';
import type { Vec3 } from '../solid/types.js';
import type { Alloy } from './alloys/index.js';
import { checkFlaskLoads, flaskLoadBases, planFlaskLoads } from './flask-loads.js';
import { flasks as builtInFlasks, type Flask, flaskVolume } from './flasks.js';
import { checkPositive, FoundryInputError } from './input.js';
import { type BlockInvestment, defaultWaste, mixFor, weighSlurry } from './investment.js';
import { findPlastic, massOf, type Plastic } from './material.js';
import type { FlaskPlan } from './plans.js';

export interface FlaskInput {
  /** Outside sizes of the gated pattern as printed, x, y, z, mm. */
  readonly gatedSize: Vec3;
  /** mm³ of the gated pattern. */
  readonly gatedVolume: number;
  /** z of the highest point of the pattern itself, without sprue, cup and vents, mm; at most gatedSize[2]. */
  readonly patternHeight: number;
  /** Radius of the smallest circle about the flask's axis that holds the gated pattern. Default: half the
   * diagonal of x and y. */
  readonly gatedRadius?: number;
  readonly alloy: Alloy;
  readonly investment: BlockInvestment;
  readonly waterRatio?: number;
  readonly wasteFraction?: number;
  /** Smallest step of the scale, g; default 1. */
  readonly scaleStep?: number;
  /** Of the pattern's plastic, g/mm³; default that of PLA. */
  readonly plasticDensity?: number;
  /** In the mould, on one tree; default 1. */
  readonly patterns?: number;
  /** Default: the built-in list. */
  readonly flasks?: readonly Flask[];
}

/** g of metal in one mould from which a copper alloy or iron counts as heavy. */
const heavyMass = 500;
const heavyDensity = 5e-3;
const lightWall = 6.4;
const heavyWall = 13;
/** Investment under the pattern, mm. */
export const leastFloor = 25;

/**
 * The flask with the least volume that clears walls and floor.
 *
 * How the pattern stands: as it prints and pours, cup up. The cup's and vents' tops are flush with the flask's open
 * end, so whatever height is to spare lies under the pattern as `floor`, against the closed end (a can's bottom, or
 * the end that was open while a tube stood, cup down, on its base plate). `cover` is the investment over the
 * pattern's own top, which sprue and cup stand above; it comes from the gating, not from the flask.
 *
 * When no flask is large enough the plan carries the one that comes nearest, with a `stop` finding that says by how
 * much; its clearances may then be negative.
 * @throws FoundryInputError for sizes that are not positive, a pattern taller than the whole, or an empty list.
 */
export function planFlask(input: FlaskInput): FlaskPlan {
  const { investment, wasteFraction = defaultWaste, waterRatio = investment.waterRatio } = input;
  const list = input.flasks ?? builtInFlasks;
  if (list.length === 0) throw new FoundryInputError('flasks', 'an empty list', 'give at least one flask');
  for (const f of list) {
    checkPositive(`${f.name} insideDiameter`, f.insideDiameter, 'mm');
    checkPositive(`${f.name} insideHeight`, f.insideHeight, 'mm');
  }
  const [x, y, height] = input.gatedSize;
  for (const size of input.gatedSize) checkPositive('gatedSize', size, 'mm');
  checkPositive('gatedVolume', input.gatedVolume, 'mm³');
  checkPositive('patternHeight', input.patternHeight, 'mm');
  if (input.patternHeight > height + 1e-6)
    throw new FoundryInputError(
      'patternHeight',
      input.patternHeight,
      `it must be at most the gated height ${height} mm`,
    );
  const radius = input.gatedRadius ?? maths.hypot(x, y) / 2;
  checkPositive('gatedRadius', radius, 'mm');

  const metal = massOf(input.gatedVolume, input.alloy);
  const isHeavy = input.alloy.density > heavyDensity && metal >= heavyMass;
  const wall = isHeavy ? heavyWall : lightWall;
  const needDiameter = 2 * (radius + wall);
  const needHeight = height + leastFloor;

  const shortfall = (f: Flask): readonly [number, number] => [
    Math.max(0, needDiameter - f.insideDiameter),
    Math.max(0, needHeight - f.insideHeight),
  ];
  const worst = (f: Flask): number => Math.max(...shortfall(f));
  const chosen = [...list].sort((a, b) => worst(a) - worst(b) || flaskVolume(a) - flaskVolume(b))[0]!;

  const clearance = {
    wall: chosen.insideDiameter / 2 - radius,
    floor: chosen.insideHeight - height,
    cover: height - input.patternHeight,
  };
  const slurryVolume = Math.max(0, flaskVolume(chosen) - input.gatedVolume);
  const mix = mixFor(slurryVolume, investment, waterRatio, wasteFraction);
  const findings: Finding[] = [];
  if (worst(chosen) > 0) {
    const [d, h] = shortfall(chosen);
    findings.push(
      stop(
        'flask-too-small',
        `No flask is large enough: the mould needs ø${mm(needDiameter)} × ${mm(needHeight)} mm inside; ${chosen.title}, ø${mm(chosen.insideDiameter)} × ${mm(chosen.insideHeight)} mm, comes nearest and is short by ${shortBy(d, h)}.`,
        (input.patterns ?? 1) > 1
          ? 'Stand fewer patterns on the tree, or add a larger flask to the job.'
          : 'Add a larger flask to the job, or shorten the sprue, or make the part smaller.',
        'flasks',
      ),
    );
  }
  if (clearance.cover < wall) {
    findings.push(
      warn(
        'cover-thin',
        `Only ${mm(clearance.cover)} mm of investment lies over the pattern; at least ${wall} mm.`,
        'Make the sprue longer.',
      ),
    );
  }
  const loads = planFlaskLoads({
    flask: chosen,
    gatedVolume: input.gatedVolume,
    gatedHeight: height,
    floor: clearance.floor,
    alloy: input.alloy,
    investment,
    waterRatio,
    plasticDensity: input.plasticDensity ?? (findPlastic('PLA') as Plastic).density,
  });
  findings.push(...checkFlaskLoads(loads, chosen, investment));
  const clearanceSource = isHeavy
    ? 'Heavy copper-base castings: 13 mm wall (from memory); floor 1 in: college casting handout'
    : 'College casting handout: ≥ 1/4 in to the wall, 1 in over the end';
  return {
    name: chosen.name,
    insideDiameter: chosen.insideDiameter,
    insideHeight: chosen.insideHeight,
    clearance,
    slurryVolume,
    ...mix,
    weigh: weighSlurry(mix.powder, waterRatio, input.scaleStep),
    loads,
    findings,
    bases: {
      ...flaskLoadBases,
      wall: {
        rule: `at least ${wall} mm all round${isHeavy ? `, from ${heavyMass} g of metal in the mould` : ''}`,
        source: clearanceSource,
      },
      floor: { rule: `at least ${leastFloor} mm under the pattern`, source: clearanceSource },
      cover: {
        rule: `at least ${wall} mm over the pattern`,
        source: 'As the wall; common practice, no source',
      },
      slurryVolume: { rule: 'π/4 D² H − gated pattern', source: 'Geometry' },
      powder: {
        rule: `V ρ / (1 + w) × ${1 + wasteFraction}`,
        source: 'Mass balance with 10–15 % for waste; common practice, no source',
      },
    },
  };
}

const mm = (x: number): string => String(Math.round(x * 10) / 10);

function shortBy(diameter: number, height: number): string {
  const parts = [
    ...(diameter > 0 ? [`${mm(diameter)} mm in diameter`] : []),
    ...(height > 0 ? [`${mm(height)} mm in height`] : []),
  ];
  return parts.join(' and ');
}
