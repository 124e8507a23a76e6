// The highest value that readings stay at or above for a time together (src/signal/sustained-minimum.ts). The sliding minimum comes from
// two halves: of the rows before `middle` the minimum from each row on, of the others one alone.
import { MOST_REACH, RING_LEAST, RING_TIMES, RING_VALUES, TIMES, VALUES } from './places';

let interval_s: f64 = 0;
let gap_s: f64 = 0;
let atLeast_s: f64 = 0;
/** One less than the length of the rings. */
let mask: i32 = 0;
/** Rows that came. */
let fed: i32 = 0;
/** The window's first row, the first row that is not in its older half, and the last row with a reading; −1 before there was one. */
let first: i32 = 0;
let middle: i32 = 0;
let last: i32 = -1;
let newer: f64 = Infinity;
let best: f64 = -Infinity;
let lowest: f64 = Infinity;

/** @param ring rows that the rings hold to begin with, a power of two */
export function beginSustained(interval: f64, gap: f64, atLeast: f64, ring: i32): void {
  interval_s = interval;
  gap_s = gap;
  atLeast_s = atLeast;
  mask = ring - 1;
  fed = first = middle = 0;
  last = -1;
  newer = lowest = Infinity;
  best = -Infinity;
}
/** Of all rows: the best minimum, −Infinity where nothing lasted so long; the lowest reading, Infinity without one. */
export function sustainedBest(): f64 {
  return best;
}
export function sustainedLowest(): f64 {
  return lowest;
}

function at(ring: usize, i: i32, m: i32): usize {
  return ring + ((<usize>(i & m)) << 3);
}

/** Twice as long rings. */
function widen(): void {
  const length = mask + 1;
  for (let i = first; i < fed; i++)
    if ((i & length) != 0) {
      const place = (<usize>(i & mask)) << 3,
        wide = place + ((<usize>length) << 3);
      store<f64>(RING_TIMES + wide, load<f64>(RING_TIMES + place));
      store<f64>(RING_VALUES + wide, load<f64>(RING_VALUES + place));
      store<f64>(RING_LEAST + wide, load<f64>(RING_LEAST + place));
    }
  mask = (length << 1) - 1;
}

/**
 * Some rows more, which stand in TIMES and VALUES.
 * @returns false where the window reaches over too many rows
 */
export function sustain(count: i32): bool {
  while (fed + count - first > mask + 1) {
    if (mask + 1 >= MOST_REACH) return false;
    widen();
  }
  const m = mask,
    interval = interval_s,
    gap = gap_s,
    needed = atLeast_s,
    began = fed;
  let a = first,
    mid = middle,
    before = last,
    late = newer,
    most = best,
    least = lowest;
  for (let n = 0; n < count; n++) {
    const i = began + n,
      time = load<f64>(TIMES + ((<usize>n) << 3)),
      value = load<f64>(VALUES + ((<usize>n) << 3));
    store<f64>(at(RING_TIMES, i, m), time);
    store<f64>(at(RING_VALUES, i, m), value);
    if (value != value) continue;
    if (before < 0 || time - load<f64>(at(RING_TIMES, before, m)) >= gap) {
      a = mid = i;
      late = Infinity;
    }
    before = i;
    if (value < least) least = value;
    if (value < late) late = value;
    // The row itself stands for one interval more.
    const end = time + interval;
    while (a < i && end - load<f64>(at(RING_TIMES, a + 1, m)) >= needed) a++;
    if (a > mid) {
      let since = Infinity;
      for (let row = i; row >= a; row--) {
        const other = load<f64>(at(RING_VALUES, row, m));
        if (other < since) since = other;
        store<f64>(at(RING_LEAST, row, m), since);
      }
      mid = i + 1;
      late = Infinity;
    }
    if (end - load<f64>(at(RING_TIMES, a, m)) < needed) continue;
    const older = a < mid ? load<f64>(at(RING_LEAST, a, m)) : Infinity,
      held = older < late ? older : late;
    if (held > most) most = held;
  }
  fed = began + count;
  first = a;
  middle = mid;
  last = before;
  newer = late;
  best = most;
  lowest = least;
  return true;
}
