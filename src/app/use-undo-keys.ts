import { useEffect } from 'react';

/** Ctrl Z puts back the last change by hand, with Shift it is made again; in a field they belong to what is typed. */
export function useUndoKeys(steps: { undo: () => Promise<void>; redo: () => Promise<void> }): void {
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== 'z') return;
      const { target } = event;
      if (
        (target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement) &&
        target.value !== ''
      )
        return;
      event.preventDefault();
      void (event.shiftKey ? steps.redo() : steps.undo());
    };
    window.addEventListener('keydown', press);
    return () => window.removeEventListener('keydown', press);
  }, [steps]);
}
