export interface FileButtonProps {
  readonly label: string;
  readonly accept: string;
  readonly onFiles: (files: readonly File[]) => void;
  readonly multiple?: boolean;
  readonly id?: string;
  readonly describedBy?: string;
  readonly class?: string;
}

/** A button that opens the browser's dialog for files. */
export function FileButton(props: FileButtonProps) {
  const take = (event: Event): void => {
    const input = event.currentTarget as HTMLInputElement;
    const files = [...(input.files ?? [])];
    // The same file, changed on disk, can be opened again.
    input.value = '';
    if (files.length > 0) props.onFiles(files);
  };
  return (
    <label class={`button file-button ${props.class ?? ''}`}>
      {props.label}
      <input
        id={props.id}
        type="file"
        class="unseen"
        accept={props.accept}
        multiple={props.multiple}
        aria-describedby={props.describedBy}
        onChange={take}
      />
    </label>
  );
}
