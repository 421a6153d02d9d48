import {
  edgeDistance,
  type HingeSizes,
  hingePin,
  knuckleCount,
  knuckleLength,
  knuckleWall,
  type LoadCheck,
  leafGap,
  leafScrews,
  leafThickness,
  leastPitch,
  nearStep,
  pinClearance,
  sizeStep,
  stockRods,
  upStep,
} from '../../core/hardware/index.js';
import type { Vec2 } from '../../core/solid/types.js';
import { checkHinge } from '../hinge/door-load.js';
import { faceStart, type KnuckleSection } from '../hinge/knuckle-section.js';
import type { KnuckleRow } from '../hinge/knuckles.js';
import { chooseLeafScrew, type LeafScrew, screwPlaces } from '../hinge/leaf-screws.js';
import type { ButtHingeParameters } from './parameters.js';

/** Every size of a butt hinge, finished, mm. */
export interface ButtHingeSizes {
  readonly length: number;
  readonly thickness: number;
  readonly pinDiameter: number;
  readonly holeDiameter: number;
  readonly wall: number;
  readonly closedGap: number;
  readonly row: KnuckleRow;
  readonly section: KnuckleSection;
  /** Axis to the floor of the notches. */
  readonly notchFloor: number;
  readonly notchRadius: number;
  /** Mouth of the countersink for a riveted end, 0 for none. */
  readonly rivetMouth: number;
  readonly screw: LeafScrew;
  readonly screwsAt: readonly Vec2[];
  readonly load: LoadCheck;
}

type Core = Pick<
  ButtHingeSizes,
  'thickness' | 'pinDiameter' | 'holeDiameter' | 'wall' | 'closedGap' | 'row' | 'load'
> & { readonly barrelRadius: number };

/** The sizes the parameters stand for; a given one is never changed. */
export function buttHingeSizes(p: ButtHingeParameters): ButtHingeSizes {
  const core = coreSizes(p);
  const { thickness, barrelRadius, closedGap } = core;
  const length = p.size;
  const edge = p.edge ?? Math.min(thickness / 3, Math.max(0.5, nearStep(p.series, thickness / 6)));
  const fillet = p.fillet ?? Math.max(1.5, nearStep(p.series, thickness / 2));
  const section: KnuckleSection = {
    barrelRadius,
    faceDrop: closedGap / 2,
    backDrop: Math.min(barrelRadius, closedGap / 2 + thickness),
    reach: (p.openWidth ?? length) / 2,
    fillet,
    backFillet: fillet,
    edge,
  };
  const rounding = length <= 100 ? 1.5 : length <= 160 ? 2 : 2.5;
  const notchRadius =
    p.notchRadius ?? (p.leafGap === undefined ? rounding : Math.min(rounding, p.leafGap + 0.3));
  const notchFloor = barrelRadius + (p.leafGap ?? Math.max(leafGap.usual, notchRadius - 0.3));
  const count = p.screws ?? leafScrews(length);
  const flat = {
    from: Math.max(notchFloor, faceStart(section) || 0),
    to: section.reach,
    length,
  };
  const screw = chooseLeafScrew(p.screw, p.series, { thickness, width: flat.to - flat.from, length }, count);
  const mouth = Math.min(1.5 * core.holeDiameter, 2 * barrelRadius - 2);
  return {
    ...core,
    length,
    section,
    notchFloor,
    notchRadius,
    rivetMouth: p.pinEnds === 'riveted' && mouth > 1.1 * core.holeDiameter ? mouth : 0,
    screw,
    screwsAt: screwPlaces(screw, flat, count),
  };
}

/** Leaf, pin and knuckles: by the rules of proportion, then heavier until they bear the door, if one is given. */
function coreSizes(p: ButtHingeParameters): Core {
  const step = sizeStep[p.series];
  let leaf = p.thickness ?? nearStep(p.series, leafThickness(p.size));
  let pin = p.pinDiameter ?? hingePin(p.series, leaf);
  let more = 0;
  const at = (): Core => {
    const holeDiameter = pin + (p.pinClearance ?? pinClearance(pin));
    const least = p.knuckleWall ?? knuckleWall(leaf, pin) + more;
    // A worked-out wall puts the barrel's diameter on a step.
    const barrel =
      p.knuckleWall === undefined
        ? upStep(p.series, holeDiameter + 2 * least)
        : holeDiameter + 2 * p.knuckleWall;
    const wall = (barrel - holeDiameter) / 2;
    const count = p.knuckles === 'auto' ? knuckleCount(p.size, pin) : Number(p.knuckles);
    const row: KnuckleRow = {
      length: p.size,
      count,
      gap: p.knuckleGap,
      knuckleLength: knuckleLength(p.size, count, p.knuckleGap),
    };
    const closedGap = p.closedGap ?? Math.max(0.5, barrel - 2 * leaf);
    const members: HingeSizes = {
      pinDiameter: pin,
      holeDiameter,
      knuckleDiameter: barrel,
      knuckles: count,
      knuckleLength: row.knuckleLength,
      knuckleGap: p.knuckleGap,
      leafThickness: leaf,
      leafOffset: (closedGap + leaf) / 2,
    };
    const load = checkHinge(p, members);
    return {
      thickness: leaf,
      pinDiameter: pin,
      holeDiameter,
      wall,
      closedGap,
      row,
      load,
      barrelRadius: barrel / 2,
    };
  };
  let sizes = at();
  for (let i = 0; i < 60 && p.doorMass !== undefined && sizes.load.utilisation > 1; i++) {
    const { member } = sizes.load.weakest;
    if (member === 'pin' && p.pinDiameter === undefined) {
      const next = stockRods[p.series].find((rod) => rod > pin + 1e-9);
      if (next === undefined || p.size / 3 < 2 * next) break;
      pin = next;
    } else if (member === 'knuckles' && p.knuckleWall === undefined && more < p.size / 8) more += step;
    else if (member === 'leaf' && p.thickness === undefined && leaf < Math.min(16, p.size / 6)) {
      leaf += step;
      if (p.pinDiameter === undefined) pin = Math.max(pin, hingePin(p.series, leaf));
    } else break;
    sizes = at();
  }
  return sizes;
}

/** Room that screws need on a leaf, mm along the pin. */
export const screwsNeed = ({ screw, screwsAt }: ButtHingeSizes): number =>
  2 * edgeDistance(screw.fastener) + Math.max(0, screwsAt.length - 1) * leastPitch(screw.fastener);
