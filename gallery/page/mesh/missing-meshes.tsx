import { showText } from '../../../core/part/input-problem.js';
import type { Bench } from '../bench/bench.js';
import { FileButton } from '../take/file-button.js';
import { meshEndings } from './mesh-names.js';

/** More are told when these are open. */
const mostShown = 4;

/** A page cannot look into folders: mesh files that a job names are to be opened by hand. */
export function MissingMeshes({
  bench,
  names,
}: {
  readonly bench: Bench;
  readonly names: readonly string[];
}) {
  return names.slice(0, mostShown).map((name) => (
    <p key={name} class="notice-line missing-mesh">
      <span>
        The job names a mesh file that is not open here: <strong>{showText(name)}</strong>
      </span>
      <FileButton
        class="quiet"
        label={`Open ${showText(name)}`}
        accept={meshEndings}
        onFiles={([file]) => file && void bench.openMeshFor(name, file)}
      />
    </p>
  ));
}
