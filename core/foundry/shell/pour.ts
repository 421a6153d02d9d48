/** The shell on its way from the kiln: how hot it must leave, to be as hot as the alloy wants it at the pour. */
import { type Finding, warn } from '../../part/finding.js';
import type { ShellInvestment } from '../investment.js';
import type { PourPlan } from '../plans.js';
import { coolShell, leavesKilnAt, usualCarry } from './cooling.js';

/**
 * A pour by `planPour` with the shell's way from the kiln added. Where even the hottest shell has cooled too far its
 * temperature at the pour is what is left of it, with a finding if that is under the alloy's range.
 * @param thickness of the thinnest shell of the alloy, mm
 * @param kilnTop °C, where known
 */
export function carryShell(
  plan: PourPlan,
  investment: ShellInvestment,
  thickness: number,
  kilnTop = Number.POSITIVE_INFINITY,
): PourPlan {
  const shell = { mould: investment.mould, thickness };
  const hottest = Math.min(investment.maxBurnout, kilnTop);
  const leaves = Math.ceil(leavesKilnAt(shell, plan.flaskTemperature, hottest));
  const arrives = Math.min(plan.flaskTemperature, coolShell(shell, leaves, usualCarry));
  const [coolest] = plan.flaskRange;
  const findings: readonly Finding[] =
    arrives >= coolest
      ? []
      : [
          warn(
            'shell-cools-fast',
            `A bare shell of ${Math.round(thickness * 10) / 10} mm that leaves the kiln at ${Math.round(leaves)} °C has ${Math.round(arrives)} °C after ${usualCarry} s; ${plan.title} wants ${coolest} °C at least.`,
            'Wrap it in ceramic-fibre blanket before it goes into the kiln, or bed it in hot sand, and have the metal waiting.',
          ),
        ];
  const { flaskTemperature: wanted, ...bases } = plan.bases;
  return {
    ...plan,
    flaskTemperature: arrives,
    carry: { leaves, seconds: usualCarry },
    findings: [...plan.findings, ...findings],
    bases: {
      ...bases,
      ...(wanted === undefined ? {} : { shellTemperature: wanted }),
      fromTheKiln: {
        rule: `bare for ${usualCarry} s: ε σ (T⁴ − T₀⁴) + h (T − T₀) from the outer face, conduction through the shell; ε 0.9, h 10 W/(m²·K)`,
        source: 'Stefan–Boltzmann and conduction; ε, h from memory; time: common practice, no source',
      },
    },
  };
}
