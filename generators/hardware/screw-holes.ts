import { coreLimit } from '../../core/foundry/holes.js';
import { type CountersinkSeat, leastPlate } from '../../core/hardware/index.js';
import { maths } from '../../core/maths/maths.js';
import type { BuildKit } from '../../core/part/contract.js';
import { choice } from '../../core/part/fields.js';
import { type Finding, note, stop, warn } from '../../core/part/finding.js';
import { holeCutter } from '../../core/shape/index.js';
import type { Solid, Vec2 } from '../../core/solid/types.js';

/** Whether holes are in the casting: where the mould carries the cores, always, or never. */
export const holeField = choice(['auto', 'cored', 'drilled'], {
  group: 'Fasteners',
  help: 'Holes in the casting: cored where the mould allows it, always, or never (marked for the drill)',
  default: 'auto',
});
export type HoleWish = 'auto' | 'cored' | 'drilled';

/** Countersunk holes straight down through a fitting, all alike. z up from the deck, mm. */
export interface ScrewHoles {
  readonly seat: CountersinkSeat;
  readonly at: readonly Vec2[];
  /** Finished surface at the mouth; the head goes `sink` under it. */
  readonly mouth: number;
  readonly sink: number;
  /** Height that the tool clears over the mouth: past a fillet or a curved surface. */
  readonly clear: number;
}

/** Stock round a hole, mm: of its own surface, of the face it opens in, and of the underside. */
export interface HoleStocks {
  readonly bore: number;
  readonly top: number;
  readonly under: number;
}

/** `hole`: as it is; `countersink`: a cone to start the drill in; `solid`: nothing. */
export interface ScrewHolePlan {
  readonly form: 'hole' | 'countersink' | 'solid';
  readonly findings: readonly Finding[];
  /** mm; 0 where it is left for the drill. */
  readonly diameter: number;
  readonly mouthDiameter: number;
}

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

/** Least cone worth casting to start a drill in, mm deep. */
const leastCone = 0.6;
/** Metal under its point, that a plate be not cast through, mm. */
const leastUnderCone = 0.6;

/** Whether the holes are in this state. The finished part has them; the casting where the mould carries the cores. */
export function planScrewHoles(
  { seat, mouth }: Pick<ScrewHoles, 'seat' | 'mouth'>,
  stock: HoleStocks,
  wish: HoleWish,
  finished: boolean,
): ScrewHolePlan {
  const hole = {
    form: 'hole',
    findings: [],
    diameter: seat.holeDiameter - 2 * stock.bore,
    mouthDiameter: seat.mouthDiameter - 2 * stock.bore,
  } as const;
  if (finished) return hole;
  const coneLeft =
    seat.mouthDiameter / 2 / maths.tan(seat.angle / 2) - stock.bore / maths.sin(seat.angle / 2);
  const underCone = mouth + stock.under - coneLeft;
  const without = coneLeft > leastCone && underCone > leastUnderCone ? 'countersink' : 'solid';
  const start = without === 'countersink' ? 'from the cast countersinks' : 'after marking out';
  const remedy = `drill ${mm(seat.holeDiameter)} ${start}, then countersink to ${mm(seat.mouthDiameter)}`;
  const solid = (why: string): ScrewHolePlan => ({
    form: without,
    findings: [note('screw-holes-drilled', why, remedy, 'holes', 'screw')],
    diameter: 0,
    mouthDiameter: without === 'countersink' ? hole.mouthDiameter : 0,
  });
  if (wish === 'drilled') return solid('the screw holes are left solid');
  if (hole.diameter < 0.5) return solid('the bore stock all but closes the screw holes: they are left solid');
  const depth = mouth + stock.top + stock.under;
  const limit = coreLimit(hole.diameter, 'through');
  if (limit.castable && depth <= limit.maxDepth) return hole;
  const seen = `cores ${mm(hole.diameter)} thick and ${mm(depth)} long`;
  const rule = limit.castable
    ? `the mould carries ${mm(limit.maxDepth)} at that thickness`
    : 'too thin to hold in the mould';
  if (wish === 'auto') return solid(`the screw holes are left solid, since they would need ${seen}: ${rule}`);
  return {
    ...hole,
    findings: [
      warn(
        'screw-hole-core-long',
        `the screw holes need ${seen}: ${rule}`,
        'let them be left solid and drill them: holes auto or drilled',
        'holes',
        'screw',
        { holes: 'auto' },
      ),
    ],
  };
}

/** What the holes take away, in the place they have over the deck; empty where nothing is. */
export function screwHoleTools(
  holes: ScrewHoles,
  plan: ScrewHolePlan,
  stock: HoleStocks,
  { kernel, tolerance }: BuildKit,
): readonly Solid[] {
  if (plan.form === 'solid') return [];
  const { seat, mouth, sink, clear } = holes;
  const tool = holeCutter(
    kernel,
    {
      kind: 'countersunk',
      diameter: seat.holeDiameter,
      depth: mouth,
      headDiameter: seat.mouthDiameter,
      angle: seat.angle,
      ...(sink > 0 ? { sink } : {}),
      ...(plan.form === 'countersink' ? { shank: false } : {}),
    },
    tolerance,
    { bore: stock.bore, face: stock.top, farFace: stock.under },
    { clear },
  );
  return tool === null ? [] : holes.at.map(([x, y]) => tool.translate([x, y, mouth]));
}

/**
 * A countersink needs its plate: stops where the cone comes through, warns where the edge under it is thin.
 * @param mendable whether a thicker plate leaves the screws their room
 */
export function countersinkFindings(
  seat: CountersinkSeat,
  plate: number,
  parameter: string,
  mendable = true,
): readonly Finding[] {
  const least = leastPlate(seat);
  if (plate >= least - 1e-9) return [];
  const through = plate < seat.coneDepth + 0.5;
  return [
    (through ? stop : warn)(
      through ? 'countersink-through-plate' : 'countersink-deep',
      `a countersink ${mm(seat.coneDepth)} deep in ${mm(plate)} leaves ${through ? 'no seat' : 'a thin edge'} under the head`,
      `make it ${mm(Math.ceil(least * 10) / 10)} or thicker, or take a smaller screw`,
      parameter,
      'screw',
      mendable ? { [parameter]: Math.ceil(least * 10) / 10 } : {},
    ),
  ];
}
