import { useEffect, useEffectEvent, useState } from 'react';

/** Colours that the canvas draws with; the page's tokens, whose names they have. */
export type PaperColours = Record<
  | 'paper'
  | 'bench'
  | 'ink'
  | 'ink2'
  | 'line'
  | 'grid'
  | 'pressure'
  | 'raw'
  | 'oil'
  | 'limit'
  | 'bandfill'
  | 'hatch',
  string
>;

/** The tokens as they stand on an element just now. */
export function coloursOn(element: Element): PaperColours {
  const style = getComputedStyle(element);
  const ink = style.color;
  const of = (name: string): string => style.getPropertyValue(`--${name}`).trim() || ink;
  return {
    paper: of('paper'),
    bench: of('bench'),
    ink: of('ink'),
    ink2: of('ink2'),
    line: of('line'),
    grid: of('grid'),
    pressure: of('pressure'),
    raw: of('raw'),
    oil: of('oil'),
    limit: of('limit'),
    bandfill: of('bandfill'),
    hatch: of('hatch'),
  };
}

/** Calls back whenever day or night paper was chosen, or the system changed it; by then the new colours stand. */
export function usePaperTurn(turned: () => void): void {
  const call = useEffectEvent(turned);
  useEffect(() => {
    let request = 0;
    const turn = (): void => {
      cancelAnimationFrame(request);
      request = requestAnimationFrame(() => call());
    };
    const observer = new MutationObserver(turn);
    observer.observe(document.documentElement, { attributes: true });
    const dark = matchMedia('(prefers-color-scheme: dark)');
    dark.addEventListener('change', turn);
    return () => {
      cancelAnimationFrame(request);
      observer.disconnect();
      dark.removeEventListener('change', turn);
    };
  }, []);
}

/** Device pixels to a CSS pixel; follows the window from one monitor to another, and the page's zoom. */
export function usePixelRatio(): number {
  const [ratio, setRatio] = useState(() => window.devicePixelRatio);
  useEffect(() => {
    const query = matchMedia(`(resolution: ${ratio}dppx)`);
    const change = (): void => setRatio(window.devicePixelRatio);
    query.addEventListener('change', change);
    return () => query.removeEventListener('change', change);
  }, [ratio]);
  return ratio;
}
