import type { ColumnKernels } from '#kernels/column-kernels.ts';
import type { Levels } from './levels.ts';
import { reachOf, stretchBorders, type TimeGap, type WindowSize } from './window.ts';

/** A column, its grid, and the windows to go along it with. */
export interface Windowed {
  readonly time_s: Float64Array;
  readonly values: Float64Array;
  readonly levels: Levels;
  readonly gaps: readonly TimeGap[];
  readonly size: WindowSize;
}

/** Rows that the kernels' rings hold to begin with: they stay near at hand; for a window that reaches over more the rings grow. */
const RING_ROWS = 4096;
/** Rows that are handed over at once. An engine brings a better compiled kernel into use with the next call. */
const FED_ROWS = 2048;

/**
 * Goes along a column with kernels that keep the readings in reach: rows go in as they come, and what is asked of their windows comes
 * out once these are known.
 * @param spikes whether spikes are looked for, and not medians
 * @param next works on as many rows as it may, at most so many as the lists hold, and returns how many; `closed` where the stretch ends
 *   with the rows that went in; `from` is the first of them
 * @returns the row that it came to: all of them, or fewer where a window reaches over too many rows or the grid has too many levels
 */
export function alongKernelWindows(
  kernels: ColumnKernels,
  { time_s, values, levels, gaps, size }: Windowed,
  spikes: boolean,
  next: (from: number, closed: boolean) => number,
): number {
  if (!levels.tell(kernels)) return 0;
  const { half_s, side } = reachOf(size),
    borders = stretchBorders(time_s, gaps);
  if (side > kernels.levels) return 0;
  kernels.beginWindows(half_s, side, RING_ROWS, spikes);
  let row = 0,
    part = 1;
  for (let from = 0; from < values.length; from += FED_ROWS) {
    const to = Math.min(from + FED_ROWS, values.length);
    kernels.times.set(time_s.subarray(from, to));
    kernels.values.set(values.subarray(from, to));
    for (let at = from; at < to;) {
      const border = borders[part] ?? to,
        until = Math.min(border, to),
        closed = until === border;
      if (!kernels.feedRows(at - from, until - at)) {
        kernels.endStretch();
        return row;
      }
      for (let done = -1; done !== 0; row += done) done = next(row, closed);
      if (closed) {
        kernels.endStretch();
        part++;
      }
      at = until;
    }
  }
  return row;
}
