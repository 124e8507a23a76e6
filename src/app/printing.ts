import { useEffect, useEffectEvent, useState } from 'react';
import { flushSync } from 'react-dom';

/** Whether the page is being put on paper just now; by the time the browser lays out the paper, what hangs on it is drawn. */
export function usePrinting(): boolean {
  const [printing, setPrinting] = useState(false);
  useEffect(() => {
    const begin = (): void => flushSync(() => setPrinting(true));
    const end = (): void => setPrinting(false);
    window.addEventListener('beforeprint', begin);
    window.addEventListener('afterprint', end);
    return () => {
      window.removeEventListener('beforeprint', begin);
      window.removeEventListener('afterprint', end);
    };
  }, []);
  return printing;
}

/**
 * Day colours on white for as long as the page is printed, whatever paper is on the screen, and every page with what it is of and which
 * of how many it is, where the browser can do that (margin boxes of css-page-3).
 * @param running what stands at the foot of each page
 */
export function usePrintedPages(running: string): void {
  const begin = useEffectEvent(() => {
    const root = document.documentElement;
    const paper = root.dataset['paper'];
    root.dataset['paper'] = 'day';
    root.dataset['printing'] = '';
    const pages = new CSSStyleSheet();
    // A string of CSS: no quote, backslash or line end of a name may end it.
    const text = running.replace(/["\\\n]/gu, ' ');
    pages.replaceSync(
      `@page { @bottom-left { content: "${text}"; font: 9pt sans-serif; } @bottom-right { content: "page " counter(page) " of " counter(pages); font: 9pt sans-serif; } }`,
    );
    document.adoptedStyleSheets.push(pages);
    return () => {
      if (paper === undefined) delete root.dataset['paper'];
      else root.dataset['paper'] = paper;
      delete root.dataset['printing'];
      document.adoptedStyleSheets = document.adoptedStyleSheets.filter((each) => each !== pages);
    };
  });
  useEffect(() => {
    let undo: (() => void) | null = null;
    const before = (): void => {
      undo?.();
      undo = begin();
    };
    const after = (): void => {
      undo?.();
      undo = null;
    };
    // In capture: before anything is drawn anew, which takes its colours from the page.
    window.addEventListener('beforeprint', before, { capture: true });
    window.addEventListener('afterprint', after, { capture: true });
    return () => {
      window.removeEventListener('beforeprint', before, { capture: true });
      window.removeEventListener('afterprint', after, { capture: true });
      after();
    };
  }, []);
}
