import { useEffect, useRef, type RefObject } from 'react';

/** A dialog that is open while it is to be shown, over the page and with the focus on its heading. */
export function useDialog(shown: boolean): RefObject<HTMLDialogElement | null> {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const element = dialog.current;
    if (element === null) return;
    if (shown && !element.open) {
      element.showModal();
      // At its heading: the first control may stand beneath more than the window shows.
      const heading = element.querySelector('h2');
      if (heading !== null) {
        heading.tabIndex = -1;
        heading.focus();
      }
    }
    if (!shown && element.open) element.close();
  }, [shown]);
  return dialog;
}
