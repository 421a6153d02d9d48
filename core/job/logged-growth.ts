/** What the pour log has to say to a job's growth. */
import type { Alloy } from '../foundry/alloys/index.js';
import type { RatioEstimate } from '../log/ratio-estimate.js';
import { type Finding, note, stop, warn } from '../part/finding.js';

/**
 * Asks the shop's pour log for the growth of an alloy in an investment, by their names. The estimate's statistics are
 * loaded only where there is a log.
 */
export type LearntGrowth = (alloy: string, investment: string) => RatioEstimate | undefined;

/** Half an interval wider than this is a poor guide: 0.3 mm on a 60 mm part. Common practice, no source. */
const poorHalfInterval = 0.005;

const factor = (g: number): string => g.toFixed(4);
const from = ({ n, unit }: RatioEstimate): string => `${n} ${n === 1 ? unit.slice(0, -1) : unit}`;

/** `1.0165 (95 % interval 1.0158 to 1.0172, from 8 pours)` */
function told(estimate: RatioEstimate): string {
  const { value, interval } = estimate;
  const within =
    interval === null ? 'no interval' : `95 % interval ${factor(interval.low)} to ${factor(interval.high)}`;
  return `${factor(value)} (${within}, from ${from(estimate)})`;
}

const mould = (alloy: Alloy, investment: string): string => `${alloy.title} in ${investment} investment`;

/** Refuses `growth: log` where the log has no growth for the alloy in the mould. */
export const noLoggedGrowth = (alloy: Alloy, investment: string): Finding =>
  stop(
    'no-logged-growth',
    `The pour log has no measured growth for ${mould(alloy, investment)}.`,
    'Log a pour with pattern and casting measured at the same places, or leave growth out to use the handbook’s.',
    'growth',
  );

/**
 * For one alloy of a job: that the log has a growth it does not use, or that the one it uses is uncertain.
 * @param logged what the log teaches
 * @param growths of the alloy's parts and how each was come by
 */
export function loggedGrowthFindings(
  logged: RatioEstimate | undefined,
  alloy: Alloy,
  investment: string,
  growths: readonly { readonly value: number; readonly way: string }[],
): readonly Finding[] {
  if (logged === undefined) return [];
  const others = growths.filter((g) => g.way !== 'log');
  const used = [...new Set(others.map((g) => factor(g.value)))].join(', ');
  const unused = others.length > 0 ? [growthInLog(logged, mould(alloy, investment), used)] : [];
  return others.length < growths.length
    ? [...unused, ...uncertain(logged, mould(alloy, investment))]
    : unused;
}

const growthInLog = (logged: RatioEstimate, where: string, used: string): Finding =>
  note(
    'growth-in-log',
    `The pour log has a growth of ${told(logged)} for ${where}; the patterns are grown by ${used}.`,
    'To use the log’s, set growth: log in the job, or give --growth log.',
    'growth',
  );

function uncertain(logged: RatioEstimate, where: string): readonly Finding[] {
  const { interval } = logged;
  if (interval !== null && (interval.high - interval.low) / 2 <= poorHalfInterval) return [];
  return [
    warn(
      'logged-growth-uncertain',
      `The pour log’s growth for ${where} is ${told(logged)}, which is a poor guide.`,
      'Measure and log more pours, or use the handbook’s until then.',
      'growth',
    ),
  ];
}
