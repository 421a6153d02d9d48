import type { Bolt } from '../../core/hardware/fastener.js';
import type { CountersinkSeat } from '../../core/hardware/fastener-seat.js';
import { fastenerAtLeast, headLand, leastPitch, leastPlate } from '../../core/hardware/index.js';
import { nearStep, sizeStep, upStep } from '../../core/hardware/size-steps.js';
import type { Vec2 } from '../../core/solid/types.js';
import { planOf, type RingPlanSizes } from '../hardware/ring-plan.js';
import { askedScrew, seatOf, withCountersunkHead } from '../hardware/screw-field.js';
import type { HatchPullParameters } from './parameters.js';

/** A tab held by countersunk screws from the show face: a leaf with two in line, or a plate with two abreast. mm. */
export interface ScrewedTab {
  readonly screw: Bolt;
  readonly seat: CountersinkSeat;
  readonly at: readonly [Vec2, Vec2];
  /** Radius kept round a screw inside the outline. */
  readonly land: number;
  readonly width: number;
  readonly thickness: number;
  readonly edgeRadius: number;
  /** Corners in plan; a leaf's nose. */
  readonly corner: number;
  /** From the rim's back to the tab's end. */
  readonly length: number;
}

export const isScrewed = (tab: HatchPullParameters['tab']): tab is 'leaf' | 'plate' =>
  tab === 'leaf' || tab === 'plate';

/** Rounding of the edges at the show face of an oval ring's tab. */
export const edgeRounding = (tabThickness: number, rimWidth: number): number =>
  Math.min(0.25 * tabThickness, 0.15 * rimWidth, 2.5);

/** Room for a gate between two screws' shanks, mm. */
const gateRoom = 7;

/** The tab's sides run straight this far between fillets and end, mm. */
const straightSide = 0.8;

type Ring = Omit<RingPlanSizes, 'tabWidth'> & { readonly thickness: number; readonly bevel: number };

export function screwedTab(p: HatchPullParameters, ring: Ring): ScrewedTab {
  const near = (value: number): number => nearStep(p.series, value);
  const up = (value: number): number => upStep(p.series, value);
  // Screws stand at whole steps where there is room for one.
  const step = sizeStep[p.series];
  const down = (value: number): number => (value < step ? value : Math.floor(value / step + 1e-9) * step);
  const oval = p.section === 'oval';
  const screw = withCountersunkHead(
    askedScrew(p.screw) ?? fastenerAtLeast('bolt', p.series, 0.45 * ring.thickness),
  );
  const seat = seatOf(screw);
  const thickness = oval
    ? (p.tabThickness ?? Math.max(near(0.85 * ring.thickness), up(leastPlate(seat))))
    : ring.thickness;
  const edgeRadius = oval ? edgeRounding(thickness, ring.rimWidth) : 0;
  const mouth = seat.mouthDiameter / 2;
  const land = mouth + Math.max(headLand(seat.mouthDiameter), Math.max(edgeRadius, ring.bevel) + 0.3);

  const over = planOf({ ...ring, tabWidth: 1 });
  const back = over.halfX + over.outer;
  // Of an oval ring the fillets stand on the tab's show face.
  const first = (oval ? ring.filletRadius : 0) + mouth + Math.max(0.5, ring.bevel);
  if (p.tab === 'plate') {
    const widest = 1.6 * (over.halfY + over.outer);
    const width =
      p.tabWidth ?? near(Math.min(widest, 2 * land + Math.max(0.5 * ring.eyeWidth, gateRoom + 2 * mouth)));
    const plan = planOf({ ...ring, tabWidth: width });
    const corner = Math.min(0.8 * land, width / 2);
    const length = p.tabLength ?? up(Math.max(first + land, plan.filletX - back + straightSide + corner));
    const x = -(back + length - land);
    const y = down(2 * (width / 2 - land)) / 2;
    return {
      screw,
      seat,
      at: [
        [x, y],
        [x, -y],
      ],
      land,
      width,
      thickness,
      edgeRadius,
      corner,
      length,
    };
  }
  const width = p.tabWidth ?? near(Math.max(2 * land + 2, 0.7 * ring.eyeLength));
  const plan = planOf({ ...ring, tabWidth: width });
  const nose = Math.min(land, width / 2);
  const pitch = up(Math.max(leastPitch(screw), seat.holeDiameter + gateRoom + 1));
  const least = Math.max(
    first + pitch + land,
    plan.filletX - back + straightSide + 1.5 * (width / 2 - nose) + nose,
  );
  const length = p.tabLength ?? up(least);
  const last = back + length - nose;
  return {
    screw,
    seat,
    at: [
      [-(last - down(last - back - first)), 0],
      [-last, 0],
    ],
    land,
    width,
    thickness,
    edgeRadius,
    corner: nose,
    length,
  };
}
