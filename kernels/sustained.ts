// The highest value that readings stay at or above for a time together (src/signal/sustained-minimum.ts). No window with a reading that is
// not above the best minimum so far can be better, so that only stretches above it are looked at. Within one the sliding minimum comes
// from two halves: of the rows before `middle` the minimum from each row on, of the others one alone.
import { MOST_REACH, RING_LEAST, RING_TIMES, RING_VALUES, TIMES, VALUES } from './places';

let interval_s: f64 = 0;
let gap_s: f64 = 0;
let atLeast_s: f64 = 0;
/** One less than the length of the rings. */
let mask: i32 = 0;
/** Rows that came. */
let fed: i32 = 0;
/** The window's first row, the first row that is not in its older half. */
let first: i32 = 0;
let middle: i32 = 0;
/** Time of the last row with a reading, −Infinity before there was one; of the first row of the stretch above the best minimum. */
let last_s: f64 = -Infinity;
let first_s: f64 = 0;
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
  last_s = -Infinity;
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
    before = last_s,
    since_s = first_s,
    late = newer,
    most = best,
    least = lowest;
  for (let n = 0; n < count; n++) {
    const i = began + n,
      time = load<f64>(TIMES + ((<usize>n) << 3)),
      value = load<f64>(VALUES + ((<usize>n) << 3));
    store<f64>(at(RING_TIMES, i, m), time);
    store<f64>(at(RING_VALUES, i, m), value);
    // A stretch begins behind a row that is not above the best, be there a reading or none, and at the first reading behind a gap.
    if (since_s != since_s) {
      a = mid = i;
      since_s = time;
    }
    if (value != value) {
      if (time - before >= gap) {
        a = mid = i + 1;
        since_s = NaN;
      }
      continue;
    }
    if (value < least) least = value;
    if (time - before >= gap) {
      a = mid = i;
      since_s = time;
      late = Infinity;
    }
    before = time;
    if (value <= most) {
      a = mid = i + 1;
      since_s = NaN;
      late = Infinity;
      continue;
    }
    if (value < late) late = value;
    // The row itself stands for one interval more.
    const end = time + interval;
    if (end - since_s < needed) continue;
    while (a < i && end - load<f64>(at(RING_TIMES, a + 1, m)) >= needed) a++;
    if (a > mid) {
      let held = Infinity;
      for (let row = i; row >= a; row--) {
        const other = load<f64>(at(RING_VALUES, row, m));
        if (other < held) held = other;
        store<f64>(at(RING_LEAST, row, m), held);
      }
      mid = i + 1;
      late = Infinity;
    }
    since_s = load<f64>(at(RING_TIMES, a, m));
    const older = a < mid ? load<f64>(at(RING_LEAST, a, m)) : Infinity,
      held = older < late ? older : late;
    if (held > most) most = held;
  }
  fed = began + count;
  first = a;
  middle = mid;
  last_s = before;
  first_s = since_s;
  newer = late;
  best = most;
  lowest = least;
  return true;
}
