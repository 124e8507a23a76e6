import { useEffect } from 'react';

/**
 * Tells the page's styles how much of the window the foot of the sheet covers (`--foot-height`): it may be one row, two on a phone, or a
 * slip that asks for a reason. What stays in view above it has its place from that.
 * @param foot changes when another foot takes the place of this one
 */
export function useFootHeight(foot: string): void {
  useEffect(() => {
    const element = document.querySelector<HTMLElement>('.foot');
    const { style } = document.documentElement;
    if (element === null) return undefined;
    const measure = (): void => {
      const stays = getComputedStyle(element).position === 'sticky';
      style.setProperty('--foot-height', `${stays ? element.offsetHeight : 0}px`);
    };
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    window.addEventListener('resize', measure);
    measure();
    return () => {
      observer.disconnect();
      window.removeEventListener('resize', measure);
      style.removeProperty('--foot-height');
    };
  }, [foot]);
}
