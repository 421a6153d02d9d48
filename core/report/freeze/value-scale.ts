import { type CastFields, cellRole, leastShare } from '../../freeze/cast-fields.js';
import { roundStepOver } from '../../units/round-step.js';
import { decimals } from '../format.js';

/** How the values of a field become colours, and how that is told. */
export interface ValueScale {
  /** What is shown and its unit, in words. */
  readonly title: string;
  /** At the dark and the light end, in words. */
  readonly ends: readonly [string, string];
  /** 0 dark to 1 light. */
  readonly at: (value: number) => number;
  /** Round values along it, from dark to light. */
  readonly ticks: readonly Tick[];
}

export interface Tick {
  readonly at: number;
  readonly text: string;
  /** Told by a stronger line. */
  readonly limit?: boolean;
}

/** Share of the legend's length that keeps two ticks apart. */
const apart = 0.09;
const mostTicks = 9;

const clamp = (t: number): number => Math.max(0, Math.min(1, t));

/** Values of one round step, of those that stand clear of one another the latest. */
function roundTicks(from: number, to: number, at: (value: number) => number): readonly number[] {
  const span = to - from;
  if (!(span > 0)) return [];
  const step = roundStepOver(span / mostTicks);
  const taken: number[] = [];
  for (let i = Math.floor(to / step + 1e-9); i * step >= from - 1e-9 * step; i--)
    if (taken.every((other) => Math.abs(at(other) - at(i * step)) >= apart)) taken.unshift(i * step);
  return taken;
}

const minute = 60;

/** The value that a share of them lie under. */
const quantile = (values: readonly number[], share: number): number | undefined =>
  Float64Array.from(values).sort()[Math.floor(values.length * share)];

/**
 * Times by which metal is solid, by their square roots: as thick as the metal is, by Chvorinov's rule (t ∝ (V/A)²). From
 * where a hundredth of the castings or half of the gating is solid, full cells counted, to the end of all metal; what is
 * solid before that shares the dark end.
 */
export function solidScale({ share, solidAt, present, role }: CastFields): ValueScale {
  const castings: number[] = [];
  const gating: number[] = [];
  let to = 0;
  for (let c = 0; c < share.length; c++) {
    if (share[c]! < leastShare || present[c] === 0 || !Number.isFinite(solidAt[c]!)) continue;
    to = Math.max(to, solidAt[c]!);
    if (share[c]! < 0.5) continue;
    if (role[c] === cellRole.casting) castings.push(solidAt[c]!);
    else if (role[c] === cellRole.gating) gating.push(solidAt[c]!);
  }
  const from = Math.min(quantile(castings, 0.01) ?? to, quantile(gating, 0.5) ?? to);
  to = Math.max(to, from + 1e-3);
  const root = (t: number): number => Math.sqrt(Math.max(0, t));
  const at = (t: number): number => clamp((root(t) - root(from)) / (root(to) - root(from)));
  const unit = to - from > 4 * minute ? minute : 1;
  return {
    title: unit === 1 ? 'Solid, seconds after the mould is full' : 'Solid, minutes after the mould is full',
    ends: ['solid first', 'solid last'],
    at,
    ticks: roundTicks(from / unit, to / unit, (v) => at(v * unit)).map((v) => ({
      at: at(v * unit),
      text: String(Number(v.toPrecision(6))),
    })),
  };
}

/**
 * What share of the heat that it may lose before it stops the first metal has lost on its way to a place. The light end
 * is metal as hot as it was poured; the dark end is metal that stops there.
 * @param marginLimit least misrun margin that is asked for
 */
export function spentScale(marginLimit: number): ValueScale {
  const at = (spent: number): number => 1 - clamp(spent);
  const limit = 1 / marginLimit;
  const ticks = [1, 0.75, 0.5, 0.25, 0].map((spent) => ({
    at: at(spent),
    text: `${decimals(spent * 100, 0)}`,
  }));
  return {
    title: 'How near the first metal is to stopping as it arrives, %',
    ends: ['stops short', 'arrives hot'],
    at,
    ticks:
      limit > 0 && limit < 1
        ? [
            ...ticks.filter((t) => Math.abs(t.at - at(limit)) >= apart),
            { at: at(limit), text: 'limit', limit: true },
          ].sort((a, b) => a.at - b.at)
        : ticks,
  };
}
