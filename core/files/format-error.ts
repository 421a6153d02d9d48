export type FormatErrorCode =
  | 'stl-text'
  | 'stl-short'
  | 'stl-count'
  | 'stl-number'
  | 'mesh-index'
  | 'mesh-number'
  | 'mesh-empty'
  | 'mesh-open'
  | 'three-mf-object';

/** A file that cannot be read, or a mesh that cannot be written, with what would be right. */
export class FormatError extends Error {
  override readonly name = 'FormatError';
  constructor(
    readonly code: FormatErrorCode,
    message: string,
    readonly remedy: string,
  ) {
    super(message);
  }
}
