import { maths } from '../../core/maths/maths.js';
import { noStock, type Stock } from '../../core/part/stock.js';
import { type PullPlan, planOf } from '../hardware/ring-plan.js';
import type { HatchPullSizes } from './sizes.js';

/**
 * Where the surfaces of one state lie. Every plane has moved by its own stock along its normal: with skin s and
 * side stock m, a 45° bevel of leg c between a top and a side keeps the leg c + s + m − √2 s.
 */
export interface PullState {
  readonly sizes: HatchPullSizes;
  readonly plan: PullPlan;
  readonly skin: number;
  /** Stock of the tab's sides: the mating stock where they turn in a bracket, else the skin's. */
  readonly mating: number;
  /** Stock of the underside: the mating stock where it is screwed down (the tab's alone on an oval ring), else the skin's. */
  readonly under: number;
  readonly bore: number;
  /** z of show face and underside (the tab's on an oval ring), mm. */
  readonly bottom: number;
  readonly top: number;
  /** Leg of the bevels between skin surfaces, mm. */
  readonly leg: number;
  /** Leg of the bevels along the tab's sides (and of the chamfers at its corners), mm; 0 without bevels. */
  readonly sideLeg: number;
  /** Stock of the tab's sides less that of the skin, mm. */
  readonly sideStep: number;
  /** How far the flats of show face and underside end inside the part's own outlines, mm; negative is outside. */
  readonly flatInset: number;
  /** Tab end and pin axis are at x = −tabEnd, −pinX (the tab end on the part). */
  readonly tabEnd: number;
  readonly pinX: number;
  /** Height of the pin's axis, mm. */
  readonly pinZ: number;
  readonly holeRadius: number;
  /** The free end of the part is at x = freeEnd. */
  readonly freeEnd: number;
  /** The lip starts at x = creaseX on the part, and at x = crease in this state; null without a lip. */
  readonly lip: { readonly creaseX: number; readonly crease: number; readonly edgeThickness: number } | null;
}

/** The state of a pull with a given stock; `noStock` gives the part. */
export function pullState(sizes: HatchPullSizes, stock: Stock = noStock): PullState {
  const plan = planOf(sizes);
  const { skin, bore } = stock;
  // A difference below a tenth of a micrometre is none.
  const facing = Math.abs(stock.mating - skin) < 1e-4 ? skin : stock.mating;
  const { thickness, bevel, lipLength, lipAngle, screwed } = sizes;
  const [mating, under] = screwed === null ? [facing, skin] : [skin, facing];
  const pinX = plan.halfX + plan.inner + sizes.pinDistance;
  const freeEnd = plan.halfX + plan.outer;
  const creaseX = freeEnd - lipLength;
  return {
    sizes,
    plan,
    skin,
    mating,
    under,
    bore,
    bottom: -skin,
    top: thickness + under,
    leg: bevel === 0 ? 0 : bevel + (2 - Math.SQRT2) * skin,
    sideLeg: bevel === 0 ? 0 : bevel + skin + mating - Math.SQRT2 * skin,
    sideStep: mating - skin,
    flatInset: bevel === 0 ? -skin : Math.max(-skin, bevel - Math.SQRT2 * skin + under),
    tabEnd: screwed === null ? pinX + sizes.pinToEnd : freeEnd + screwed.length,
    pinX,
    pinZ: thickness - sizes.tabThickness / 2,
    holeRadius: sizes.holeDiameter / 2 - bore,
    freeEnd,
    lip:
      lipLength === 0
        ? null
        : {
            creaseX,
            crease: creaseX + skin * maths.tan(lipAngle / 2),
            // Lip plane over the free end, both moved by the skin, down to the show face.
            edgeThickness:
              thickness - (lipLength + skin) * maths.tan(lipAngle) + skin / maths.cos(lipAngle) + skin,
          },
  };
}
