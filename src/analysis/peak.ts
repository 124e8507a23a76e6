import { extentsOf } from '#statistics/extents.ts';
import { GAP_INTERVALS, type Rows, type Timeline } from './timeline.ts';

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
  const gap_s = GAP_INTERVALS * medianInterval_s;
  const best = { highest: -Infinity, row: -1 };
  const extents = extentsOf(values);
  for (const piece of pieces) {
    const seen = { ...nothingSeen };
    extents.inBlocks(piece, (from, to, block) => {
      const most = extents.most(block);
      // Rows without a reading are passed over; no three neighbours with one of these readings reach more than was reached.
      if (most === -Infinity) return;
      if (most <= best.highest) Object.assign(seen, nothingSeen);
      else lookOn(time_s, values, gap_s, best, seen, from, to);
    });
  }
  return best.row < 0 ? null : { value: best.highest, row: best.row };
}

/** The last two readings, and how many of them there are since the last gap. */
interface Seen {
  count: number;
  before: number;
  last: number;
  beforeRow: number;
  lastRow: number;
  last_s: number;
}

const nothingSeen: Seen = { count: 0, before: NaN, last: NaN, beforeRow: -1, lastRow: -1, last_s: NaN };

/** Some rows more. */
function lookOn(
  time_s: Float64Array,
  values: Float64Array,
  gap_s: number,
  best: { highest: number; row: number },
  seen: Seen,
  from: number,
  to: number,
): void {
  let { highest } = best;
  let { count, before, last, beforeRow, lastRow, last_s } = seen;
  for (let i = from; i < to; i++) {
    const value = values[i] ?? NaN;
    if (value !== value) continue;
    const at_s = time_s[i] ?? NaN;
    if (at_s - last_s >= gap_s) count = 0;
    if (count >= 2) {
      const lower = before < last ? before : last;
      const reached = lower < value ? lower : value;
      if (reached > highest) {
        highest = reached;
        best.row = beforeRow;
      }
    }
    count++;
    before = last;
    beforeRow = lastRow;
    last = value;
    lastRow = i;
    last_s = at_s;
  }
  best.highest = highest;
  seen.count = count;
  seen.before = before;
  seen.last = last;
  seen.beforeRow = beforeRow;
  seen.lastRow = lastRow;
  seen.last_s = last_s;
}
