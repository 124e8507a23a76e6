import { useLayoutEffect } from 'react';

/** Whether something is typed in what has the keyboard; a choice of one among several takes no text. */
const hasTyped = (target: EventTarget | null): boolean =>
  (target instanceof HTMLTextAreaElement ||
    (target instanceof HTMLInputElement && !['radio', 'checkbox', 'button', 'file'].includes(target.type))) &&
  target.value !== '';

/** Ctrl Z puts back the last change by hand, with Shift it is made again; in a field they belong to what is typed. */
export function useUndoKeys(steps: { undo: () => Promise<void>; redo: () => Promise<void> }): void {
  // As soon as what the keys are for can be seen.
  useLayoutEffect(() => {
    const press = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== 'z') return;
      const { target } = event;
      if (hasTyped(target)) return;
      event.preventDefault();
      void (event.shiftKey ? steps.redo() : steps.undo());
    };
    window.addEventListener('keydown', press);
    return () => window.removeEventListener('keydown', press);
  }, [steps]);
}
