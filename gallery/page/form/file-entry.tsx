import { useContext } from 'preact/hooks';
import { showText } from '../../../core/part/input-problem.js';
import { FileButton } from '../take/file-button.js';
import type { EntryProps } from './entry-props.js';
import { FileOpeningContext } from './file-opening.js';
import { TextEntry } from './text-entry.js';
import { boxText } from './written-value.js';

/** The file that is named, another of those that are open, or one from the reader's disk. */
export function FileEntry(props: EntryProps) {
  const { field, raw, ids, describedBy, onChange } = props;
  const opening = useContext(FileOpeningContext);
  if (!opening) return <TextEntry {...props} />;
  const given = raw === undefined || raw === null ? undefined : boxText(raw);
  const isOpen = given !== undefined && opening.open.includes(given);
  const others = opening.open.filter((name) => name !== given);
  const label = given === undefined ? 'Open a file' : isOpen ? 'Open another' : 'Open it';
  return (
    <div class="field-file">
      <p class="field-file-name" id={`${ids.entry}-name`}>
        {given === undefined ? 'None yet' : showText(given)}
        {given !== undefined && !isOpen && ' (not open here)'}
      </p>
      <FileButton
        id={ids.entry}
        label={label}
        accept={opening.accept}
        describedBy={`${ids.entry}-name ${describedBy}`}
        onFiles={([file]) => file && opening.take(field, given, file)}
      />
      {others.length > 0 && (
        <select
          class="field-select"
          aria-label="Another of the open files"
          value=""
          onChange={(event) => onChange(event.currentTarget.value)}
        >
          <option value="">or one that is open</option>
          {others.map((name) => (
            <option key={name} value={name}>
              {showText(name)}
            </option>
          ))}
        </select>
      )}
    </div>
  );
}
