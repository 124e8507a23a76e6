import { borderInstants } from './draw-marks.ts';
import type { ShownFrame } from './frame.ts';
import { cursorAt, type Cursor } from './read-out.ts';
import type { RunView } from './run-view.ts';

/** Instants that Ctrl with an arrow goes to: borders, starts of gaps, what was set aside. In order. */
export function landmarks(view: RunView): number[] {
  const instants = [
    ...borderInstants(view),
    ...view.gaps.map(({ start_s, end_s }) => (start_s + end_s) / 2),
    ...view.setAside.map(({ start_s }) => start_s),
  ];
  return [...new Set(instants)].sort((a, b) => a - b);
}

/** The next landmark in a direction; the log's end where there is none. */
export function toLandmark(
  view: RunView,
  marks: readonly number[],
  cursor: Cursor,
  forward: boolean,
): Cursor {
  const near = 1e-6 + view.medianInterval_s * 0.01;
  const next = forward
    ? marks.find((at_s) => at_s > cursor.at_s + near && cursorAt(view, at_s).at_s > cursor.at_s + near)
    : marks.findLast((at_s) => at_s < cursor.at_s - near && cursorAt(view, at_s).at_s < cursor.at_s - near);
  return cursorAt(view, next ?? (forward ? view.end_s : 0));
}

/** So many px along, always at least one reading; a gap is one stop. */
export function stepped(view: RunView, frame: ShownFrame, cursor: Cursor, px: number): Cursor {
  const forward = px > 0;
  if (cursor.row === null) {
    const gap = view.gaps.find(({ start_s, end_s }) => cursor.at_s > start_s && cursor.at_s < end_s);
    if (gap !== undefined) return cursorAt(view, forward ? gap.end_s : gap.start_s);
  }
  const perPx = (frame.shown.to_s - frame.shown.from_s) / frame.along;
  const next = cursorAt(view, cursor.at_s + px * perPx);
  const passed = passedGap(view, cursor.at_s, cursor.at_s + px * perPx);
  if (passed !== null) return { at_s: (passed.start_s + passed.end_s) / 2, row: null };
  if (next.row === null || next.row !== cursor.row || cursor.row === null) return next;
  const row = Math.min(view.time_s.length - 1, Math.max(0, cursor.row + (forward ? 1 : -1)));
  return cursorAt(view, view.time_s[row] ?? cursor.at_s);
}

/** The gap between two instants, or the one that the next reading lies behind. */
function passedGap(view: RunView, from_s: number, to_s: number): { start_s: number; end_s: number } | null {
  const low = Math.min(from_s, to_s),
    high = Math.max(from_s, to_s);
  const edge = view.medianInterval_s / 2;
  return (
    view.gaps.find(({ start_s, end_s }) =>
      from_s <= to_s
        ? low <= start_s + edge && high > start_s + edge
        : high >= end_s - edge && low < end_s - edge,
    ) ?? null
  );
}
