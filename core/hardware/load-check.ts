/** What a part carries, by its weakest member; as numbers and in words. N, MPa. */
import type { Alloy } from '../foundry/alloys/index.js';
import { allowableStress, usualSafetyFactor } from '../foundry/cast-strength.js';
import { type Finding, note, warn } from '../part/finding.js';
import type { LengthUnit } from '../units/length.js';
import { formatForce, formatStress } from '../units/mechanics.js';

/** What a material may carry in each way, MPa. */
export interface Allowables {
  readonly material: string;
  /** In tension and bending. */
  readonly tension: number;
  readonly shear: number;
  readonly bearing: number;
  readonly basis: string;
  readonly safetyFactor: number;
}

/**
 * Shear 1/√3 of tension (von Mises), which for brittle iron, whose shear strength is over that, is on the safe side;
 * bearing as much as tension, so that holes do not wear or draw (common practice, no source).
 */
const allowables = (material: string, tension: number, basis: string, safetyFactor: number): Allowables => ({
  material,
  tension,
  shear: tension / Math.sqrt(3),
  bearing: tension,
  basis,
  safetyFactor,
});

/** Of a casting: the alloy table's strength over the safety factor, at most two thirds of its yield strength. */
export function castAllowables(
  alloy: Pick<Alloy, 'title' | 'strength' | 'sources'>,
  safetyFactor = usualSafetyFactor,
): Allowables {
  const { stress, basis } = allowableStress(alloy, safetyFactor);
  return allowables(alloy.title, stress, `${basis} (${alloy.sources.strength})`, safetyFactor);
}

/** Rod: tensile and yield, MPa. All from memory. */
const wrought = {
  'silicon bronze': { tensile: 480, yield: 260, source: 'ASTM B98, C65500 half hard' },
  brass: { tensile: 380, yield: 170, source: 'ASTM B16, C36000 half hard' },
  'naval brass': { tensile: 415, yield: 185, source: 'ASTM B21, C46400 half hard' },
  'stainless steel': { tensile: 515, yield: 205, source: 'ASTM A276, 304 or 316 annealed' },
  'mild steel': { tensile: 400, yield: 250, source: 'ASTM A36' },
} as const;

export type RodMaterial = keyof typeof wrought;
export const rodMaterials = Object.keys(wrought) as readonly RodMaterial[];

/** Of a pin cut from rod. */
export const rodAllowables = (material: RodMaterial, safetyFactor = usualSafetyFactor): Allowables =>
  wroughtAllowables(material, wrought[material], safetyFactor);

function wroughtAllowables(
  material: string,
  metal: { readonly tensile: number; readonly yield: number; readonly source: string },
  safetyFactor: number,
): Allowables {
  const { stress, basis } = allowableStress({ strength: metal }, safetyFactor);
  return allowables(
    material,
    stress,
    `${basis.replace(', as cast', '')} (${metal.source}, from memory)`,
    safetyFactor,
  );
}

/** Bolts by their material, as sold: tensile and yield, MPa. All from memory. */
const boltMetals = {
  'stainless steel A2-70': { tensile: 700, yield: 450, source: 'ISO 3506-1; A4-70 the same' },
  'steel 8.8': { tensile: 800, yield: 640, source: 'ISO 898-1, to M16' },
  'steel 4.6': { tensile: 400, yield: 240, source: 'ISO 898-1' },
  'silicon bronze': { tensile: 485, yield: 380, source: 'ASTM F468, alloy 651' },
} as const;

export type BoltMaterial = keyof typeof boltMetals;
export const boltMaterials = Object.keys(boltMetals) as readonly BoltMaterial[];

export const boltAllowables = (material: BoltMaterial, safetyFactor = usualSafetyFactor): Allowables =>
  wroughtAllowables(`${material} bolts`, boltMetals[material], safetyFactor);

/** One member in one way of failing. `value` and `allowable` are MPa, or N for screws and joints. */
export interface MemberCheck {
  /** What it is: `grip`, `horn`, `pin`, `screws`. */
  readonly member: string;
  /** How it would fail: `bending at the root`, `shear-out`. */
  readonly mode: string;
  readonly value: number;
  readonly allowable: number;
  readonly unit: 'MPa' | 'N';
  /** value / allowable. */
  readonly utilisation: number;
}

/** A member by its stress. `kind` chooses the allowable. */
export function stressCheck(
  member: string,
  mode: string,
  stress: number,
  material: Allowables,
  kind: 'tension' | 'shear' | 'bearing' = 'tension',
): MemberCheck {
  const allowable = material[kind];
  return { member, mode, value: stress, allowable, unit: 'MPa', utilisation: stress / allowable };
}

/** A member by the force on it. */
export const forceCheck = (member: string, mode: string, force: number, allowable: number): MemberCheck => ({
  member,
  mode,
  value: force,
  allowable,
  unit: 'N',
  utilisation: force / allowable,
});

/** A part under its load. */
export interface LoadCheck {
  /** N */
  readonly load: number;
  /** N: the load that uses the weakest member up, since every stress is in proportion. */
  readonly allowableLoad: number;
  /** load / allowable load; over 1 is too much. */
  readonly utilisation: number;
  readonly weakest: MemberCheck;
  /** Worst first. */
  readonly members: readonly MemberCheck[];
}

/**
 * Ranks the members. Every value must grow in proportion to `load`.
 * @throws RangeError without members, or for a load that is not greater than 0
 */
export function checkLoad(load: number, members: readonly MemberCheck[]): LoadCheck {
  if (!(load > 0)) throw new RangeError(`load is ${load} N; it must be over 0`);
  const ranked = [...members].sort((a, b) => b.utilisation - a.utilisation);
  const weakest = ranked[0];
  if (weakest === undefined) throw new RangeError('no member to check');
  return {
    load,
    allowableLoad: load / weakest.utilisation,
    utilisation: weakest.utilisation,
    weakest,
    members: ranked,
  };
}

/** What a load figure leaves out; it goes with every one. */
export const loadCaveats: readonly string[] = [
  'Never for lifting people or for loads hung over them, nor for what holds a person: rigging, climbing, safety lines, steps and rails.',
  'A bench estimate by plain beam and lug formulas, not a rating to a design code: what carries life is the work of licensed practice, in tested hardware.',
  'It takes the casting as sound and the load as steady; pores, shock, fatigue, stress concentration, corrosion and what the part is fixed to are left out.',
  'Prove each casting above its working load before anyone relies on it.',
];

const figure = (value: number, unit: MemberCheck['unit'], units: LengthUnit): string =>
  unit === 'MPa' ? formatStress(value, units) : formatForce(value, units);

/** `horn, bending at the root: 45 MPa of 69 MPa (65 %)` */
export const describeMember = (m: MemberCheck, units: LengthUnit = 'mm'): string =>
  `${m.member}, ${m.mode}: ${figure(m.value, m.unit, units)} of ${figure(m.allowable, m.unit, units)} (${percent(m.utilisation)})`;

const percent = (share: number): string =>
  Number.isFinite(share)
    ? `${share < 0.1 ? (100 * share).toFixed(1) : Math.round(100 * share)} %`
    : 'over all';

export interface LoadWords {
  /** What bears it: `the pull`, `the cleat`. */
  readonly part: string;
  /** What it is to bear: `a 12 mm polyester line`, `a door of 20 kg`. */
  readonly use: string;
  /** What to do about a part that is too light. */
  readonly remedy: string;
  readonly parameters?: readonly string[];
  readonly units?: LengthUnit;
}

/**
 * What a load check says: `too-light` (warn) over the allowable load, `near-allowable-load` (note) from 0.8 of it;
 * else nothing. The standing caution goes on the finding.
 */
export function loadFindings(check: LoadCheck, words: LoadWords): readonly Finding[] {
  if (check.utilisation <= 0.8) return [];
  const units = words.units ?? 'mm';
  const said = `${formatForce(check.load, units)} against an allowable ${formatForce(check.allowableLoad, units)}, by the ${describeMember(check.weakest, units)}`;
  const parameters = words.parameters ?? [];
  return check.utilisation > 1
    ? [
        warn(
          'too-light',
          `${words.part} is too light for ${words.use}: ${said}`,
          `${words.remedy}; ${neverLift}`,
          ...parameters,
        ),
      ]
    : [
        note(
          'near-allowable-load',
          `${words.part} has little to spare for ${words.use}: ${said}`,
          `${words.remedy} where it may be pulled harder`,
          ...parameters,
        ),
      ];
}

const neverLift = 'never lift people or hang loads over them with it';

/** The load a part may bear, as a note with the standing caution; give it once a part that bears a load. */
export const allowableLoadNote = (check: LoadCheck, words: Omit<LoadWords, 'use' | 'remedy'>): Finding =>
  note(
    'allowable-load',
    `${words.part} may bear ${formatForce(check.allowableLoad, words.units ?? 'mm')} as a bench estimate; its weakest place is the ${check.weakest.member}, ${check.weakest.mode}`,
    `prove it above its working load; ${neverLift}`,
    ...(words.parameters ?? []),
  );
