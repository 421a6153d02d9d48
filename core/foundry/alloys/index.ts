/** The table of casting alloys. Adding one: a row in its family's file. */
import type { Alloy } from './alloy.js';
import { aluminiumAlloys } from './aluminium.js';
import { otherCopperAlloys } from './copper-other.js';
import { tinBronzes } from './copper-tin.js';
import { brasses } from './copper-zinc.js';
import { irons } from './iron.js';
import { tinAndSilver } from './tin-silver.js';
import { zincAlloys } from './zinc.js';

export type * from './alloy.js';
export { inchesPerFoot } from './alloy.js';
export * from './mixture.js';
export * from './own-alloy.js';

export const alloys: readonly Alloy[] = [
  ...tinBronzes,
  ...brasses,
  ...otherCopperAlloys,
  ...aluminiumAlloys,
  ...zincAlloys,
  ...irons,
  ...tinAndSilver,
];

/** In the table's order. */
export const alloyNames: readonly string[] = alloys.map((a) => a.name);

/**
 * An alloy by its name or its UNS number, whatever the case; `undefined` when there is none.
 * @param own the shop's alloys, looked at after the table's
 */
export function findAlloy(name: string, own: readonly Alloy[] = []): Alloy | undefined {
  const wanted = name.trim().toLowerCase();
  return [...alloys, ...own].find((a) => a.name === wanted || a.designation.uns?.toLowerCase() === wanted);
}
