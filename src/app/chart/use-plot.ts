import { useLayoutEffect, useRef, type RefObject } from 'react';
import type { Frame, ShownFrame } from './frame.ts';
import type { Box } from './label.ts';
import { coloursOn, usePaperTurn } from './paper-colours.ts';
import { createPlot, type Plot } from './plot.ts';
import type { Cursor } from './read-out.ts';
import type { RunView } from './run-view.ts';

/** Keeps the drawn strip in step with what is shown. */
export function usePlot(
  host: RefObject<HTMLElement | null>,
  view: RunView,
  frame: Frame | null,
  drawn: ShownFrame | null,
  quiet: readonly Box[],
  ratio: number,
  cursor: Cursor,
): void {
  const plot = useRef<Plot | null>(null);
  useLayoutEffect(() => {
    if (host.current !== null) plot.current = createPlot(host.current);
    return () => {
      plot.current?.destroy();
      plot.current = null;
    };
  }, [host]);
  useLayoutEffect(() => {
    if (host.current === null || frame === null || drawn === null) return;
    const paper = host.current;
    plot.current?.layOut(view, frame, ratio, () => coloursOn(paper));
    plot.current?.show(drawn, quiet);
    const along = drawn.x(cursor.at_s);
    const seen = along >= -0.5 && along <= drawn.along + 0.5;
    plot.current?.setCursor(seen ? along : null, seen ? cursor.row : null);
  }, [host, view, frame, drawn, quiet, ratio, cursor]);
  usePaperTurn(() => {
    if (host.current !== null) plot.current?.recolour(coloursOn(host.current));
  });
}
