import { medianWindow, type MedianWindow } from './median-window.ts';
import { WindowCursor, type TimeGap, type WindowSize } from './window.ts';

/** A centred window in seconds with its median at hand, moved along the rows; rows may be left out on the way. */
export class MovingMedian {
  /** What the window holds at the row that was moved to. */
  readonly window: MedianWindow;
  readonly cursor: WindowCursor;
  private readonly values: Float64Array;
  /** Rows that the window holds, from the first to before the last. */
  private low = 0;
  private high = 0;

  /** @param values one a row, NaN for no reading; else as {@link WindowCursor} */
  constructor(time_s: Float64Array, values: Float64Array, gaps: readonly TimeGap[], size: WindowSize) {
    this.values = values;
    this.cursor = new WindowCursor(time_s, gaps, size);
    this.window = medianWindow(values);
  }

  /** @param row not before the row of the last call */
  moveTo(row: number): void {
    const { cursor, values, window } = this;
    cursor.moveTo(row);
    const { from, to } = cursor;
    let { low, high } = this;
    // Take out first: past a gap nothing of the window stays.
    while (low < from && low < high) window.remove(values[low++] ?? NaN);
    if (low < from) low = high = from;
    while (high < to) window.add(values[high++] ?? NaN);
    this.low = low;
    this.high = high;
  }
}
