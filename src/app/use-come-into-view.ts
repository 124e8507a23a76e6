import { useEffect, useRef, type RefObject } from 'react';
import { openedFrom } from './use-kept-focus.ts';

/**
 * A part that opens beneath what is seen comes into view, and its heading gets the keyboard: who cannot see that it opened hears it, and
 * Tab goes on inside it. It jumps there; nothing is animated for looks.
 * @param when told what has the keyboard as it opens; a part that only stands there again, on coming back to the page, takes nothing
 */
export function useComeIntoView(
  when: (pressed: Element | null) => boolean = () => true,
): RefObject<HTMLHeadingElement | null> {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    const opener = document.activeElement;
    if (!when(opener)) return;
    const part = heading.current?.closest('section');
    if (part) openedFrom(part, opener);
    heading.current?.focus({ preventScroll: true });
    part?.scrollIntoView({ block: 'start', behavior: 'instant' });
    // Once, as it opens.
    // oxlint-disable-next-line react/exhaustive-deps
  }, []);
  return heading;
}
