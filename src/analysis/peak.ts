import { at, GAP_INTERVALS, type Rows, type Timeline } from './timeline.ts';

/** A level and the first of the rows that reached it. */
export interface Peak {
  value: number;
  row: number;
}

/**
 * The highest level that three consecutive readings reached: the largest of the minima of three neighbours. Rows without a
 * reading are passed over; a gap parts what lies on either side.
 * @param values NaN for no reading
 * @returns null with fewer than three readings together
 */
export function peakOf(
  { time_s, medianInterval_s }: Timeline,
  values: Float64Array,
  pieces: readonly Rows[],
): Peak | null {
  let best: Peak | null = null;
  let highest = -Infinity;
  for (const { from, to } of pieces) {
    // The last two readings, and how many of them there are since the last gap.
    let count = 0,
      before = NaN,
      last = NaN,
      beforeRow = -1,
      lastRow = -1,
      last_s = NaN;
    for (let i = from; i < to; i++) {
      const value = at(values, i);
      if (value !== value) continue;
      const at_s = at(time_s, i);
      if (at_s - last_s >= GAP_INTERVALS * medianInterval_s) count = 0;
      if (count >= 2) {
        const lower = before < last ? before : last;
        const reached = lower < value ? lower : value;
        if (reached > highest) {
          highest = reached;
          best = { value: reached, row: beforeRow };
        }
      }
      count++;
      before = last;
      beforeRow = lastRow;
      last = value;
      lastRow = i;
      last_s = at_s;
    }
  }
  return best;
}
