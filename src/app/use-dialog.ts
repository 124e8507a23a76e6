import { useEffect, useRef, type RefObject } from 'react';

/** A dialog that is open while it is to be shown, over the page and with the focus within it. */
export function useDialog(shown: boolean): RefObject<HTMLDialogElement | null> {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const element = dialog.current;
    if (element === null) return;
    if (shown && !element.open) element.showModal();
    if (!shown && element.open) element.close();
  }, [shown]);
  return dialog;
}
