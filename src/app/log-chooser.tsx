import { LOG_KINDS } from './files-of-run.ts';

/** The file chooser for logs, behind a button that presses it. */
export function LogChooser({
  ref,
  label,
  onChoose,
}: {
  ref: React.Ref<HTMLInputElement>;
  label: string;
  onChoose: (files: File[]) => void;
}): React.ReactElement {
  return (
    <input
      ref={ref}
      type="file"
      hidden
      multiple
      accept={LOG_KINDS}
      aria-label={label}
      onChange={(event) => {
        onChoose([...(event.currentTarget.files ?? [])]);
        // The same file can be chosen once more.
        event.currentTarget.value = '';
      }}
    />
  );
}
