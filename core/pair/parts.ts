import { type BasicRackName, basicRackProfiles } from '../gear/basic-rack.js';
import { gearGeometry } from '../gear/gear-geometry.js';
import type { Hand } from '../gear/helix.js';
import type { AnyRankedPair } from '../gear/pair-ranking.js';
import type { ModuleChoice } from '../gear/pair-request.js';
import type { GearSpec } from '../gear/spec.js';
import type { PairFieldValues } from './fields.js';

/** Digits that a plate job keeps: far below any tolerance, short to read. */
export const round = (value: number, digits = 6): number => Number(value.toFixed(digits));
const degreesIn = 180 / Math.PI;
const usualBore = 10;
/** Rim that a bore leaves below the roots: at least a few mm, and a tooth depth and a fifth where there is room. */
const leastRim = 3;

/** Names of the two members: as the report calls them, and as the plate job does. */
export const memberNames = {
  external: ['gear 1', 'gear 2'],
  internal: ['pinion', 'ring'],
  rack: ['pinion', 'rack'],
} as const;

/**
 * The `parts` entries of a plate job that make a pair: the mate has the other hand, a ring the same. A mate that is
 * there already is left out.
 */
export function pairParts(
  pair: AnyRankedPair,
  fields: PairFieldValues,
  alloys: readonly [string, string],
): readonly Readonly<Record<string, unknown>>[] {
  const names = memberNames[pair.mesh].map((name) => name.replace(' ', '-')) as [string, string];
  const [first, second] = memberHands(pair);
  // Flanks that stay as cast carry no stock.
  const stock = pair.backlash.kind === 'as-cast' ? { stock: { flank: 0, tip: 0 } } : {};
  const entry = (i: 0 | 1, spec: GearSpec, part: string, hand: Hand, more: object) => ({
    name: names[i],
    part,
    ...(i === 1 && pair.mesh === 'rack' && pair.pieces > 1 ? { quantity: pair.pieces } : {}),
    ...(alloys[i] === alloys[0] ? {} : { alloy: alloys[i] }),
    ...stock,
    parameters: {
      ...writtenTeeth(spec, {
        module: pair.module,
        rackProfile: fields.rackProfile,
        gearType: fields.gearType,
        hand,
        isRack: i === 1 && pair.mesh === 'rack',
        faceWidth: pair.faceWidth,
      }),
      ...more,
    },
  });
  const gear = entry(0, pair.gear, `${fields.gearType}-gear`, first, boreOf(pair.gear, fields.bore));
  if (fields.keepMate) return [gear];
  if (pair.mesh === 'internal')
    return [
      gear,
      entry(1, pair.mate, 'ring-gear', second, { rimThickness: `${round(pair.rimThickness)}mm` }),
    ];
  if (pair.mesh === 'rack') return [gear, entry(1, pair.mate, 'rack', second, {})];
  return [gear, entry(1, pair.mate, `${fields.gearType}-gear`, second, boreOf(pair.mate, fields.mateBore))];
}

const memberHands = ({ mesh }: AnyRankedPair): readonly [Hand, Hand] =>
  mesh === 'internal' ? ['right', 'right'] : ['left', 'right'];

/** How the teeth of one part of a pair are written. */
export interface WrittenTeeth {
  readonly module: ModuleChoice;
  readonly rackProfile: BasicRackName;
  readonly gearType: PairFieldValues['gearType'];
  readonly hand: Hand;
  /** Racks have no profile shift. */
  readonly isRack: boolean;
  /** mm */
  readonly faceWidth: number;
}

/** The parameters of a part's teeth: what is not the part's own default. */
export function writtenTeeth(spec: GearSpec, how: WrittenTeeth): Readonly<Record<string, unknown>> {
  const rack = basicRackProfiles[how.rackProfile];
  const shift = round(spec.profileShift);
  const handKey = how.gearType === 'double-helical' ? 'lowerHand' : 'hand';
  const factor = (key: 'addendum' | 'dedendum' | 'rootRadius') =>
    spec[key] === rack[key] ? {} : { [key]: round(spec[key], 8) };
  return {
    ...(how.module.series === 'DP'
      ? { diametralPitch: how.module.diametralPitch }
      : { module: `${round(spec.normalModule)}mm` }),
    teeth: spec.teeth,
    ...(Math.abs(spec.normalPressureAngle - rack.normalPressureAngle) < 1e-9
      ? {}
      : { pressureAngle: `${round(spec.normalPressureAngle * degreesIn, 8)}deg` }),
    ...(how.rackProfile === 'A' ? {} : { rackProfile: how.rackProfile }),
    ...factor('addendum'),
    ...factor('dedendum'),
    ...factor('rootRadius'),
    ...(how.isRack || shift === 0 ? {} : { profileShift: shift }),
    ...(how.gearType === 'spur'
      ? {}
      : { helixAngle: `${round(spec.helixAngle * degreesIn, 8)}deg`, [handKey]: how.hand }),
    ...lengthUnlessZero('thinning', spec.thinning),
    // Half a micrometre is less than any print shows.
    ...lengthUnlessZero('tipShortening', (spec.tipShortening ?? 0) < 5e-4 ? 0 : (spec.tipShortening ?? 0)),
    faceWidth: `${round(how.faceWidth)}mm`,
  };
}

const lengthUnlessZero = (key: string, value: number): object =>
  Math.abs(round(value)) === 0 ? {} : { [key]: `${round(value)}mm` };

/** The bore asked for; otherwise one that leaves a rim, where the part's own default would not. */
export function boreOf(spec: GearSpec, asked: number | undefined): object {
  if (asked !== undefined) return { bore: asked === 0 ? 0 : `${round(asked)}mm` };
  const depth = spec.normalModule * (spec.addendum + spec.dedendum);
  const most = gearGeometry(spec).rootDiameter - 2 * Math.max(leastRim, 1.2 * depth);
  if (most >= usualBore) return {};
  const fits = Math.floor(most);
  return { bore: fits >= 3 ? `${fits}mm` : 0 };
}
