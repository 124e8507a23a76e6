import { useEffectEvent, useLayoutEffect } from 'react';

/** Whether what has the keyboard takes letters itself. */
function takesLetters(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target.isContentEditable || target.closest('dialog') !== null) return true;
  if (target instanceof HTMLInputElement)
    return !['radio', 'checkbox', 'button', 'file'].includes(target.type);
  return target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement;
}

/** Whether what has the keyboard does something of its own on Enter. */
const takesEnter = (target: EventTarget | null): boolean =>
  target instanceof Element && target.closest('a[href], button, summary') !== null;

/**
 * Single letters as keys, outside of fields only, and off where they were turned off (WCAG 2.1.4); "?" stays, for it shows how to
 * turn them on.
 * @param keys what each does, by the key's own name in lower case
 */
export function useKeys(on: boolean, keys: Readonly<Record<string, () => void>>): void {
  const press = useEffectEvent((event: KeyboardEvent): void => {
    if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey || event.repeat) return;
    if (takesLetters(event.target)) return;
    const name = event.key.length === 1 ? event.key.toLowerCase() : event.key;
    if (name === 'Enter' && takesEnter(event.target)) return;
    if (!on && name !== '?') return;
    const action = keys[name];
    if (action === undefined) return;
    event.preventDefault();
    action();
  });
  // As soon as what the keys are for can be seen.
  useLayoutEffect(() => {
    const hear = (event: KeyboardEvent): void => press(event);
    window.addEventListener('keydown', hear);
    return () => window.removeEventListener('keydown', hear);
  }, []);
}
