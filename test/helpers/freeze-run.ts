/** Problems of heat for tests: one-dimensional bars, bodies that conduct only, runs with their heat balance. */
import { gridOf } from '../../core/freeze/grid.js';
import { type HeatField, heatInField, startField, stepField, sumOver } from '../../core/freeze/heat-field.js';
import type { HeatProblem } from '../../core/freeze/heat-problem.js';
import type { FreezingMetal, MouldSubstance } from '../../core/freeze/substance.js';

/** A single cell across. */
export const one = Float64Array.of(0, 1);
/** As good as a surface held at a temperature, W/(mm²·K). */
export const held = 1e3;

/** Mould that hands on whatever it gets and keeps nothing: surroundings brought up to the metal's face. */
export const noMould: MouldSubstance = { density: 1e-6, specificHeat: 1, conductivity: 1e3 };
/** Gypsum-bonded investment, from memory. */
export const plaster: MouldSubstance = { density: 1.1e-3, specificHeat: 0.84, conductivity: 0.35e-3 };
/** Silica sand, from memory (Poirier and Geiger). */
export const sand: MouldSubstance = { density: 1.5e-3, specificHeat: 1.16, conductivity: 0.6e-3 };

/** Aluminium (Incropera, Table A.1, from memory), its phases alike; it melts at 660.3 °C, to what single precision holds. */
export const aluminium: FreezingMetal = {
  density: 2.385e-3,
  solidus: 660.25,
  liquidus: 660.25,
  latentHeat: 397,
  specificHeat: { solid: 1.181, liquid: 1.181 },
  conductivity: { solid: 0.211, liquid: 0.211 },
};
/** A solid that conducts and never melts: α = 50 mm²/s. */
export const conductor: FreezingMetal = {
  density: 1e-3,
  solidus: 500,
  liquidus: 501,
  latentHeat: 0,
  specificHeat: { solid: 1, liquid: 1 },
  conductivity: { solid: 0.05, liquid: 0.05 },
};

/** Cells between edges along x, all of metal unless said; shut sideways; nothing lost. */
export function barOf(edges: Float64Array, over: Partial<HeatProblem>): HeatProblem {
  const n = edges.length - 1;
  return {
    grid: gridOf(edges, one, one),
    share: new Float32Array(n).fill(1),
    metal: aluminium,
    mould: plaster,
    contactResistance: 0,
    surroundings: { temperature: 20, convection: 0, emissivity: 0 },
    shut: [1, 2],
    start: new Float32Array(n),
    ...over,
  };
}

export interface Run {
  readonly field: HeatField;
  /** Goes on until the time, s, by steps of at most so much. */
  to(time: number, step: number): void;
  /** The same by steps that grow with the time gone. */
  growing(time: number, first: number, share: number): void;
  /** Share of the heat moved so far that the balance does not account for. */
  imbalance(): number;
}

export function startRun(problem: HeatProblem): Run {
  const field = startField(problem);
  const before = heatInField(field);
  const begun = field.content.slice();
  const growing = (time: number, first: number, share: number): void => {
    while (field.time < time - 1e-9)
      stepField(field, Math.min(time - field.time, Math.max(first, share * field.time)));
  };
  return {
    field,
    growing,
    to: (time, step) => growing(time, step, 0),
    imbalance() {
      const moved = sumOver(problem, (c) => Math.abs(field.content[c]! - begun[c]!)) / 2;
      return (
        Math.abs(before - heatInField(field) - field.lost) / Math.max(moved, Math.abs(field.lost), 1e-12)
      );
    },
  };
}
