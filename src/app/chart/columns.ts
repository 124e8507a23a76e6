import { extentOf, type Blocks, type Extent } from '#drawing/blocks.ts';
import { firstRowFrom, type Stretch } from './rows.ts';

/** What a column of paper holds of a channel's rows. */
export const Held = { noRow: 0, noValue: 1, values: 2 } as const;

/** A channel by columns of one width: column k holds the rows from k widths (of time) to k + 1. */
export interface Columns {
  width_s: number;
  /** k of the first column. */
  from: number;
  count: number;
  held: Uint8Array;
  lowest: Float64Array;
  highest: Float64Array;
  /** First and last row's value; NaN where that row has none. */
  first: Float64Array;
  last: Float64Array;
}

/** Widths that differ by less are one: what is shown keeps its length while it is moved along, but for the last digit. */
const SAME_WIDTH = 1e-9;

const made = new WeakMap<Blocks, WeakMap<Stretch, Columns>>();

/**
 * Columns of a stretch that hold its rows from … to. They are counted from the run's start, not from the edge of what is shown: moved
 * along, a column keeps its rows, so that only those that come into view are worked out. The same part looks the same however one came to it.
 */
export function columnsOf(
  time_s: Float64Array,
  channel: Blocks,
  stretch: Stretch,
  rows: { from: number; to: number },
  wished_s: number,
): Columns {
  let ofChannel = made.get(channel);
  if (ofChannel === undefined) made.set(channel, (ofChannel = new WeakMap()));
  const known = ofChannel.get(stretch);
  const same = known !== undefined && Math.abs(known.width_s - wished_s) <= SAME_WIDTH * wished_s;
  const width_s = same ? known.width_s : wished_s;
  const from = Math.floor((time_s[rows.from] ?? 0) / width_s),
    count = Math.floor((time_s[rows.to - 1] ?? 0) / width_s) + 1 - from;
  if (same && known.from === from && known.count === count) return known;
  const columns: Columns = {
    width_s,
    from,
    count,
    held: new Uint8Array(count),
    lowest: new Float64Array(count),
    highest: new Float64Array(count),
    first: new Float64Array(count),
    last: new Float64Array(count),
  };
  // Columns that are known already, as places in the new list.
  const kept = same ? keep(columns, known) : { from: 0, to: 0 };
  fill(columns, 0, kept.from, time_s, channel, stretch);
  fill(columns, kept.to, count, time_s, channel, stretch);
  ofChannel.set(stretch, columns);
  return columns;
}

function keep(into: Columns, known: Columns): { from: number; to: number } {
  const from = Math.max(into.from, known.from),
    to = Math.min(into.from + into.count, known.from + known.count);
  if (from >= to) return { from: 0, to: 0 };
  const at = from - into.from,
    start = from - known.from,
    end = to - known.from;
  into.held.set(known.held.subarray(start, end), at);
  into.lowest.set(known.lowest.subarray(start, end), at);
  into.highest.set(known.highest.subarray(start, end), at);
  into.first.set(known.first.subarray(start, end), at);
  into.last.set(known.last.subarray(start, end), at);
  return { from: at, to: to - into.from };
}

function fill(
  columns: Columns,
  from: number,
  to: number,
  time_s: Float64Array,
  channel: Blocks,
  stretch: Stretch,
): void {
  if (from >= to) return;
  const { width_s, held, lowest, highest, first, last } = columns;
  const extent: Extent = { lowest: 0, highest: 0 };
  const { values } = channel;
  let row = Math.max(stretch.from, firstRowFrom(time_s, (columns.from + from) * width_s));
  for (let at = from; at < to; at++) {
    const end = rowFrom(time_s, (columns.from + at + 1) * width_s, row, stretch.to);
    if (end <= row) {
      held[at] = Held.noRow;
      continue;
    }
    if (extentOf(channel, row, end, extent)) {
      held[at] = Held.values;
      lowest[at] = extent.lowest;
      highest[at] = extent.highest;
      first[at] = values[row] ?? NaN;
      last[at] = values[end - 1] ?? NaN;
    } else held[at] = Held.noValue;
    row = end;
  }
}

/** First row from an instant, looked for from a row on: columns follow each other, so it is near. */
function rowFrom(time_s: Float64Array, at_s: number, from: number, to: number): number {
  let step = 1,
    low = from,
    high = from;
  while (high < to && (time_s[high] ?? Infinity) < at_s) {
    low = high + 1;
    high += step;
    step *= 2;
  }
  high = Math.min(high, to);
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((time_s[middle] ?? Infinity) < at_s) low = middle + 1;
    else high = middle;
  }
  return low;
}
