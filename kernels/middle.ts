// Medians: of one list by selection (src/statistics/selection.ts), of many readings by buckets (src/statistics/median.ts). Step for step
// what the scripts do.
import { FINE, RESULTS, TIMES, VALUES } from './places';

function at(i: i32): usize {
  return VALUES + ((<usize>i) << 3);
}

/** Packs the readings of VALUES that are neither NaN nor infinite. @returns how many */
function pack(count: i32): i32 {
  let n: i32 = 0;
  for (let i = 0; i < count; i++) {
    const value = load<f64>(at(i));
    if (value - value == 0) store<f64>(at(n++), value);
  }
  return n;
}

/** The value that would stand at a place if the list were sorted; smaller ones end up before it, larger ones after it. */
function select(count: i32, place: i32): f64 {
  let low: i32 = 0,
    high = count - 1;
  while (low < high) {
    const a = load<f64>(at(low)),
      b = load<f64>(at((low + high) >> 1)),
      c = load<f64>(at(high));
    const pivot = a < b ? (b < c ? b : a < c ? c : a) : a < c ? a : b < c ? c : b;
    let i = low,
      j = high;
    while (i <= j) {
      while (load<f64>(at(i)) < pivot) i++;
      while (load<f64>(at(j)) > pivot) j--;
      if (i > j) break;
      const swap = load<f64>(at(i));
      store<f64>(at(i++), load<f64>(at(j)));
      store<f64>(at(j--), swap);
    }
    if (place <= j) high = j;
    else if (place >= i) low = i;
    else break;
  }
  return load<f64>(at(place));
}

function largestBefore(place: i32): f64 {
  let largest = -Infinity;
  for (let i = 0; i < place; i++) {
    const value = load<f64>(at(i));
    if (value > largest) largest = value;
  }
  return largest;
}

/** Median of the readings in VALUES, which change their places; NaN without one. */
export function medianOf(count: i32): f64 {
  const n = pack(count);
  if (n == 0) return NaN;
  const upper = select(n, n >> 1);
  return n & 1 ? upper : (largestBefore(n >> 1) + upper) / 2;
}

/** The same of readings that were rounded to steps (src/statistics/grouped-median.ts). */
export function groupedMedianOf(count: i32, step: f64): f64 {
  const n = pack(count);
  if (n == 0) return NaN;
  const upper = select(n, n >> 1),
    lower = n & 1 ? upper : largestBefore(n >> 1);
  if (!(step > 0)) return 0.5 * (lower + upper);
  const reach = 0.4999 * step;
  let below: i32 = 0,
    within: i32 = 0;
  for (let i = 0; i < n; i++) {
    const value = load<f64>(at(i));
    if (value < lower - reach) below++;
    else if (value <= lower + reach) within++;
  }
  if (2 * (below + within) == n) return 0.5 * (lower + upper);
  return lower + step * ((0.5 * <f64>n - <f64>below) / <f64>within - 0.5);
}

// Of many readings: how many count, the lowest and the highest; then counts of buckets, in FINE.
let many: i32 = 0;
let lowest: f64 = Infinity;
let highest: f64 = -Infinity;
let largestBelow: f64 = -Infinity;

export function beginMany(): void {
  many = 0;
  lowest = Infinity;
  highest = largestBelow = -Infinity;
}
export function manyCount(): i32 {
  return many;
}
export function manyLowest(): f64 {
  return lowest;
}
export function manyHighest(): f64 {
  return highest;
}
/** The largest reading of the buckets below the one that was taken out. */
export function manyBelow(): f64 {
  return largestBelow;
}

/** Distances of the readings in VALUES from those in TIMES take their place. */
export function takeDistances(count: i32): void {
  for (let p: usize = 0; p < (<usize>count) << 3; p += 8)
    store<f64>(VALUES + p, abs(load<f64>(VALUES + p) - load<f64>(TIMES + p)));
}

export function lookAtMany(count: i32): void {
  let n = many,
    least = lowest,
    most = highest;
  for (let i = 0; i < count; i++) {
    const value = load<f64>(at(i));
    if (value - value != 0) continue;
    n++;
    if (value < least) least = value;
    if (value > most) most = value;
  }
  many = n;
  lowest = least;
  highest = most;
}

export function countMany(count: i32, scale: f64): void {
  const least = lowest;
  for (let i = 0; i < count; i++) {
    const value = load<f64>(at(i));
    if (value - value != 0) continue;
    const place = FINE + ((<usize>(<i32>((value - least) * scale))) << 2);
    store<i32>(place, load<i32>(place) + 1);
  }
}

/** The readings of one bucket into RESULTS. @returns how many */
export function takeBucket(count: i32, scale: f64, bucket: i32): i32 {
  const least = lowest;
  let below = largestBelow,
    n: i32 = 0;
  for (let i = 0; i < count; i++) {
    const value = load<f64>(at(i));
    if (value - value != 0) continue;
    const its = <i32>((value - least) * scale);
    if (its < bucket) below = value > below ? value : below;
    else if (its == bucket) {
      store<f64>(RESULTS + ((<usize>n) << 3), value);
      n++;
    }
  }
  largestBelow = below;
  return n;
}

let under: i32 = 0;
/** Of {@link takeBetween}: the readings below the lower limit. */
export function manyUnder(): i32 {
  return under;
}
export function beginBetween(): void {
  many = under = 0;
}
/** Counts the readings in VALUES; those from one limit to the other go into RESULTS. @returns how many these are */
export function takeBetween(count: i32, least: f64, most: f64): i32 {
  let n = many,
    lower = under,
    taken: i32 = 0;
  for (let i = 0; i < count; i++) {
    const value = load<f64>(at(i));
    if (value - value != 0) continue;
    n++;
    lower += i32(value < least);
    // Written in any case, and written over by the next one where it is outside: there is no branch to guess.
    store<f64>(RESULTS + ((<usize>taken) << 3), value);
    taken += i32(value >= least) & i32(value <= most);
  }
  many = n;
  under = lower;
  return taken;
}
