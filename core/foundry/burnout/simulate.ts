/** Runs the mould through the programme and lengthens the holds that its core needs longer. */
import type { BlockInvestment } from '../investment.js';
import { startConduction } from './conduction.js';
import { hour } from './limits.js';
import { mouldWater, waterHeats } from './mould-water.js';
import type { Step } from './steps.js';

/** °C between skin and core that a hold may end with. */
export const holdLag = 20;

export interface MouldInput {
  /** mm */
  readonly diameter: number;
  /** mm; left out, the mould counts as endless, which is the slower. */
  readonly height?: number;
  readonly investment: BlockInvestment;
  readonly waterRatio?: number;
  /** W/(mm²·K) from kiln to skin; left out, the skin has the kiln's temperature. */
  readonly film?: number;
}

export interface Simulated {
  /** s, the steps' soaks with what was added. */
  readonly soaks: readonly number[];
  /** °C, skin less core at each step's end, no sign. */
  readonly lags: readonly number[];
  /** s from the start, °C. */
  readonly core: readonly (readonly [number, number])[];
  /** Heat in over heat held, less 1. */
  readonly imbalance: number;
}

const quarter = hour / 4;
/** As it is reported. */
const tenths = (c: number): number => Math.round(c * 10) / 10;

/**
 * One pass from start to end: after each step's own soak, quarters of an hour more until the core is within 20 °C.
 * Ramps without a soak get none.
 */
export function simulateMould(steps: readonly Step[], start: number, mould: MouldInput): Simulated {
  const { conductivity, density, specificHeat } = mould.investment.mould;
  const body = startConduction(
    {
      radius: mould.diameter / 2,
      height: mould.height ?? null,
      conductivity,
      heatCapacity: density * specificHeat,
      latent: waterHeats(mouldWater(mould.investment, mould.waterRatio)),
      ...(mould.film === undefined ? {} : { film: mould.film }),
    },
    start,
  );
  const stride = mould.height === undefined ? 60 : 120;
  let [time, kiln, sampled] = [0, start, 0];
  const core: [number, number][] = [[0, start]];
  const sample = (): void => {
    core.push([Math.round(time), tenths(body.core())]);
    sampled = time;
  };
  const run = (seconds: number, to: number): void => {
    const count = Math.ceil(seconds / stride);
    const from = kiln;
    for (let i = 1; i <= count; i++) {
      kiln = from + ((to - from) * i) / count;
      body.step(seconds / count, kiln);
      time += seconds / count;
      if (time - sampled >= quarter - 1) sample();
    }
  };
  const lag = (): number => Math.abs(kiln - body.core());
  const [soaks, lags]: [number[], number[]] = [[], []];
  for (const step of steps) {
    run((Math.abs(step.to - kiln) / step.rate) * hour, step.to);
    kiln = step.to;
    let soak = step.soak;
    run(soak, step.to);
    while (step.soak > 0 && tenths(lag()) >= holdLag) {
      run(quarter, step.to);
      soak += quarter;
    }
    if (time > sampled) sample();
    soaks.push(soak);
    lags.push(lag());
  }
  return { soaks, lags, core, imbalance: body.heatIn() / (body.heatHeld() || 1) - 1 };
}
