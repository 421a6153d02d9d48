import type { Finding } from '../part/finding.js';
import type { BacklashPlan } from './backlash-plan.js';
import type { InternalPairFacts } from './internal-pair-check.js';
import type { PairFacts } from './pair-check.js';
import type { ModuleChoice } from './pair-request.js';
import type { RackPairFacts } from './rack-pair.js';
import type { GearSpec } from './spec.js';

/** Which part of the request one attempt failed, and by how much; `miss` orders attempts at the same constraint. */
export interface Refusal {
  /** Later stages got further. */
  readonly stage: 1 | 2 | 3 | 4;
  readonly code: string;
  readonly miss: number;
  readonly message: string;
  readonly remedy: string;
  readonly parameters: readonly string[];
  /** The same from a dearer reckoning, for the refusal that is shown. */
  readonly closer?: () => Refusal;
}

interface Tried {
  /** The pinion of an internal or rack pair. */
  readonly gear: GearSpec;
  /** A ring with ISO 21771's sign of x; of a rack, tooth number and shift stand for the one piece it comes in. */
  readonly mate: GearSpec;
  readonly module: ModuleChoice;
  readonly findings: readonly Finding[];
  readonly backlash: BacklashPlan;
  /** Of both halves together on double-helical gears, mm. */
  readonly faceWidth: number;
  /** How the centre distance was met. */
  readonly by: 'reference' | 'helix' | 'shift' | 'helix and shift' | 'free';
}

/** A pair that meets the request. */
export interface TriedPair extends Tried {
  readonly mesh: 'external';
  readonly facts: PairFacts;
}

export interface TriedInternalPair extends Tried {
  readonly mesh: 'internal';
  readonly facts: InternalPairFacts;
  /** Ring outside the roots, mm, and its outside diameter. */
  readonly rimThickness: number;
  readonly outsideDiameter: number;
}

export interface TriedRackPair extends Tried {
  readonly mesh: 'rack';
  readonly facts: RackPairFacts;
  /** Teeth that the travel needs, and the pieces, of `mate.teeth` each, that they are cast in. */
  readonly rackTeeth: number;
  readonly pieces: number;
}

export type AnyTriedPair = TriedPair | TriedInternalPair | TriedRackPair;

export type Attempt<T extends AnyTriedPair = TriedPair> =
  | { readonly ok: true; readonly pair: T }
  | { readonly ok: false; readonly refusal: Refusal };

export const refused = (refusal: Refusal): { readonly ok: false; readonly refusal: Refusal } => ({
  ok: false,
  refusal,
});

export const lengthText = (value: number, digits = 3): string => `${Number(value.toFixed(digits))} mm`;

const thousandths = 1000;
/** A limit as it is printed, on the side of it that is allowed. */
export const roundedDown = (limit: number): number => Math.floor(limit * thousandths + 1e-6) / thousandths;
export const roundedUp = (limit: number): number => Math.ceil(limit * thousandths - 1e-6) / thousandths;

/** A check that stopped, as a refusal of the last stage. */
export const checkRefusal = (
  what: string,
  failed: Finding | undefined,
  contactRatio: number | undefined,
): Refusal => ({
  stage: 4,
  code: failed?.code ?? 'pair-fails',
  miss: 1 - (contactRatio ?? 0),
  message: `${what}: ${failed?.message ?? 'the pair cannot be reckoned.'}`,
  remedy: failed?.remedy ?? 'Ask for other tooth numbers.',
  parameters: failed?.parameters ?? [],
});

/** Space that a pair needs more of than there is, the smallest otherwise right. */
export function sizeRefusal(
  {
    largestDiameter,
    largestCentreDistance,
  }: {
    readonly largestDiameter?: number;
    readonly largestCentreDistance?: number;
  },
  across: number,
  distance: number,
  what: string,
): Refusal | null {
  if (largestDiameter !== undefined && across > largestDiameter + 1e-9) {
    const room = roundedUp(across);
    return {
      stage: 3,
      code: 'too-large-across',
      miss: across / largestDiameter - 1,
      message: `Space of ${lengthText(largestDiameter)} across: the smallest that is otherwise right, ${what}, is ${lengthText(room)} across, ${lengthText(room - largestDiameter)} too much.`,
      remedy: `Make room for ${lengthText(room)}, or allow a smaller module, fewer teeth or a smaller ratio.`,
      parameters: ['largestDiameter'],
    };
  }
  if (largestCentreDistance !== undefined && distance > largestCentreDistance + 1e-9) {
    const room = roundedUp(distance);
    return {
      stage: 3,
      code: 'centres-too-far',
      miss: distance / largestCentreDistance - 1,
      message: `Centre distance up to ${lengthText(largestCentreDistance)}: the closest that is otherwise right, ${what}, runs at ${lengthText(room)}, ${lengthText(room - largestCentreDistance)} too much.`,
      remedy: `Allow ${lengthText(room)}, a smaller module or fewer teeth.`,
      parameters: ['largestCentreDistance'],
    };
  }
  return null;
}
