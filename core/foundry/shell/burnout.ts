/** The fire of shells: plastic flashed off, the shell fired, then brought to what it leaves the kiln with. */
import { maths } from '../../maths/maths.js';
import { type Finding, note, stop, warn } from '../../part/finding.js';
import type { TemperatureUnit } from '../../units/index.js';
import type { BurnoutTime } from '../burnout/clock.js';
import { joinSteps } from '../burnout/controller.js';
import { type BurnoutFlask, type BurnoutKiln, kilnPeak } from '../burnout/kiln.js';
import { checkController, kilnRun, segmentOf, withinKiln } from '../burnout/kiln-run.js';
import { diffusivity, hour } from '../burnout/limits.js';
import { type Step, wholeDegree } from '../burnout/steps.js';
import { checkPositive, checkRange } from '../input.js';
import type { ShellInvestment } from '../investment.js';
import type { Plastic } from '../material.js';
import type { Basis, BurnoutSegment, ShellBurnout } from '../plans.js';

type ShellFiring = ShellBurnout['firing'];

export interface ShellBurnoutInput {
  readonly investment: ShellInvestment;
  readonly plastic: Plastic;
  /** Thickest shell, mm. */
  readonly thickness: number;
  /** °C at which the shells leave the kiln. */
  readonly castingTemperature: number;
  readonly firing?: ShellFiring;
  readonly kiln?: BurnoutKiln;
  /** All the shells, outside sizes and volume. */
  readonly shells: readonly BurnoutFlask[];
  readonly degrees?: TemperatureUnit;
  readonly time?: BurnoutTime;
  /** °C, default 20. */
  readonly startTemperature?: number;
}

/** °C/h: as fast as an empty kiln, or dried shells, are taken up where the kiln's own rate is not known. */
const fastest = 600;
/** °C/h of a closed kiln coming down. */
const coming = 200;
/** °C/h under which a shell from cold is likely to crack. */
const slowest = 300;
/** h of the soaks. */
const soak = { flash: 0.75, fire: 1, level: 0.5 } as const;

/**
 * Flash: the empty kiln is heated to 870 °C, the dried shells go in and their plastic melts at the skin and burns off
 * before its inside has warmed and swelled; then they are fired, and brought to the temperature they leave with. Ramp:
 * the same from cold at the kiln's full rate, for kilns that cannot be loaded hot; it cracks more shells.
 * @throws FoundryInputError when a temperature or thickness is out of range.
 */
export function planShellBurnout(input: ShellBurnoutInput): ShellBurnout {
  const { investment, plastic, kiln = {}, degrees, startTemperature = 20, firing = 'flash' } = input;
  const thickness = checkPositive('thickness', input.thickness, 'mm');
  const wanted = checkRange('castingTemperature', input.castingTemperature, startTemperature, 1400, '°C');
  if (kiln.segments !== undefined) checkRange('segments', kiln.segments, 1, 1000);
  const inDegrees = (c: number): number => (degrees === undefined ? c : wholeDegree(c, degrees));
  const target = inDegrees(wanted);
  const top = kilnPeak(investment.burnoutPeak, target, kiln);
  const peak = inDegrees(top.peak);
  const flash = inDegrees(Math.min(investment.coats.flash, peak));
  const wantedSteps = shellSteps({ firing, flash, peak, target, hold: top.hold });
  const all = withinKiln(wantedSteps, startTemperature, kiln.rate, degrees ?? 'C');
  const most = kiln.segments ?? Number.POSITIVE_INFINITY;
  const steps = joinSteps(all, startTemperature, most);
  const segments = segmentsOf(steps, startTemperature, thickness, investment);
  const run = kilnRun(segments, input.shells, { investment, kiln, time: input.time, mould: 'shell' });
  return {
    ...run.facts,
    castingTemperature: target,
    shellThickness: thickness,
    firing,
    findings: [
      ...tooHot(segments, investment),
      ...top.findings,
      ...checkController(steps.length, most),
      ...run.loadFindings,
      ...(firing === 'ramp' ? [...run.powerFindings, ...rampFindings(segments[0]?.rate ?? 0)] : []),
      note(
        'burnout-plastic',
        `${plastic.title} swells before it runs and can crack a shell. ${plastic.burnoutNote}`,
        'Print it hollow, with two or three thin walls and a drain, and open the shell at cup and vents before the fire. Let one shell cool after the fire, look for ash and cracks, blow or rinse it out, patch it, and fire again.',
      ),
    ],
    bases: basesOf(investment),
  };
}

interface ShellSteps {
  readonly firing: ShellFiring;
  readonly flash: number;
  readonly peak: number;
  readonly target: number;
  readonly hold: number;
}

function shellSteps({ firing, flash, peak, target, hold }: ShellSteps): readonly Step[] {
  const quarters = (hours: number): number => Math.ceil(hours * 4 - 1e-9) * (hour / 4);
  const last: Step = {
    purpose: 'come to the temperature they leave with',
    to: target,
    rate: target < peak ? coming : fastest,
    soak: quarters(soak.level),
    watch: 'door shut until the metal is ready',
  };
  if (firing === 'ramp')
    return [
      {
        purpose: 'heat as fast as the kiln goes; burn out and fire',
        to: peak,
        rate: fastest,
        soak: quarters((soak.flash + soak.fire) * hold),
        watch: 'plastic runs, flames and smoke: vents open, door shut; shell white at the end',
      },
      last,
    ];
  return [
    {
      purpose: 'heat the kiln, empty',
      to: flash,
      rate: fastest,
      soak: quarters(0.25),
      watch: 'shells stand ready, dry, cups down on their tray',
    },
    {
      purpose: 'shells in, one by one: the plastic flashes off',
      to: flash,
      rate: fastest,
      soak: quarters(soak.flash),
      watch: 'flames at once: stand aside, long tongs, door shut; the kiln drops and comes back',
    },
    {
      purpose: 'burn out and fire',
      to: peak,
      rate: fastest,
      soak: quarters(soak.fire * hold),
      watch: 'no flame, smoke or smell; shells white in and out',
    },
    last,
  ];
}

/** The inner face trails the outer by r t²/2α on a steady ramp (Carslaw & Jaeger, ch. III), and by nothing after a soak. */
function segmentsOf(
  steps: readonly Step[],
  start: number,
  thickness: number,
  investment: ShellInvestment,
): readonly BurnoutSegment[] {
  const alpha = diffusivity(investment);
  return steps.map((step, i) => {
    const from = steps[i - 1]?.to ?? start;
    const { to, rate, soak: held } = step;
    const lag = to === from ? 0 : ((rate / hour) * thickness ** 2) / (2 * alpha);
    const left = lag * maths.exp((-(Math.PI ** 2) * alpha * held) / (4 * thickness ** 2));
    return segmentOf(step, from, held, left);
  });
}

function tooHot(segments: readonly BurnoutSegment[], investment: ShellInvestment): readonly Finding[] {
  const peak = Math.max(...segments.map((s) => s.to));
  if (peak <= investment.maxBurnout) return [];
  return [
    stop(
      'burnout-too-hot',
      `The programme reaches ${Math.round(peak)} °C; from ${investment.maxBurnout} °C fused silica turns to cristobalite, and the shell cracks as it cools.`,
      'Lower the casting temperature.',
      'castingTemperature',
    ),
  ];
}

const rampFindings = (rate: number): readonly Finding[] =>
  rate >= slowest
    ? [
        note(
          'shell-from-cold',
          'Heated from cold the plastic swells in the shell before it runs.',
          'Hollow prints and open vents; or put the shells into the hot kiln, where it can be done safely.',
        ),
      ]
    : [
        warn(
          'shell-heated-slowly',
          `At ${Math.round(rate)} °C/h the plastic swells and cracks the shell before it runs; from cold at least ${slowest} °C/h.`,
          'Fewer shells at once, a faster kiln, or the shells into the hot kiln, where it can be done safely.',
          'rate',
        ),
      ];

const basesOf = ({ coats, burnoutPeak, sources }: ShellInvestment): Readonly<Record<string, Basis>> => ({
  flash: { rule: `kiln at ${coats.flash} °C when the shells go in`, source: sources.limits },
  peak: { rule: `fired at ${burnoutPeak} °C, 850 °C at least`, source: sources.limits },
  holds: {
    rule: `${soak.flash} h for the plastic, ${soak.fire} h to fire, ${soak.level} h at the end`,
    source: 'Fired 0.5 to 1 h (from memory); the rest: common practice, no source',
  },
  ramps: {
    rule: `as fast as the kiln goes, ${fastest} °C/h at most; from cold at least ${slowest} °C/h; down ${coming} °C/h`,
    source: 'common practice, no source',
  },
  coreLag: { rule: 'inner face behind the outer, r t² / 2α on a ramp', source: 'Carslaw & Jaeger, ch. III' },
});
