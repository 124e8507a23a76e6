import { BLOCK_ROWS, inBlocks } from '#statistics/in-blocks.ts';

/** A stretch without readings, by the times of the rows on either side. */
export interface TimeGap {
  start_s: number;
  end_s: number;
}

/** What a window about a reading reaches over. */
export interface WindowSize {
  /** Full width; the window holds what lies within half of it on either side, ends included. */
  width_s: number;
  /** The window reaches at least so many readings in all (an odd number), where the width alone would hold fewer. */
  samples: number;
}

/** Times are decimals that a double holds only nearly: a reading exactly on the border belongs to the window. */
const BORDER_TOLERANCE = 1e-9;

/** First row at or after a time. @param time_s rising */
export function firstRowAt(time_s: Float64Array, at_s: number): number {
  let low = 0;
  let high = time_s.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((time_s[middle] ?? NaN) < at_s) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Rows at which a new stretch begins, 0 and the number of rows included. */
export function stretchBorders(time_s: Float64Array, gaps: readonly TimeGap[]): number[] {
  const borders = [0];
  for (const gap of gaps) {
    const border = firstRowAt(time_s, 0.5 * (gap.start_s + gap.end_s));
    if (border > (borders.at(-1) ?? 0) && border < time_s.length) borders.push(border);
  }
  borders.push(time_s.length);
  return borders;
}

/** How far a window reaches on either side, in seconds and, at least, in rows. */
export function reachOf({ width_s, samples }: WindowSize): { half_s: number; side: number } {
  return {
    half_s: 0.5 * width_s * (1 + BORDER_TOLERANCE),
    side: Math.max(0, Math.floor((samples - 1) / 2)),
  };
}

/**
 * Goes along the rows with a centred window in seconds, evenly spaced or not. At the ends and at gaps the window is cut off where the
 * rows end: it holds what is left of it, on one side only if need be.
 * A class, and no function that is called for each row: in the millions the calls cost more than the work.
 */
export class WindowCursor {
  /** First row of the window, and the row after its last; neither ever falls. */
  from = 0;
  to = 0;
  private readonly time_s: Float64Array;
  private readonly half_s: number;
  private readonly side: number;
  private readonly borders: number[];
  /** The stretch between gaps: which it is, its first row and the row after its last. */
  private part = 0;
  private start = 0;
  private stop = 0;
  private low = 0;
  private high = 0;
  /** One window, for {@link moveTo}. */
  private readonly first = new Int32Array(1);
  private readonly end = new Int32Array(1);

  /**
   * @param time_s never falls
   * @param gaps in order; no window reaches across one
   */
  constructor(time_s: Float64Array, gaps: readonly TimeGap[], { width_s, samples }: WindowSize) {
    this.time_s = time_s;
    ({ half_s: this.half_s, side: this.side } = reachOf({ width_s, samples }));
    this.borders = stretchBorders(time_s, gaps);
  }

  /** @param row not before the row of the last call */
  moveTo(row: number): void {
    this.moveOver(row, row + 1, this.first, this.end);
    this.from = this.first[0] ?? 0;
    this.to = this.end[0] ?? 0;
  }

  /**
   * The windows of rows `row` to before `until` at once.
   * @param row not before the row of the last call
   * @param first gets the first row of each window from place 0 on, `end` the row after its last
   */
  moveOver(row: number, until: number, first: Int32Array, end: Int32Array): void {
    const { time_s, half_s, side } = this;
    for (let from = row; from < until;) {
      while (from >= this.stop && this.part + 1 < this.borders.length) {
        this.start = this.low = this.high = this.borders[this.part] ?? 0;
        this.stop = this.borders[++this.part] ?? 0;
      }
      const { start, stop } = this;
      const to = stop > from && stop < until ? stop : until;
      let { low, high } = this;
      for (let i = from; i < to; i++) {
        const at_s = time_s[i] ?? NaN;
        while (at_s - (time_s[low] ?? NaN) > half_s) low++;
        while (high < stop && (time_s[high] ?? NaN) - at_s <= half_s) high++;
        const lowest = low < i - side ? low : i - side;
        const highest = high > i + side + 1 ? high : i + side + 1;
        first[i - row] = lowest > start ? lowest : start;
        end[i - row] = highest < stop ? highest : stop;
      }
      this.low = low;
      this.high = high;
      from = to;
    }
  }
}

/**
 * Goes along all rows, or all from `row` on, with their windows, some rows at a time: `at` gets rows `from` to before `to`, and from place 0 on the first row
 * of each of their windows and the row after its last.
 */
export function alongBlocks(
  time_s: Float64Array,
  gaps: readonly TimeGap[],
  size: WindowSize,
  at: (from: number, to: number, first: Int32Array, end: Int32Array) => void,
  row = 0,
): void {
  const cursor = new WindowCursor(time_s, gaps, size);
  const first = new Int32Array(BLOCK_ROWS);
  const end = new Int32Array(BLOCK_ROWS);
  inBlocks(row, time_s.length, (from, to) => {
    cursor.moveOver(from, to, first, end);
    at(from, to, first, end);
  });
}

/** The same row by row. */
export function alongWindows(
  time_s: Float64Array,
  gaps: readonly TimeGap[],
  size: WindowSize,
  at: (row: number, from: number, to: number) => void,
): void {
  alongBlocks(time_s, gaps, size, (from, to, first, end) => {
    for (let row = from; row < to; row++) at(row, first[row - from] ?? 0, end[row - from] ?? 0);
  });
}
