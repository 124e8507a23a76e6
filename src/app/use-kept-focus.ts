import { useEffect } from 'react';
import { inNextTask } from './in-next-task.ts';

/** What had the keyboard when a part of the page was opened, by that part. */
const openers = new WeakMap<Element, HTMLElement>();
/** Notes what a part was opened from: the keyboard goes back there when the part goes. */
export function openedFrom(part: Element, opener: Element | null): void {
  if (opener instanceof HTMLElement && opener !== document.body) openers.set(part, opener);
}

/** An element that had the keyboard, or is around it, and what stood in it then. */
interface Around {
  element: Element;
  children: readonly Element[];
}

const CAN_HAVE_KEYBOARD =
  'a[href], button:enabled, input:enabled:not([hidden]), select:enabled, textarea:enabled, summary';

/** What can have the keyboard now. */
const usable = (element: Element | undefined): element is HTMLElement =>
  element instanceof HTMLElement &&
  element.isConnected &&
  element.checkVisibility() &&
  !element.matches(':disabled');

/** Longer than what the page itself puts the keyboard on takes to be drawn. */
const WAIT_MS = 60;

/**
 * The keyboard never falls off the page: where what had it goes, or can no longer be pressed, it goes to what stands in its place, to what
 * opened the part that went, or to the heading of what is left (WCAG 2.2, 2.4.3). Whatever puts the keyboard somewhere itself comes first.
 */
export function useKeptFocus(): void {
  useEffect(() => {
    let around: Around[] = [];
    let timer: ReturnType<typeof setTimeout> | undefined,
      left = false;
    const note = ({ target }: FocusEvent): void => {
      around = [];
      for (let each = target instanceof Element ? target : null; each !== null; each = each.parentElement)
        around.push({ element: each, children: [...each.children] });
    };
    const look = (): void => {
      timer = undefined;
      if (left) return;
      const [last] = around;
      const { activeElement } = document;
      if (last === undefined || (activeElement !== document.body && activeElement !== last.element)) return;
      if (!usable(last.element)) placeFor(around)?.focus();
      // Somebody put the keyboard down by a click beside everything.
      else if (activeElement === document.body) around = [];
    };
    // Right after a picture: what changed is laid out then, and need not be for this alone.
    const soon = (): void =>
      void (timer ??= setTimeout(() => requestAnimationFrame(() => inNextTask(look)), WAIT_MS));
    const changes = new MutationObserver(soon);
    changes.observe(document.body, {
      childList: true,
      subtree: true,
      attributes: true,
      attributeFilter: ['disabled', 'hidden', 'open'],
    });
    document.addEventListener('focusin', note);
    document.addEventListener('focusout', soon);
    return () => {
      left = true;
      clearTimeout(timer);
      changes.disconnect();
      document.removeEventListener('focusin', note);
      document.removeEventListener('focusout', soon);
    };
  }, []);
}

/** Where the keyboard goes when what had it is gone. */
function placeFor(around: readonly Around[]): HTMLElement | null {
  for (const [index, { element, children }] of around.entries()) {
    if (!element.isConnected) {
      const opener = openers.get(element);
      if (usable(opener)) return opener;
      continue;
    }
    const within = around[index - 1]?.element;
    const place =
      within === undefined
        ? null
        : within.isConnected
          ? fieldBefore(element, within)
          : inPlaceOf(element, children, within);
    const found = place ?? headOf(element);
    if (found !== null) return found;
  }
  return null;
}

/** What came where something went: a question in place of the button that asks it, or the button again. */
function inPlaceOf(parent: Element, before: readonly Element[], gone: Element): HTMLElement | null {
  const came = parent.children[before.indexOf(gone)];
  if (!usable(came) || before.includes(came)) return null;
  if (came.matches(CAN_HAVE_KEYBOARD)) return came;
  return came.matches('[role=group]') ? readied(came) : null;
}

/** Of a form whose button can no longer be pressed, the field before that button. */
function fieldBefore(part: Element, button: Element): HTMLElement | null {
  if (!part.matches('form, details, fieldset')) return null;
  const fields = [...part.querySelectorAll(CAN_HAVE_KEYBOARD)].filter(usable);
  const before = fields.findLast(
    (each) => (each.compareDocumentPosition(button) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0,
  );
  return before ?? fields[0] ?? null;
}

/** What names a part of the page; what was told, where that is the part. */
function headOf(part: Element): HTMLElement | null {
  if (part.matches('[role=status]') && part.textContent.trim() !== '' && usable(part)) return readied(part);
  if (!part.matches('section, form, details, article, main')) return null;
  // A page is named by its first heading, whatever is folded above it.
  const named = part.matches('main') ? ['h1', 'h2, h3'] : ['summary, h1, h2, h3'];
  const head = named.flatMap((which) => [...part.querySelectorAll(which)]).find(usable);
  return head === undefined ? null : readied(head);
}

/** Something that is no control can have the keyboard when it is put there, and is passed over by Tab. */
function readied(element: HTMLElement): HTMLElement {
  if (!element.matches(CAN_HAVE_KEYBOARD) && !element.hasAttribute('tabindex')) element.tabIndex = -1;
  return element;
}
