import { FoundryInputError } from '../foundry/input.js';
import { type Finding, stop } from '../part/finding.js';
import { SolidError } from '../solid/errors.js';

/**
 * Runs a step of making a part; what the shape kernel or the foundry cannot bear is told as a refusal, never thrown.
 * @throws what is neither, a fault of the program
 */
export function orRefusal<T>(step: () => T): T | { readonly refusal: Finding } {
  try {
    return step();
  } catch (error) {
    if (error instanceof SolidError) return { refusal: unsound(error) };
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
