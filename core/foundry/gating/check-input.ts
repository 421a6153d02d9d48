import { type Finding, stop } from '../../part/finding.js';
import { mostGates } from './gate-sets.js';
import type { GatingInput, GatingSettings } from './input.js';
import { sink } from './sprue.js';

const positive = (value: number): boolean => Number.isFinite(value) && value > 0;

/** Settings with bounds other than "a positive number", with the bounds in words. */
const bounded: Readonly<Partial<Record<keyof GatingSettings, readonly [number, number, string]>>> = {
  dischargeCoefficient: [0.3, 1, '0.3 to 1'],
  freezingShare: [0.01, 1, '0.01 to 1'],
  feederEfficiency: [0.01, 1, '0.01 to 1'],
  gates: [1, mostGates, `a whole number, 1 to ${mostGates}`],
  cupShare: [0, 10, '0 to 10'],
  cupSeconds: [0, 60, '0 to 60 s'],
  cupWallAngle: [Math.PI / 4, (80 * Math.PI) / 180, '45° to 80° above the horizontal'],
};

/** `stop` findings for numbers that cannot be planned with; all of them at once. */
export const checkInput = (input: GatingInput, settings: GatingSettings): readonly Finding[] => [
  ...checkSettings(settings),
  ...checkCasting(input),
  ...(input.kinds ?? [input]).flatMap(checkPlaces),
];

const refused = (name: string, value: unknown, right: string): Finding =>
  stop('gating-input', `Gating: ${name} is ${value}.`, `Give ${name} as ${right}.`, name);

const checkSettings = (settings: GatingSettings): readonly Finding[] => {
  const findings: Finding[] = [];
  for (const [key, value] of Object.entries(settings) as [keyof GatingSettings, number | null][]) {
    if (value === null) continue;
    const [low, high, words] = bounded[key] ?? [Number.MIN_VALUE, Number.MAX_VALUE, 'a positive number'];
    const whole = key !== 'gates' || Number.isInteger(value);
    if (!(whole && value >= low - 1e-12 && value <= high + 1e-12)) findings.push(refused(key, value, words));
  }
  const { cupLeastDiameter, cupLargestDiameter } = settings;
  if (cupLargestDiameter !== null && cupLargestDiameter < cupLeastDiameter) {
    findings.push(
      refused(
        'cupLargestDiameter',
        `${cupLargestDiameter} mm`,
        `at least cupLeastDiameter, ${cupLeastDiameter} mm`,
      ),
    );
  }
  if (settings.ventLargestDiameter < settings.ventLeastDiameter) {
    findings.push(
      refused(
        'ventLargestDiameter',
        `${settings.ventLargestDiameter} mm`,
        `at least ventLeastDiameter, ${settings.ventLeastDiameter} mm`,
      ),
    );
  }
  return findings;
};

const checkCasting = ({ casting, metal }: GatingInput): readonly Finding[] => {
  const findings: Finding[] = [];
  for (const key of ['volume', 'area', 'mass', 'radius'] as const) {
    if (!positive(casting[key])) findings.push(refused(`casting.${key}`, casting[key], 'a positive number'));
  }
  if (casting.thinnestModulus !== undefined && !positive(casting.thinnestModulus)) {
    findings.push(refused('casting.thinnestModulus', casting.thinnestModulus, 'a positive number'));
  }
  if (!positive(casting.top - casting.bottom)) {
    findings.push(refused('casting.top', casting.top, `a height above casting.bottom, ${casting.bottom}`));
  }
  for (const key of ['liquidDensity', 'freezingFactor'] as const) {
    if (!positive(metal[key])) findings.push(refused(`metal.${key}`, metal[key], 'a positive number'));
  }
  if (!(metal.freezingRange >= 0 && metal.freezingRange < 2000)) {
    findings.push(refused('metal.freezingRange', metal.freezingRange, '0 or more, °C'));
  }
  if (!(Math.abs(metal.freezingContraction) < 0.5)) {
    findings.push(
      refused('metal.freezingContraction', metal.freezingContraction, 'a fraction, for example 0.055'),
    );
  }
  return findings;
};

/** The foot, sunk under its seat, must not come out below the part. */
const checkSeat = (name: string, seat: number | undefined, height: number): readonly Finding[] =>
  seat === undefined || seat === 0 || (seat > 0 && seat + sink < height)
    ? []
    : [
        refused(
          `seat of ${name}`,
          seat,
          `0 or more and less than the part is high there, ${height - sink} mm`,
        ),
      ];

const checkPlaces = ({
  gates,
  vents,
  casting,
}: Pick<GatingInput, 'gates' | 'vents' | 'casting'>): readonly Finding[] => {
  const findings: Finding[] = [];
  for (const { name, at, innerDiameter, outerDiameter, seat } of gates) {
    const finite = [...at, innerDiameter, outerDiameter].every(Number.isFinite);
    if (!finite || innerDiameter < 0) findings.push(refused(`gate place ${name}`, 'not finite', 'numbers'));
    else if (at[2] > casting.top + 1e-3 || at[2] < casting.bottom - 1e-3) {
      findings.push(
        refused(
          `z of gate place ${name}`,
          at[2],
          `a height on the part, ${casting.bottom} to ${casting.top}`,
        ),
      );
    }
    findings.push(...checkSeat(`gate place ${name}`, seat, at[2] - casting.bottom));
  }
  for (const { name, at, footDiameter, seat } of vents) {
    findings.push(...checkSeat(`vent place ${name}`, seat, at[2] - casting.bottom));
    if (![...at, footDiameter].every(Number.isFinite)) {
      findings.push(refused(`vent place ${name}`, 'not finite', 'numbers'));
    } else if (at[2] > casting.top + 1e-3) {
      findings.push(refused(`z of vent place ${name}`, at[2], `a height on the part, up to ${casting.top}`));
    }
  }
  return findings;
};
