export type FormatErrorCode =
  | 'stl-text'
  | 'stl-short'
  | 'stl-count'
  | 'stl-number'
  | 'stl-line'
  | 'obj-line'
  | 'ply-header'
  | 'ply-short'
  | 'ply-count'
  | 'ply-value'
  | 'file-empty'
  | 'file-large'
  | 'file-kind'
  | 'mesh-index'
  | 'mesh-number'
  | 'mesh-empty'
  | 'mesh-open'
  | 'mesh-face'
  | 'mesh-large'
  | 'zip-short'
  | 'zip-kind'
  | 'zip-path'
  | 'zip-size'
  | 'zip-damaged'
  | 'three-mf-part'
  | 'three-mf-xml'
  | 'three-mf-doctype'
  | 'three-mf-unit'
  | 'three-mf-extension'
  | 'three-mf-transform'
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
