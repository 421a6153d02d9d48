import type { PartDefinition } from '../../core/part/contract.js';
import { noStock, type Stock } from '../../core/part/stock.js';
import hatchPull from '../../generators/hatch-pull.js';
import { type Built, buildPart, type Refused, tolerance, tryBuildPart } from '../helpers/part-probe.js';

export * from '../helpers/part-probe.js';

const definition: PartDefinition = hatchPull;

/** The pull in one state: mesh, volume, slices at the heights asked for; or the refusal. */
export const tryBuild = (
  given: Record<string, unknown>,
  stock: Stock = noStock,
  heights: readonly number[] = [],
  chord = tolerance,
): Built | Refused => tryBuildPart(definition, { given, stock, heights, chord });

export const build = (
  given: Record<string, unknown>,
  stock: Stock = noStock,
  heights: readonly number[] = [],
  chord = tolerance,
): Built => buildPart(definition, { given, stock, heights, chord });

export const codes = (given: Record<string, unknown>, stock?: Stock): string[] =>
  tryBuild(given, stock).findings.map((f) => `${f.severity} ${f.code}`);
