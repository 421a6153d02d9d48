import type { z } from 'zod';
import {
  type Bolt,
  type CountersinkSeat,
  type FastenerSeries,
  fastenerAtLeast,
  filletRadius,
  fingerBreadth,
  fingertipRecess,
  headLand,
  leastPinWall,
  leastPlate,
  nearStep,
  pinClearance,
  stockRods,
  upStep,
  usualPull,
} from '../../core/hardware/index.js';
import { maths } from '../../core/maths/maths.js';
import type { Outline } from '../../core/shape/index.js';
import { type PullPlan, planOf, ringOutline } from '../hardware/ring-plan.js';
import { askedScrew, seatOf, withCountersunkHead } from '../hardware/screw-field.js';
import type { ringPullParameters } from './parameters.js';

export type RingPullParameters = z.output<typeof ringPullParameters>;

/** Every size of a ring pull, mm: the given ones, and the others worked out. Finished. */
export interface RingPullSizes {
  readonly style: 'surface' | 'flush';
  readonly fingers: 1 | 2;
  readonly eyeWidth: number;
  readonly eyeLength: number;
  readonly rimWidth: number;
  readonly thickness: number;
  readonly edgeRadius: number;
  readonly tabWidth: number;
  /** Corners of the tab's end in plan. */
  readonly tabCorner: number;
  readonly filletRadius: number;
  readonly plan: PullPlan;
  /** Eye's centre to the pin's axis. */
  readonly pinX: number;
  readonly pinDistance: number;
  readonly pinToEnd: number;
  /** Farthest that the tab's end reaches from the pin's axis as it turns. */
  readonly swing: number;
  readonly pinDiameter: number;
  readonly holeDiameter: number;
  /** Between the eyes. */
  readonly gap: number;
  /** Half the width of an eye, and the radius of the metal round its hole. */
  readonly eyeRadius: number;
  readonly eyeThickness: number;
  readonly plateThickness: number;
  /** Fillets of the plate. */
  readonly rootFillet: number;
  readonly screw: Bolt;
  readonly seat: CountersinkSeat;
  readonly wellDepth: number;
  /** N */
  readonly pull: number;
}

/** A pin thinner than this has no room for a sprue on its end, mm: 4.4 mm with the usual half millimetre of stock. */
const leastCastPin = 4;

/** Air kept between the turning tab and what is under or behind it, mm. */
export const swingClearance = 0.5;

/** Half the ring's tab outside its edges' rounding is flat only from here on; rounded by this in plan, mm. */
const leastCorner = 0.5;

/** The sizes the parameters stand for; a given one is never changed. */
export function ringPullSizes(p: RingPullParameters): RingPullSizes {
  const series: FastenerSeries = p.series;
  const near = (value: number): number => nearStep(series, value);
  const up = (value: number): number => upStep(series, value);
  const fingers = p.fingers === 2 ? 2 : 1;

  const clearanceOf = (pin: number): number => p.pinClearance ?? pinClearance(pin);
  const holeOf = (pin: number): number => pin + clearanceOf(pin);
  const wallOf = (hole: number): number => leastPinWall(hole);
  const castRods = stockRods[series].filter((rod) => rod >= leastCastPin);
  const thinnestPin = p.pinDiameter ?? castRods[0]!;
  const forPin = holeOf(thinnestPin) + 2 * wallOf(holeOf(thinnestPin));
  const thickness = p.thickness ?? Math.max(near(2.5 + 0.15 * p.size), up(forPin));
  const pinDiameter =
    p.pinDiameter ??
    castRods.findLast((rod) => holeOf(rod) + 2 * wallOf(holeOf(rod)) <= thickness + 1e-9) ??
    castRods[0]!;
  const holeDiameter = holeOf(pinDiameter);

  const eyeLength = p.size;
  const eyeWidth =
    p.eyeWidth ?? (fingers === 2 ? near((p.size * fingerBreadth.two) / fingerBreadth.comfortable) : p.size);
  const rimWidth = p.rimWidth ?? near(1.25 * thickness);
  const edgeRadius = p.edgeRadius ?? 0.38 * Math.min(thickness, rimWidth);
  const fillet = p.filletRadius ?? near(thickness / 2);
  const tabWidth = p.tabWidth ?? Math.max(near(0.45 * p.size), near(2 * edgeRadius + 5));
  const pinToEnd = Math.max(thickness / 2, holeDiameter / 2 + wallOf(holeDiameter));
  const swing =
    edgeRadius + maths.hypot(Math.max(0, pinToEnd - edgeRadius), Math.max(0, thickness / 2 - edgeRadius));
  const tabCorner = Math.max(leastCorner, Math.min(edgeRadius, pinToEnd - holeDiameter / 2 - 0.2));
  const plan = planOf({ eyeWidth, eyeLength, rimWidth, tabWidth, filletRadius: fillet });
  const eyeRadius = up(holeDiameter / 2 + wallOf(holeDiameter) + 0.3);
  const least = Math.max(plan.filletX, plan.halfX + plan.outer) + eyeRadius + 1;
  const pinDistance = p.pinDistance ?? up(least - plan.halfX - plan.inner);

  const screw = withCountersunkHead(askedScrew(p.screw) ?? fastenerAtLeast('bolt', series, 0.6 * thickness));
  const seat = seatOf(screw);
  const plateThickness = p.plateThickness ?? up(Math.max(0.6 * thickness, leastPlate(seat)));
  const eyeThickness = p.eyeThickness ?? Math.max(near(0.65 * thickness), 4);
  return {
    style: p.style,
    fingers,
    eyeWidth,
    eyeLength,
    rimWidth,
    thickness,
    edgeRadius,
    tabWidth,
    tabCorner,
    filletRadius: fillet,
    plan,
    pinX: plan.halfX + plan.inner + pinDistance,
    pinDistance,
    pinToEnd,
    swing,
    pinDiameter,
    holeDiameter,
    gap: tabWidth + p.endClearance,
    eyeRadius,
    eyeThickness,
    plateThickness,
    rootFillet: rootFilletOf(
      plateThickness,
      eyeThickness,
      tabWidth + p.endClearance,
      Math.max(swing, eyeRadius - 0.5),
    ),
    screw,
    seat,
    wellDepth: p.wellDepth ?? up(Math.max(fingertipRecess.bare.depth, thickness / 2 + swing + 7.5)),
    pull: p.pull ?? usualPull[fingers],
  };
}

/** The usual fillet, as far as there is room for it between the eyes and under their tops. */
const rootFilletOf = (plate: number, eye: number, gap: number, height: number): number =>
  Math.min(filletRadius(plate, eye).usual, 0.38 * Math.max(0, gap - 2), 0.8 * (height + swingClearance));

/**
 * The ring's plan with the tab's sides moved out by `sideStep` mm: what the mating stock is over the skin's, so that
 * the skin's offset puts them where they belong.
 */
export function ringPlanOutline(s: RingPullSizes, sideStep = 0): Outline {
  const { eyeWidth, eyeLength, rimWidth, tabWidth, filletRadius: fillet } = s;
  const plan = planOf({
    eyeWidth,
    eyeLength,
    rimWidth,
    tabWidth: tabWidth + 2 * sideStep,
    filletRadius: fillet,
  });
  return ringOutline(plan, s.pinX + s.pinToEnd, s.tabCorner);
}

/** The base of the surface plate: screws, and what it follows from. */
export interface BaseLayout {
  readonly screws: readonly (readonly [number, number])[];
  /** Radius round each screw. */
  readonly land: number;
  /** Outside of an eye from the middle. */
  readonly eyeOutside: number;
  /** Rounding of the upper edge. */
  readonly edge: number;
  /** Half the width along X that the gate needs, for a base with two screws. */
  readonly half: number;
}

export function baseLayout(s: RingPullSizes, count: '2' | '4'): BaseLayout {
  const { seat, gap, eyeThickness, eyeRadius, rootFillet, plateThickness } = s;
  const mouth = seat.mouthDiameter / 2;
  const edge = Math.min(0.5 * plateThickness, 2.5);
  const land = mouth + Math.max(headLand(seat.mouthDiameter), edge + 0.3);
  const eyeOutside = gap / 2 + eyeThickness;
  const clear = rootFillet + mouth + 0.5;
  if (count === '2') {
    const y = eyeOutside + clear;
    return {
      screws: [
        [0, y],
        [0, -y],
      ],
      land,
      eyeOutside,
      edge,
      half: Math.max(eyeRadius + rootFillet + 1.15 * s.thickness + edge + 0.5, land),
    };
  }
  const x = eyeRadius + clear;
  const y = Math.max(eyeOutside + edge + 0.5 - land + rootFillet, mouth + 3.5);
  return {
    screws: [
      [x, y],
      [-x, y],
      [-x, -y],
      [x, -y],
    ],
    land,
    eyeOutside,
    edge,
    half: x + land,
  };
}
