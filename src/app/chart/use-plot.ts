import { useLayoutEffect, useRef, type RefObject } from 'react';
import type { Frame, ShownFrame } from './frame.ts';
import type { Box } from './label.ts';
import { coloursOn, usePaperTurn } from './paper-colours.ts';
import { createPlot, type Plot } from './plot.ts';
import type { Cursor } from './read-out.ts';
import type { RunView } from './run-view.ts';

/**
 * Keeps the drawn strip in step with what is shown.
 * @param atOnce the first picture, too: paper does not wait
 */
export function usePlot(
  host: RefObject<HTMLElement | null>,
  view: RunView,
  frame: Frame | null,
  drawn: ShownFrame | null,
  quiet: readonly Box[],
  ratio: number,
  cursor: Cursor,
  atOnce: boolean,
): void {
  const plot = useRef<Plot | null>(null);
  useLayoutEffect(() => {
    const paper = host.current;
    if (paper !== null) plot.current = createPlot(paper, () => coloursOn(paper));
    return () => {
      plot.current?.destroy();
      plot.current = null;
    };
  }, [host]);
  useLayoutEffect(() => {
    if (plot.current === null || frame === null || drawn === null) return;
    const along = drawn.x(cursor.at_s);
    const seen = along >= -0.5 && along <= drawn.along + 0.5;
    plot.current[atOnce ? 'draw' : 'build']({
      view,
      paper: frame,
      frame: drawn,
      ratio,
      quiet,
      cursor: { along: seen ? along : null, row: seen ? cursor.row : null },
    });
  }, [view, frame, drawn, quiet, ratio, cursor, atOnce]);
  usePaperTurn(() => {
    if (host.current !== null) plot.current?.recolour(coloursOn(host.current));
  });
}
