import { useCallback, useRef } from 'react';

/** The file chooser behind a button, for one of our own JSON files: `field` has to stand somewhere on the page. */
export function useJsonChooser(
  label: string,
  take: (file: File) => void,
): { open: () => void; field: React.ReactElement } {
  const chooser = useRef<HTMLInputElement>(null);
  const open = useCallback(() => chooser.current?.click(), []);
  return {
    open,
    field: (
      <input
        ref={chooser}
        type="file"
        hidden
        accept=".json,application/json"
        aria-label={label}
        onChange={(event) => {
          const file = event.currentTarget.files?.[0];
          event.currentTarget.value = '';
          if (file) take(file);
        }}
      />
    ),
  };
}
