import { coreLimit } from '../../core/foundry/holes.js';
import { type Finding, note, warn } from '../../core/part/finding.js';

export interface BlindHoleRequest {
  /** Finished, mm. */
  readonly diameter: number;
  readonly depth: number;
  /** Stock of the hole's surface, and of the face it opens in, mm. */
  readonly bore: number;
  readonly face: number;
  readonly wish: 'auto' | 'cored' | 'drilled';
  /** The finished part has its hole. */
  readonly finished: boolean;
  /** `the hole for the thread` */
  readonly what: string;
  /** How it is drilled, as a sentence without its stop. */
  readonly drill: string;
  readonly parameters: readonly string[];
  /** Why it had better not be cored even where the mould carries the core. */
  readonly hinders?: string;
}

export interface BlindHolePlan {
  /** As it is in this state, mm; 0 where it is left for the drill. */
  readonly diameter: number;
  readonly findings: readonly Finding[];
}

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

/** Narrower and shallower holes are not worth a core, mm. */
const least = { diameter: 0.8, depth: 1 } as const;

/** Whether a hole to be tapped, or a pocket, is in this state: where the mould carries the core, or as asked. */
export function planBlindHole(request: BlindHoleRequest): BlindHolePlan {
  const { bore, wish, what, hinders } = request;
  if (request.finished) return { diameter: request.diameter, findings: [] };
  const solid = (why: string): BlindHolePlan => ({
    diameter: 0,
    findings: [note('hole-drilled', `${what} is left solid${why}`, request.drill, ...request.parameters)],
  });
  if (wish === 'drilled') return solid('');
  const diameter = request.diameter - 2 * bore;
  const depth = request.depth - bore + request.face;
  if (diameter < least.diameter || depth < least.depth) return solid(': the bore stock all but closes it');
  if (wish === 'auto' && hinders !== undefined) return solid(`: ${hinders}`);
  const limit = coreLimit(diameter, 'blind');
  if (limit.castable && depth <= limit.maxDepth) return { diameter, findings: [] };
  const seen = `a core ${mm(diameter)} thick standing ${mm(depth)} on one end`;
  const rule = limit.castable
    ? `the mould carries ${mm(limit.maxDepth)} at that thickness`
    : 'too thin to hold in the mould';
  if (wish === 'auto') return solid(`, since it would need ${seen}: ${rule}`);
  return {
    diameter,
    findings: [
      warn(
        'hole-core-long',
        `${what} needs ${seen}: ${rule}`,
        'let it be left solid and drill it',
        ...request.parameters,
      ),
    ],
  };
}
