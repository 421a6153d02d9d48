import { FoundryInputError } from '../foundry/input.js';
import { type Finding, stop } from '../part/finding.js';
import { SolidError, ToleranceError } from '../solid/errors.js';

/**
 * Runs a step of making a part; what the shape kernel or the foundry cannot bear is told as a refusal, never thrown.
 * @throws what is neither, a fault of the program
 */
export function orRefusal<T>(step: () => T): T | { readonly refusal: Finding } {
  try {
    return step();
  } catch (error) {
    if (error instanceof SolidError)
      return { refusal: error.code === 'kernel-lost' ? tooMuch(error) : unsound(error) };
    if (error instanceof ToleranceError) return { refusal: tooFine(error) };
    if (!(error instanceof FoundryInputError)) throw error;
    return { refusal: stop('out-of-range', error.message, 'Change the size or the setting it names.') };
  }
}

/** The kernel found a shape that no file can carry: told as a refusal, never written. */
const unsound = (error: SolidError): Finding =>
  stop(
    'shape-not-sound',
    `The shape does not hold together: ${error.message}.`,
    'Change a size a little, and please report the job that led here.',
  );

/** Where the kernel ends it is nearly always that a shape asks for more memory than WebAssembly has. */
const tooMuch = (error: SolidError): Finding =>
  stop(
    'too-much-for-kernel',
    `The shape is more than the kernel bears: ${error.message}.`,
    'Give a coarser tolerance or a simpler shape; if that does not help, please report the job that led here.',
    'tolerance',
  );

/** `tolerance` is a key of the job: the reader can give a coarser one. */
const tooFine = (error: ToleranceError): Finding =>
  stop(
    'tolerance-too-fine',
    `The shape cannot be meshed to the tolerance: ${error.message}.`,
    'Give a coarser tolerance, from 0.01 mm for gears and 0.02 mm for free forms, or leave it out.',
    'tolerance',
  );
