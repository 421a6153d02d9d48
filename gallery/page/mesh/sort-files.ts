import { showText } from '../../../core/part/input-problem.js';
import { isMeshName, meshFormatWords } from './mesh-names.js';

export interface SortedFiles {
  /** The last, where there are several. */
  readonly job: File | undefined;
  readonly meshes: readonly File[];
  /** What is told of the others. */
  readonly refusal: string | null;
}

/** Files that were dropped on the page, by their names. */
export function sortFiles(files: readonly File[]): SortedFiles {
  const meshes = files.filter(({ name }) => isMeshName(name));
  const jobs = files.filter(({ name }) => /\.(ya?ml|json)$/i.test(name));
  const other = files.find((file) => !meshes.includes(file) && !jobs.includes(file));
  return {
    job: jobs.at(-1),
    meshes,
    refusal: other
      ? `${showText(other.name)} is not opened: drop a mesh (${meshFormatWords}) or a plate job (YAML).`
      : null,
  };
}
