import {
  type CountersinkSeat,
  countersinkSeat,
  edgeDistance,
  type Fastener,
  type FastenerSeries,
  fastener,
  fasteners,
  headLand,
  leastPitch,
  leastPlate,
  nearStep,
  upStep,
  woodScrews,
} from '../../core/hardware/index.js';
import { maths } from '../../core/maths/maths.js';
import { choice } from '../../core/part/fields.js';
import type { Stock } from '../../core/part/stock.js';
import type { Vec2 } from '../../core/solid/types.js';
import type { ScrewHolePlan } from '../hardware/screw-holes.js';

const countersunk = fasteners.filter((f) => f.countersunk.length > 0);

/** Which countersunk screw holds a leaf: for wood by gauge or in mm, or a machine screw. */
export const leafScrewField = choice(['auto', ...countersunk.map((f) => f.name)] as [string, ...string[]], {
  group: 'Screws',
  help: 'Countersunk screw; auto: the thickest wood screw of the series whose head the leaf holds',
  default: 'auto',
});

/** A screw with its seat. */
export interface LeafScrew {
  readonly fastener: Fastener;
  readonly seat: CountersinkSeat;
}

export function leafScrew(f: Fastener): LeafScrew {
  const seat = countersinkSeat(f);
  if (seat === undefined) throw new RangeError(`${f.name} has no countersunk head`);
  return { fastener: f, seat };
}

/** Width that a screw takes across a flat, between its edges, mm. */
export const screwBand = ({ fastener: f, seat }: LeafScrew): number =>
  seat.mouthDiameter / 2 + headLand(seat.mouthDiameter) + edgeDistance(f);

/** Thickest usual screw of a leaf by its length along the pin, mm: 3.3 at 38, 4.7 at 76, 5.7 at 102 (common practice, no source). */
const usualScrew = (length: number): number => 1.9 + 0.037 * length;

/**
 * The screw that was asked for; else the thickest wood screw of the series whose countersink the leaf's thickness
 * holds, on a flat `width` across, `count` of them along `length`; the thinnest where none fits.
 */
export function chooseLeafScrew(
  asked: string,
  series: FastenerSeries,
  leaf: { readonly thickness: number; readonly width: number; readonly length: number },
  count: number,
): LeafScrew {
  if (asked !== 'auto') return leafScrew(fastener(asked));
  const row = woodScrews[series].map(leafScrew);
  const fits = (screw: LeafScrew): boolean =>
    screw.fastener.diameter <= usualScrew(leaf.length) &&
    leastPlate(screw.seat) <= leaf.thickness + 1e-9 &&
    1.15 * screwBand(screw) <= leaf.width &&
    2 * edgeDistance(screw.fastener) + Math.max(0, count - 1) * leastPitch(screw.fastener) <= leaf.length;
  return row.findLast(fits) ?? row[0]!;
}

/**
 * Places of `count` screws on a flat from x = `from` to the edge at `to`, `length` along y: evenly along it, the outer
 * ones towards the edge and the inner ones back where there is room, so that they do not split the wood along one line.
 */
export function screwPlaces(
  screw: LeafScrew,
  flat: { readonly from: number; readonly to: number; readonly length: number },
  count: number,
): readonly Vec2[] {
  const { fastener: f, seat } = screw;
  const near = flat.from + seat.mouthDiameter / 2 + headLand(seat.mouthDiameter);
  const far = flat.to - edgeDistance(f);
  const middle = (near + far) / 2;
  const stagger = count < 3 ? 0 : Math.max(0, Math.min((far - near) / 2, 0.3 * (flat.to - flat.from)));
  const end = Math.min(flat.length / 2, upStep(f.series, Math.max(edgeDistance(f), 0.14 * flat.length)));
  const reach = flat.length / 2 - end;
  const onStep = (x: number): number => Math.max(near, Math.min(far, nearStep(f.series, x)));
  return Array.from({ length: count }, (_, i): Vec2 => {
    const share = count === 1 ? 0 : (2 * i) / (count - 1) - 1;
    const outer = i === 0 || i === count - 1;
    return [onStep(middle + (count < 3 ? 0 : outer ? stagger : -stagger)), share * reach];
  });
}

/** Diameter of a countersink where it meets the face, both moved by their stock; 0 where it is not in this state. */
export function mouthAtFace(
  { seat }: Pick<LeafScrew, 'seat'>,
  { skin, bore }: Pick<Stock, 'skin' | 'bore'>,
  plan: Pick<ScrewHolePlan, 'form'>,
): number {
  if (plan.form === 'solid') return 0;
  const half = seat.angle / 2;
  return seat.mouthDiameter + 2 * (skin * maths.tan(half) - bore / maths.cos(half));
}
