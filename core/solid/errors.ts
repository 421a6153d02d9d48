/** What went wrong in the kernel; stable words that callers may test for. */
export type SolidErrorCode =
  /** A size, angle or coordinate that is NaN, infinite, or outside its range. */
  | 'bad-size'
  /** An outline or section that crosses itself, runs the wrong way, or has too few points. */
  | 'bad-outline'
  /** A mesh that is open, not oriented, inside out, or not a solid. */
  | 'bad-mesh'
  /** An empty solid used where a body is needed. */
  | 'empty-operand'
  /** An operation that left nothing. */
  | 'empty-result'
  /** The kernel underneath refused, or gave something that is not finite. */
  | 'kernel-failure'
  /** The kernel underneath has ended, most likely for want of memory; `loadKernel` gives a new one. */
  | 'kernel-lost'
  /** A solid made outside a scope, used after its scope, or carried out of it. */
  | 'scope'
  /** The solid touches itself along an edge, at a point or closer than float32 can tell apart. */
  | 'not-carriable';

/** The one error the kernel throws. The message says what is wrong, where, and what would be right. */
export class SolidError extends Error {
  override readonly name = 'SolidError';
  constructor(
    readonly code: SolidErrorCode,
    message: string,
  ) {
    super(message);
  }
}

/** A shape cannot be given as a mesh this near to it. The message says why. */
export class ToleranceError extends RangeError {
  override readonly name = 'ToleranceError';
}
