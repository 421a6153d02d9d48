import { alloyNames, findAlloy } from '../../core/foundry/alloys/index.js';
import {
  type Allowables,
  castAllowables,
  lineLoad,
  type RopeFibre,
  ropeFibres,
  usualWorkingFraction,
} from '../../core/hardware/index.js';
import { choice, length, number } from '../../core/part/fields.js';

/** Usual line of a fitting, mm: the largest that the rope table knows. */
export const largestLine = 24;

/** The parameters of a fitting that bears a line: the line itself, and what the load check takes it for. */
export const lineFields = (defaultLine: number) => ({
  line: length({
    group: 'Size',
    help: 'Diameter of the line it is for; every other size follows from it',
    symbol: 'd_l',
    min: 4,
    max: largestLine,
    default: defaultLine,
  }),
});

/** What the load check assumes; part of every fitting that bears a line. */
export const lineLoadFields = {
  fibre: choice(ropeFibres as readonly [RopeFibre, ...RopeFibre[]], {
    group: 'Load',
    help: 'What the line is made of (three-strand)',
    default: 'polyester',
  }),
  pullShare: number({
    group: 'Load',
    help: 'Pull of the line as a share of its breaking strength',
    min: 0.02,
    max: 1,
    default: usualWorkingFraction,
  }),
};

/** The alloy that the load check reckons with. The job casts in its own; this says whose strength is relied on. */
export const strengthField = {
  strengthOf: choice(alloyNames as readonly [string, ...string[]], {
    group: 'Load',
    help: 'Alloy whose cast strength the load check relies on; give the one you cast, or a weaker one',
    default: 'tin-bronze',
  }),
};

/** Allowable stresses of the field's alloy. */
export function strengthAllowables(name: string): Allowables {
  const alloy = findAlloy(name);
  if (alloy === undefined) throw new RangeError(`there is no alloy ${name}`);
  return castAllowables(alloy);
}

/** Pull of the line, N. */
export const pullOfLine = (p: {
  readonly fibre: RopeFibre;
  readonly line: number;
  readonly pullShare: number;
}): number => lineLoad(p.fibre, p.line, p.pullShare);

/** `a 12 mm polyester line at 20 % of its strength` */
export const lineInWords = (p: {
  readonly fibre: RopeFibre;
  readonly line: number;
  readonly pullShare: number;
}): string =>
  `a ${Number(p.line.toFixed(1))} mm ${p.fibre} line at ${Number((100 * p.pullShare).toFixed(1))} % of its strength`;
