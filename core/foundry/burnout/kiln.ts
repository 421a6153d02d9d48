/** What the kiln allows: how hot, how fast, which flasks it holds. */
import { maths } from '../../maths/maths.js';
import { type Finding, note, stop, warn } from '../../part/finding.js';
import { checkRange } from '../input.js';
import { interpolate } from '../interpolate.js';
import type { Investment } from '../investment.js';

/** What is left out is not known, and not checked. */
export interface BurnoutKiln {
  /** °C */
  readonly topTemperature?: number;
  /** Fastest it heats, °C/h: one figure, or figures by temperature in °C, straight between and level beyond. */
  readonly rate?: number | readonly (readonly [temperature: number, rate: number])[];
  /** Inside, mm. */
  readonly width?: number;
  readonly depth?: number;
  readonly height?: number;
  /** Ramp-and-soak segments its controller takes. */
  readonly segments?: number;
  /** W, rated. */
  readonly power?: number;
}

/** A mould in the kiln. */
export interface BurnoutFlask {
  readonly name: string;
  /** Inside, mm; of a shell outside. */
  readonly diameter: number;
  readonly height: number;
  /** mm³ of mould material; default the whole of the flask. */
  readonly mouldVolume?: number;
  /** Default 1. */
  readonly quantity?: number;
  /** °C at its pour; default the programme's. */
  readonly castingTemperature?: number;
  /** The word; default the programme's. */
  readonly investment?: string;
}

/** Fastest the kiln heats anywhere between two temperatures, °C/h; infinite where not known. */
export function kilnRateBetween(rate: BurnoutKiln['rate'], from: number, to: number): number {
  if (rate === undefined) return Number.POSITIVE_INFINITY;
  if (typeof rate === 'number') return checkRange('kilnRate', rate, 5, 2000, '°C/h');
  const points = [...rate].sort((a, b) => a[0] - b[0]);
  for (const [t, r] of points) {
    checkRange('kilnRate temperature', t, -50, 2000, '°C');
    checkRange('kilnRate', r, 1, 2000, '°C/h');
  }
  if (points.length === 0) return Number.POSITIVE_INFINITY;
  const at = (t: number): number => interpolate(points, t);
  const [low, high] = [Math.min(from, to), Math.max(from, to)];
  const within = points.flatMap(([t, r]) => (t > low && t < high ? [r] : []));
  return Math.min(at(low), at(high), ...within);
}

/** °C a kiln may stay under the usual peak, its top hold growing by half for each 25 °C. */
const peakGive = 50;

/**
 * The top hold's temperature in this kiln, and how much longer it is held. Soot burns about 0.6 times as fast 25 °C
 * lower (Arrhenius at 1000 K, 170 kJ/mol, from memory), so the hold grows by half.
 */
export function kilnPeak(
  peak: number,
  target: number,
  kiln: BurnoutKiln,
): { readonly peak: number; readonly hold: number; readonly findings: readonly Finding[] } {
  const top = kiln.topTemperature;
  if (top === undefined || top >= Math.max(peak, target)) return { peak, hold: 1, findings: [] };
  checkRange('topTemperature', top, 20, 2000, '°C');
  if (top < peak - peakGive || top < target) {
    return {
      peak,
      hold: 1,
      findings: [
        stop(
          'kiln-too-cold',
          `The kiln reaches ${Math.round(top)} °C; this burnout needs ${Math.round(Math.max(target, peak - peakGive))} °C at least.`,
          'Burn out in a hotter kiln: plastic that is not burnt away is soot and gas in the casting.',
          'topTemperature',
        ),
      ],
    };
  }
  return {
    peak: top,
    hold: maths.pow(1.5, (peak - top) / 25),
    findings: [
      note(
        'kiln-top-low',
        `The kiln's top temperature, ${Math.round(top)} °C, is under the usual ${Math.round(peak)} °C: the top hold is longer.`,
        'Hold on until the cups are white.',
      ),
    ],
  };
}

/** mm between flasks and to the walls for air to pass, and under a flask that stands on supports. */
const airGap = 25;

/** Whether a mould goes into the kiln with air about it. */
export function checkInKiln(
  { width, depth, height }: BurnoutKiln,
  { name, diameter, height: high }: Pick<BurnoutFlask, 'name' | 'diameter' | 'height'>,
  mould: 'flask' | 'shell',
): readonly Finding[] {
  const fits = (need: number, room: number | undefined): boolean => room === undefined || need <= room;
  if (fits(high + airGap, height) && [width, depth].every((room) => fits(diameter + 2 * airGap, room)))
    return [];
  return [
    stop(
      'flask-too-large-for-kiln',
      `${mould === 'flask' ? 'Flask' : 'Shell'} ${name}, ø${Math.round(diameter)} × ${Math.round(high)} mm, does not go into the kiln with ${airGap} mm of air round and under it.`,
      mould === 'flask' ? 'Use a smaller flask or a larger kiln.' : 'Use a larger kiln.',
      'kiln',
    ),
  ];
}

/**
 * How many kiln loads the flasks make: standing in one layer in rows, the widest first, 25 mm apart and from the
 * walls (common practice, no source). Null where the kiln's inside is not known.
 */
export function kilnLoads(
  kiln: BurnoutKiln,
  flasks: readonly BurnoutFlask[],
  mould: 'flask' | 'shell' = 'flask',
): { readonly loads: number | null; readonly findings: readonly Finding[] } {
  const { width, depth } = kiln;
  const findings = flasks.flatMap((f) => checkInKiln(kiln, f, mould));
  if (findings.length > 0 || width === undefined || depth === undefined) return { loads: null, findings };
  const sizes = flasks
    .flatMap((f) => Array.from({ length: f.quantity ?? 1 }, () => f.diameter))
    .sort((a, b) => b - a);
  let [loads, across, row, rowDepth] = [0, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, 0];
  for (const d of sizes) {
    if (across + d + airGap > width) {
      row += rowDepth;
      [across, rowDepth] = [airGap, d + airGap];
      if (row + d + airGap > depth) {
        loads++;
        row = airGap;
      }
    }
    across += d + airGap;
  }
  return {
    loads,
    findings:
      loads > 1
        ? [
            note(
              'kiln-loads',
              `${sizes.length} ${mould}s make ${loads} kiln loads.`,
              mould === 'flask'
                ? 'Run the programme once for each; invest the later moulds later, so that none stands and dries out.'
                : 'Run the programme once for each; dried shells keep, dry and out of the sun.',
            ),
          ]
        : [],
  };
}

/** Flasks of one load share the largest's programme; what keeps them from it, with what to do. */
export function checkSharing(
  flasks: readonly BurnoutFlask[],
  investment: Investment,
  castingTemperature: number,
): readonly Finding[] {
  const findings: Finding[] = [];
  const others = flasks.filter((f) => f.investment !== undefined && f.investment !== investment.name);
  if (others.length > 0)
    findings.push(
      warn(
        'burnout-other-investment',
        `${names(others)}: not of ${investment.title.toLowerCase()}, which this programme is for.`,
        'Burn them out by themselves, by their own programme.',
        'investment',
      ),
    );
  const [least, most] = [
    Math.min(...flasks.map((f) => f.diameter)),
    Math.max(...flasks.map((f) => f.diameter)),
  ];
  if (most > 2 * least)
    findings.push(
      note(
        'burnout-diameters-unlike',
        `The flasks run from ${Math.round(least)} to ${Math.round(most)} mm across: the smallest are held as long as the largest need.`,
        'It does them no harm. Where they are many, a load of their own saves hours.',
      ),
    );
  const cooler = flasks.filter(
    (f) => castingTemperature - (f.castingTemperature ?? castingTemperature) > farApart,
  );
  if (cooler.length > 0)
    findings.push(
      warn(
        'burnout-casting-temperatures-far',
        `${names(cooler)}: cast more than ${farApart} °C cooler than the ${Math.round(castingTemperature)} °C at which this programme ends.`,
        'Pour the hot flasks first and come down with an hour more of hold, or give the cool ones a load of their own.',
        'flaskTemperature',
      ),
    );
  return findings;
}

/** °C: beyond it a kiln is long in coming down, and the later flasks' metal waits. Common practice, no source. */
const farApart = 150;

const names = (flasks: readonly BurnoutFlask[]): string => [...new Set(flasks.map((f) => f.name))].join(', ');
