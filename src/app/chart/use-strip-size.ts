import { startTransition, useLayoutEffect, useState, type RefObject } from 'react';

export interface StripSize {
  width: number;
  windowHeight: number;
}

/** Width of the strip and height of the window, in whole px; null until they are known. */
export function useStripSize(host: RefObject<HTMLElement | null>): StripSize | null {
  const [size, setSize] = useState<StripSize | null>(null);
  useLayoutEffect(() => {
    const element = host.current;
    if (element === null) return;
    const measure = (): void =>
      setSize((before) => {
        const width = Math.floor(element.clientWidth),
          windowHeight = window.innerHeight;
        // On a phone the bar of the browser comes and goes: only a real change counts.
        const same =
          before !== null && before.width === width && Math.abs(before.windowHeight - windowHeight) < 120;
        return same ? before : { width, windowHeight };
      });
    let first = true;
    // Told once when it begins. The strip is then built bit by bit, after the paper around it: in one piece the page would stand still.
    const observer = new ResizeObserver(() => {
      if (first) startTransition(measure);
      else measure();
      first = false;
    });
    observer.observe(element);
    window.addEventListener('resize', measure);
    return () => {
      observer.disconnect();
      window.removeEventListener('resize', measure);
    };
  }, [host]);
  return size;
}
