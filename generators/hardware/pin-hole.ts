import { coreLimit } from '../../core/foundry/holes.js';
import type { BuildKit } from '../../core/part/contract.js';
import { choice } from '../../core/part/fields.js';
import { type Finding, note, warn } from '../../core/part/finding.js';
import { holeCutter, placeTool } from '../../core/shape/index.js';
import type { Solid, Vec3 } from '../../core/solid/types.js';

/** Whether pin holes are in the casting: where the mould carries the cores, always, or never. */
export const pinHoleField = choice(['auto', 'cored', 'drilled'], {
  group: 'Casting',
  help: 'Pin holes in the casting: cored where the mould allows it, always, or never (marked for the drill)',
  default: 'auto',
});
export type PinHoleWish = 'auto' | 'cored' | 'drilled';

/** `hole`: as it is; `dimples`: cones to start the drill in; `solid`: nothing. */
export interface PinHolePlan {
  readonly form: 'hole' | 'dimples';
  /** As it is in this state, mm; 0 where it is left for the drill. */
  readonly diameter: number;
  readonly findings: readonly Finding[];
}

export interface PinHoleRequest {
  /** Finished, mm. */
  readonly diameter: number;
  /** Stock of the hole's surface, mm. */
  readonly bore: number;
  /** Of the longest single core, mm. */
  readonly depth: number;
  readonly wish: PinHoleWish;
  /** The finished part has its holes. */
  readonly finished: boolean;
  /** `the ring's pin hole` */
  readonly what: string;
  readonly parameters: readonly string[];
}

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

/** A core thinner than this cannot be printed or cast whatever is asked, mm. */
const leastCore = 0.5;

/** Whether a cross hole for a pin is in this state; where it is not, dimples show the drill its place. */
export function planPinHole(request: PinHoleRequest): PinHolePlan {
  const { diameter, bore, depth, wish, finished, what, parameters } = request;
  const cast = diameter - 2 * bore;
  if (finished) return { form: 'hole', diameter, findings: [] };
  const drill = `drill ${mm(diameter)} from the cast dimples`;
  const solid = (why: string): PinHolePlan => ({
    form: 'dimples',
    diameter: 0,
    findings: [note('pin-hole-drilled', `${what} is left solid${why}`, drill, ...parameters)],
  });
  if (wish === 'drilled') return solid('');
  if (cast < leastCore) return solid(': the bore stock all but closes it');
  const limit = coreLimit(cast, 'through');
  const hole = { form: 'hole', diameter: cast, findings: [] } as const;
  if (limit.castable && depth <= limit.maxDepth) return hole;
  const seen = `a core ${mm(cast)} thick and ${mm(depth)} long`;
  const rule = limit.castable
    ? `the mould carries ${mm(limit.maxDepth)} at that thickness`
    : 'too thin to hold in the mould';
  if (wish === 'auto') return solid(`, since it would need ${seen}: ${rule}`);
  return {
    ...hole,
    findings: [
      warn(
        'pin-hole-core-long',
        `${what} needs ${seen}: ${rule}`,
        'let it be left solid and drill it: auto or drilled',
        ...parameters,
      ),
    ],
  };
}

/** A place where the hole comes out, and the direction it comes out in. */
export interface HoleMouth {
  readonly at: Vec3;
  readonly outwards: Vec3;
}

/** How deep dimples go under the finished face, so that facing it leaves them to be seen, mm. */
const dimpleUnderFace = 0.8;

/** Cones for the drill in faces with a stock, at places on the cast face; always inside the hole to be drilled. */
export function drillDimples(
  mouths: readonly HoleMouth[],
  diameter: number,
  faceStock: number,
  { kernel, tolerance }: BuildKit,
): readonly Solid[] {
  const radius = Math.min(faceStock + dimpleUnderFace, 0.4 * diameter);
  const tool = holeCutter(kernel, { kind: 'dimple', diameter: 2 * radius, angle: Math.PI / 2 }, tolerance);
  return tool === null ? [] : mouths.map(({ at, outwards }) => placeTool(tool, at, outwards));
}
