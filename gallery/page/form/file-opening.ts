import { createContext } from 'preact';
import type { Field } from '../../../core/part/field-list.js';

/** What fields that name files need of whoever shows them. */
export interface FileOpening {
  /** Names of the files that are open. */
  readonly open: readonly string[];
  /** The dialog's filter. */
  readonly accept: string;
  /** Opens a file for a field, which `given` stands in. */
  readonly take: (field: Field, given: string | undefined, file: File) => void;
}

/** Without it a file is a name like any text. */
export const FileOpeningContext = createContext<FileOpening | undefined>(undefined);
