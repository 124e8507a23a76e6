import { useCallback, useRef, type RefObject } from 'react';
import { TEXT_PX, type Measure } from './label.ts';

/** Measures texts in the face that the strip is set in, before they are placed. */
export function useMeasure(host: RefObject<HTMLElement | null>): Measure {
  const known = useRef(new Map<string, number>());
  const context = useRef<CanvasRenderingContext2D | null>(null);
  return useCallback(
    ({ text, bold, size }) => {
      const font = `${bold === true ? 700 : 400} ${size ?? TEXT_PX}px`;
      const key = `${font} ${text}`;
      const found = known.current.get(key);
      if (found !== undefined) return found;
      context.current ??= document.createElement('canvas').getContext('2d');
      const family = host.current === null ? 'sans-serif' : getComputedStyle(host.current).fontFamily;
      let width = text.length * (size ?? TEXT_PX) * 0.6;
      if (context.current !== null) {
        context.current.font = `${font} ${family}`;
        // Figures are set at one width, which the canvas does not know: a little room for that.
        width = context.current.measureText(text).width + 1;
      }
      if (host.current !== null) known.current.set(key, width);
      return width;
    },
    [host],
  );
}
