import type { z } from 'zod';
import {
  type CountersinkSeat,
  type Fastener,
  type FingerCount,
  fastener,
  fastenerAtLeast,
  filletRadius,
  fingertipRecess,
  headLand,
  leastPlate,
  nearStep,
  recessRoom,
  sizeStep,
  upStep,
  usualPull,
} from '../../core/hardware/index.js';
import { maths } from '../../core/maths/maths.js';
import type { Vec2 } from '../../core/solid/types.js';
import { seatOf } from '../hardware/screw-field.js';
import type { flushPullParameters } from './parameters.js';
import { filletReach } from './profile.js';

export type FlushPullParameters = z.output<typeof flushPullParameters>;

/** Every size of a flush pull, mm and radians. Finished; the cup stands on z = 0, the fingers lie along X. */
export interface FlushPullSizes {
  readonly fingers: FingerCount;
  readonly hand: 'bare' | 'gloved';
  readonly shape: 'oval' | 'square';
  readonly recessLength: number;
  readonly recessWidth: number;
  readonly recessDepth: number;
  readonly draft: number;
  readonly floorFillet: number;
  readonly rimRadius: number;
  readonly recessCorner: number;
  readonly wall: number;
  readonly plateLength: number;
  readonly plateWidth: number;
  readonly plateThickness: number;
  readonly plateCorner: number;
  /** Between cup and plate. */
  readonly fillet: number;
  readonly screw: Fastener;
  readonly seat: CountersinkSeat;
  /** The first is the one the sprue stands on. */
  readonly screws: readonly Vec2[];
  /** The plate's face and underside. */
  readonly top: number;
  readonly under: number;
  /** N */
  readonly pull: number;
}

/** Rounding of the face's outer edge, mm. */
export const faceEdge = 0.8;

/** Gate that the plate's ends have room for, mm across: the larger castings want more metal in the same time. */
const usualGate = (fingers: FingerCount, hand: 'bare' | 'gloved'): number =>
  10 + fingers + (hand === 'gloved' ? 1 : 0);

export function flushPullSizes(p: FlushPullParameters): FlushPullSizes {
  const near = (value: number): number => nearStep(p.series, value);
  const down = (value: number): number => Math.floor(value / sizeStep[p.series] + 1e-9) * sizeStep[p.series];
  const up = (value: number): number => upStep(p.series, value);
  const fingers = p.fingers as FingerCount;
  const { draft, shape } = p;
  const screw =
    p.screw === 'auto' ? fastenerAtLeast('wood-screw', p.series, 3 + 0.35 * fingers) : fastener(p.screw);
  const seat = seatOf(screw);
  // The finger goes in as into a recess for one, and bends; along them the room is that of all.
  const recessWidth = p.recessWidth ?? up(recessRoom(1, p.hand).depth);
  const recessLength = p.recessLength ?? Math.max(up(recessRoom(fingers, p.hand).width), recessWidth);
  const recessDepth = p.recessDepth ?? up(fingertipRecess[p.hand].depth);
  const plateThickness = p.plateThickness ?? up(Math.max(2.5, leastPlate(seat)));
  const wall = p.wall ?? Math.min(plateThickness, near(3));
  const fillet = p.fillet ?? Math.max(near(1.5), near(filletRadius(wall, plateThickness).usual));
  const rimRadius = p.rimRadius ?? Math.max(near(1.5), near(0.12 * recessDepth));
  const recessCorner =
    shape === 'oval' ? recessWidth / 2 : (p.recessCorner ?? Math.max(4, near(0.36 * recessWidth)));
  const floorFillet =
    p.floorFillet ??
    Math.max(
      1,
      down(
        Math.min(
          0.65 * recessDepth,
          // Room beside the roundings of the rim, of the cup, also with stock under the plate, and in plan.
          recessDepth - rimRadius - 1,
          (recessDepth - plateThickness + wall * maths.sin(draft) - 1.8) / (1 - maths.sin(draft)) - fillet,
          (recessCorner - 1.5 - recessDepth * maths.tan(draft)) / filletReach(1, draft),
        ),
      ),
    );
  const gate = usualGate(fingers, p.hand) / 2 + 0.1;
  const edge = Math.max(
    seat.mouthDiameter / 2 + Math.max(headLand(seat.mouthDiameter), faceEdge + 0.5),
    gate + faceEdge,
  );
  const beside =
    filletReach(rimRadius, draft) +
    Math.max(seat.mouthDiameter / 2 + Math.max(1, headLand(seat.mouthDiameter)), gate);
  const plateLength = p.plateLength ?? up(recessLength + 2 * (beside + edge));
  const plateWidth =
    p.plateWidth ??
    up(recessWidth + 2 * Math.max(0.22 * recessWidth, filletReach(rimRadius, draft) + faceEdge + 3.5));
  const x = plateLength / 2 - edge;
  const four = p.fasteners === '4' || (p.fasteners === 'auto' && shape === 'square');
  const y = four ? plateWidth / 2 - edge : 0;
  const top = recessDepth + wall;
  return {
    fingers,
    hand: p.hand,
    shape,
    recessLength,
    recessWidth,
    recessDepth,
    draft,
    floorFillet,
    rimRadius,
    recessCorner,
    wall,
    plateLength,
    plateWidth,
    plateThickness,
    // About the screws in the corners; no rounder than the opening, so that the rim is nowhere narrower.
    plateCorner:
      shape === 'oval' ? plateWidth / 2 : Math.min(edge, recessCorner + (plateWidth - recessWidth) / 2),
    fillet,
    screw,
    seat,
    screws: four
      ? [
          [x, y],
          [x, -y],
          [-x, y],
          [-x, -y],
        ]
      : [
          [x, 0],
          [-x, 0],
        ],
    top,
    under: top - plateThickness,
    pull: p.pull ?? usualPull[fingers],
  };
}
