// Rows of one column as they come, and a centred window in seconds whose readings are counted by level. A pointer stays at the level where
// the middle was found last and moves from there, as in src/signal/median-window.ts. A reading's level is worked out once, when its row
// comes; the rows in reach stay in rings.
import {
  DOUBTS,
  FINE,
  MARKS,
  MOST_REACH,
  OCCUPIED,
  OCCUPIED_BLOCKS,
  RESULTS,
  RING_BLOCKS,
  RING_HIGHEST,
  RING_LEVELS,
  RING_LOWEST,
  RING_TIMES,
  ROWS,
  TABLE,
  TIMES,
  VALUES,
} from './places';
import { keepWeighted, takeReference, weightedSumFound, weightFound, weightOf } from './weighted';

/** Levels in a block, and rows in one, as a power of two: the bits of a word. */
const BITS: i32 = 6;
const BLOCK: i32 = 1 << BITS;
const NO_LEVEL: i32 = -1;

/**
 * Added to a number of a size below 2^31 this leaves it, rounded to a whole one, in the low half of the sum's bits. It rounds halves to
 * even and the script rounds them up; readings on a grid are never near to a half.
 */
const TO_WHOLE: f64 = 6755399441055744.0;

// The grid: decimal (factor, and level 0 in steps from zero), else the lowest reading and the step.
let decimal: bool = true;
let factor: f64 = 1;
let base: i32 = 0;
let lowest: f64 = 0;
let step: f64 = 1;
let levels: i32 = 0;

export function setDecimalGrid(levelsAUnit: f64, levelZero: i32, count: i32): void {
  decimal = true;
  factor = levelsAUnit;
  base = levelZero;
  step = 1 / levelsAUnit;
  levels = count;
}
/** The readings at the levels stand in TABLE. */
export function setTableGrid(low: f64, apart: f64, count: i32): void {
  decimal = false;
  lowest = low;
  step = apart;
  levels = count;
}

function whole(x: f64): i32 {
  return <i32>reinterpret<i64>(x + TO_WHOLE);
}
function valueOf(level: i32): f64 {
  return decimal ? <f64>(level + base) / factor : load<f64>(TABLE + ((<usize>level) << 3));
}

/** Counts readings of VALUES by level; what is no reading is passed over. */
export function countLevels(count: i32): void {
  const isDecimal = decimal,
    f = factor,
    b = base,
    low = lowest,
    s = step;
  const end = VALUES + ((<usize>count) << 3);
  for (let p = VALUES; p < end; p += 8) {
    const value = load<f64>(p);
    if (value != value) continue;
    const level = isDecimal ? whole(value * f) - b : whole((value - low) / s);
    const place = FINE + ((<usize>level) << 2);
    store<i32>(place, load<i32>(place) + 1);
  }
}
/** Makes the counts zero again. */
export function clearCounts(): void {
  memory.fill(FINE, 0, (<usize>levels) << 2);
}

// The window. Rows count from the column's first.
let half_s: f64 = 0;
let side: i32 = 0;
/** One less than the length of the rings. */
let mask: i32 = 0;
/** Rows that came, and the row whose window is asked for next. */
let fed: i32 = 0;
let row: i32 = 0;
/** The stretch's first row; the first row within reach of `row` in time, and the row after the last. */
let start: i32 = 0;
let low: i32 = 0;
let high: i32 = 0;
/** Rows whose readings are counted. */
let from: i32 = 0;
let to: i32 = 0;
/** The level that the pointer is at, readings below it, and all. */
let k: i32 = 0;
let below: i32 = 0;
let size: i32 = 0;

/** Whether the extents of blocks are wanted. */
let extents: bool = false;

/**
 * @param half seconds on either side, `samplesAside` rows at least; what lies on the border belongs to it
 * @param ring rows that the rings hold to begin with, a power of two
 * @param spikes whether spikes are looked for, and not medians
 */
export function beginWindows(half: f64, samplesAside: i32, ring: i32, spikes: bool): void {
  extents = spikes;
  ahead = 0;
  half_s = half;
  side = samplesAside;
  mask = ring - 1;
  fed = row = start = low = high = from = to = 0;
  k = below = size = 0;
}

function timeAt(i: i32, m: i32): f64 {
  return load<f64>(RING_TIMES + ((<usize>(i & m)) << 3));
}
function levelAt(i: i32, m: i32): i32 {
  return load<i32>(RING_LEVELS + ((<usize>(i & m)) << 2));
}

/** Twice as long rings; each row that is still in reach has its place in the one half or the other. */
function widen(): void {
  const length = mask + 1;
  for (let i = from; i < fed; i++)
    if ((i & length) != 0) {
      const place = <usize>(i & mask),
        wide = place + <usize>length;
      store<f64>(RING_TIMES + (wide << 3), load<f64>(RING_TIMES + (place << 3)));
      store<i32>(RING_LEVELS + (wide << 2), load<i32>(RING_LEVELS + (place << 2)));
    }
  mask = (length << 1) - 1;
}

/**
 * Takes rows that stand in TIMES and VALUES from a place on.
 * @returns false where the window has come to reach over too many rows: nothing was taken then
 */
export function feedRows(place: i32, count: i32): bool {
  while (fed + count - from > mask + 1) {
    if (mask + 1 >= MOST_REACH) return false;
    widen();
  }
  const m = mask,
    isDecimal = decimal,
    f = factor,
    b = base,
    least = lowest,
    s = step,
    first = fed;
  let p = (<usize>place) << 3;
  for (let i = first; i < first + count; i++, p += 8) {
    store<f64>(RING_TIMES + ((<usize>(i & m)) << 3), load<f64>(TIMES + p));
    const value = load<f64>(VALUES + p);
    const level = value != value ? NO_LEVEL : isDecimal ? whole(value * f) - b : whole((value - least) / s);
    store<i32>(RING_LEVELS + ((<usize>(i & m)) << 2), level);
  }
  fed = first + count;
  if (extents) takeExtents(first, place, count);
  return true;
}

/** Lowest and highest reading of each block of rows, as far as they came; of none Infinity and −Infinity. */
function takeExtents(first: i32, place: i32, count: i32): void {
  let p = VALUES + ((<usize>place) << 3);
  for (let i = first; i < first + count;) {
    const at = (<usize>((i >> BITS) & (RING_BLOCKS - 1))) << 3;
    let least = i & (BLOCK - 1) ? load<f64>(RING_LOWEST + at) : Infinity,
      most = i & (BLOCK - 1) ? load<f64>(RING_HIGHEST + at) : -Infinity;
    const end = min((i | (BLOCK - 1)) + 1, first + count);
    for (; i < end; i++, p += 8) {
      const value = load<f64>(p);
      if (value < least) least = value;
      if (value > most) most = value;
    }
    store<f64>(RING_LOWEST + at, least);
    store<f64>(RING_HIGHEST + at, most);
  }
}

function countIn(level: i32): void {
  const fine = FINE + ((<usize>level) << 2),
    word = OCCUPIED + ((<usize>(level >> BITS)) << 3),
    bits = load<u64>(word);
  store<i32>(fine, load<i32>(fine) + 1);
  store<u64>(word, bits | ((<u64>1) << ((<u64>level) & 63)));
  if (bits == 0) markBlock(level >> BITS);
}
function countOut(level: i32): void {
  const fine = FINE + ((<usize>level) << 2),
    word = OCCUPIED + ((<usize>(level >> BITS)) << 3),
    left = load<i32>(fine) - 1,
    bits = load<u64>(word) & ~((<u64>i32(left == 0)) << ((<u64>level) & 63));
  store<i32>(fine, left);
  store<u64>(word, bits);
  if (bits == 0) unmarkBlock(level >> BITS);
}
function markBlock(block: i32): void {
  const word = OCCUPIED_BLOCKS + ((<usize>(block >> BITS)) << 3);
  store<u64>(word, load<u64>(word) | ((<u64>1) << ((<u64>block) & 63)));
}
function unmarkBlock(block: i32): void {
  const word = OCCUPIED_BLOCKS + ((<usize>(block >> BITS)) << 3);
  store<u64>(word, load<u64>(word) & ~((<u64>1) << ((<u64>block) & 63)));
}
function fineAt(level: i32): i32 {
  return load<i32>(FINE + ((<usize>level) << 2));
}

/** Bits of a word that stand above a place, the next one lowest; those below it, the next one highest. */
function bitsAbove(words: usize, place: i32): u64 {
  return (load<u64>(words + ((<usize>(place >> BITS)) << 3)) >> ((<u64>place) & 63)) >> 1;
}
function bitsBelow(words: usize, place: i32): u64 {
  return (load<u64>(words + ((<usize>(place >> BITS)) << 3)) << (63 - ((<u64>place) & 63))) << 1;
}
/** The next level above that holds a reading; there is one. */
function nextAbove(level: i32): i32 {
  let bits = bitsAbove(OCCUPIED, level);
  if (bits != 0) return level + 1 + <i32>ctz(bits);
  let block = level >> BITS;
  bits = bitsAbove(OCCUPIED_BLOCKS, block);
  if (bits != 0) block += 1 + <i32>ctz(bits);
  else {
    let group = (block >> BITS) + 1;
    while (load<u64>(OCCUPIED_BLOCKS + ((<usize>group) << 3)) == 0) group++;
    block = (group << BITS) + <i32>ctz(load<u64>(OCCUPIED_BLOCKS + ((<usize>group) << 3)));
  }
  return (block << BITS) + <i32>ctz(load<u64>(OCCUPIED + ((<usize>block) << 3)));
}
/** The next level below that holds a reading; there is one. */
function nextBelow(level: i32): i32 {
  let bits = bitsBelow(OCCUPIED, level);
  if (bits != 0) return level - 1 - <i32>clz(bits);
  let block = level >> BITS;
  bits = bitsBelow(OCCUPIED_BLOCKS, block);
  if (bits != 0) block -= 1 + <i32>clz(bits);
  else {
    let group = (block >> BITS) - 1;
    while (load<u64>(OCCUPIED_BLOCKS + ((<usize>group) << 3)) == 0) group--;
    block = (group << BITS) + 63 - <i32>clz(load<u64>(OCCUPIED_BLOCKS + ((<usize>group) << 3)));
  }
  return (block << BITS) + 63 - <i32>clz(load<u64>(OCCUPIED + ((<usize>block) << 3)));
}

/**
 * Moves the pointer to the level of the reading that has `rank` readings before it: from occupied level to occupied level, hence in not
 * more steps than readings came and went.
 * @param rank under `size`
 */
function seek(rank: i32): void {
  let at = k,
    under = below;
  while (under > rank) {
    at = nextBelow(at);
    under -= fineAt(at);
  }
  let here = fineAt(at);
  while (under + here <= rank) {
    under += here;
    at = nextAbove(at);
    here = fineAt(at);
  }
  k = at;
  below = under;
}

/** Median of a window that holds readings. */
function medianOfWindow(): f64 {
  const rank = (size - 1) >> 1;
  seek(rank);
  const value = valueOf(k);
  return (size & 1) == 1 || rank + 1 < below + fineAt(k) ? value : 0.5 * (value + valueOf(nextAbove(k)));
}

/**
 * Medians of the windows of the rows whose windows are known, into RESULTS; those of the next rows on the next call.
 * @param closed no further row belongs to this stretch
 * @param most rows, at most
 * @returns rows
 */
export function nextMedians(closed: bool, most: i32): i32 {
  const m = mask,
    half = half_s,
    aside = side,
    have = fed,
    began = start;
  let r = row,
    lo = low,
    hi = high,
    a = from,
    z = to,
    at = k,
    under = below,
    held = size;
  const until = r + most;
  let out = RESULTS;
  while (r < have && r < until) {
    const time = timeAt(r, m);
    while (time - timeAt(lo, m) > half) lo++;
    while (hi < have && timeAt(hi, m) - time <= half) hi++;
    let end = hi > r + aside + 1 ? hi : r + aside + 1;
    if (closed) {
      if (end > have) end = have;
    } else if (hi >= have || end > have) break;
    let first = lo < r - aside ? lo : r - aside;
    if (first < began) first = began;
    for (; a < first && a < z; a++) {
      const leaves = levelAt(a, m);
      if (leaves == NO_LEVEL) continue;
      countOut(leaves);
      held--;
      under -= <i32>(leaves < at);
    }
    if (a < first) a = z = first;
    for (; z < end; z++) {
      const comes = levelAt(z, m);
      if (comes == NO_LEVEL) continue;
      countIn(comes);
      held++;
      under += <i32>(comes < at);
    }
    let median = NaN;
    if (held > 0) {
      const rank = (held - 1) >> 1;
      const here = fineAt(at);
      if (under > rank || under + here <= rank) {
        // Mostly the middle moves on to a neighbour; nobody can guess to which, so there is no branch between the two.
        const over = bitsAbove(OCCUPIED, at),
          beneath = bitsBelow(OCCUPIED, at),
          up = (under + here - rank - 1) >> 31,
          down = ~up;
        if (((up & i32(over == 0)) | (down & i32(beneath == 0))) == 0) {
          at += ((1 + <i32>ctz(over)) & up) - ((1 + <i32>clz(beneath)) & down);
          under += (here & up) - (fineAt(at) & down);
        }
        if (under > rank || under + fineAt(at) <= rank) {
          k = at;
          below = under;
          seek(rank);
          at = k;
          under = below;
        }
      }
      median = valueOf(at);
      if ((held & 1) == 0 && rank + 1 >= under + fineAt(at)) median = 0.5 * (median + valueOf(nextAbove(at)));
    }
    store<f64>(out, median);
    out += 8;
    r++;
  }
  const done = r - row;
  row = r;
  low = lo;
  high = hi;
  from = a;
  to = z;
  k = at;
  below = under;
  size = held;
  return done;
}

/**
 * Adds the medians in RESULTS, those of the last rows that {@link nextMedians} did, to the sums by weight of kernels/weighted.ts; only of
 * rows that have a reading of their own.
 * @param next_s time of the row behind those that were fed, for the last of them; NaN for none
 */
export function weighMedians(count: i32, next_s: f64): void {
  const m = mask,
    have = fed,
    first = row - count;
  let all = weightFound(),
    total = weightedSumFound(),
    from = NaN,
    low = Infinity,
    high = -Infinity;
  for (let r = first; r < row; r++) {
    if (levelAt(r, m) == NO_LEVEL) continue;
    const value = load<f64>(RESULTS + ((<usize>(r - first)) << 3));
    if (from != from) from = takeReference(value);
    const w = weightOf((r + 1 < have ? timeAt(r + 1, m) : next_s) - timeAt(r, m));
    all += w;
    total += w * (value - from);
    if (value < low) low = value;
    if (value > high) high = value;
  }
  keepWeighted(all, total, low, high);
}

// Spikes. src/signal/hampel.ts says which readings are.
/** The row after the last within reach of the last row that was looked at. */
let ahead: i32 = 0;
let threshold: f64 = 6;
let floor_: f64 = 0;
let spikes: i32 = 0;
let doubts: i32 = 0;
/** With fewer readings in the window nothing is tested. */
const FEWEST: i32 = 5;

/** @param scales the threshold in median absolute deviations @param least distance that every spike is further away than */
export function setSpikes(scales: f64, least: f64): void {
  threshold = scales;
  floor_ = least;
}
/** Of the last call: readings that are spikes, and those that the script decides on. */
export function spikesFound(): i32 {
  return spikes;
}
export function doubtsFound(): i32 {
  return doubts;
}

/**
 * A byte for each of the next rows whose windows are known into MARKS, 1 for a spike; doubtful ones into DOUBTS, the medians of their
 * windows into RESULTS.
 * @param closed no further row belongs to this stretch
 * @param most rows, at most; 64 or more
 * @returns rows
 */
export function nextSpikes(closed: bool, most: i32): i32 {
  const m = mask,
    half = half_s,
    began = row,
    have = fed;
  spikes = doubts = 0;
  while (row < have) {
    let end = (row | (BLOCK - 1)) + 1;
    if (end > have) {
      if (!closed) break;
      end = have;
    }
    if (end - began > most) break;
    const reached = ahead,
      last = timeAt(end - 1, m);
    let hi = reached;
    while (hi < have && timeAt(hi, m) - last <= half) hi++;
    let until = max(hi, end + side);
    if (closed) until = min(until, have);
    else if (hi >= have || until > have) break;
    ahead = hi;
    const time = timeAt(row, m);
    let lo = low;
    while (time - timeAt(lo, m) > half) lo++;
    low = lo;
    if (high < reached) high = reached;
    let least = Infinity,
      highest = -Infinity;
    const first = max(start, min(lo, row - side));
    for (let b = first >> BITS; b <= (until - 1) >> BITS; b++) {
      const at = (<usize>(b & (RING_BLOCKS - 1))) << 3;
      least = min(least, load<f64>(RING_LOWEST + at));
      highest = max(highest, load<f64>(RING_HIGHEST + at));
    }
    memory.fill(MARKS + <usize>(row - began), 0, <usize>(end - row));
    // The median of any of these windows lies in between: a reading that is near to both is near to it.
    const tested = highest - least > floor_;
    if (!tested || to <= first) {
      forgetWindow();
      from = to = first;
    }
    if (tested) testRows(end, closed, least, highest, began);
    row = end;
  }
  return row - began;
}

/** Looks for spikes from `row` to before `end`. @param began the row at place 0 of the marks */
function testRows(end: i32, closed: bool, least: f64, highest: f64, began: i32): void {
  for (let r = row; r < end; r++) {
    const level = levelAt(r, mask);
    if (level == NO_LEVEL) continue;
    const value = valueOf(level);
    if (!(value - least > floor_ || highest - value > floor_)) continue;
    moveWindow(r, closed);
    const found = kindOf(value);
    if (found == SPIKE) {
      store<u8>(MARKS + <usize>(r - began), 1);
      spikes++;
    } else if (found == DOUBTFUL) {
      const place = DOUBTS + ((<usize>doubts) << 2);
      store<i32>(place, r);
      store<i32>(place + 4 * ROWS, from);
      store<i32>(place + 8 * ROWS, to);
      store<f64>(RESULTS + ((<usize>doubts) << 3), middle);
      doubts++;
    }
  }
}

/** Takes all readings out of the counts. */
function forgetWindow(): void {
  for (let i = from; i < to; i++) {
    const level = levelAt(i, mask);
    if (level != NO_LEVEL) countOut(level);
  }
  below = size = 0;
}

/** Moves the window to a row, and the pointer to its median. */
function moveWindow(r: i32, closed: bool): void {
  const m = mask,
    half = half_s,
    have = fed,
    time = timeAt(r, m);
  let lo = low,
    hi = high;
  while (time - timeAt(lo, m) > half) lo++;
  while (hi < have && timeAt(hi, m) - time <= half) hi++;
  low = lo;
  high = hi;
  const end = closed ? min(have, max(hi, r + side + 1)) : max(hi, r + side + 1),
    first = max(start, min(lo, r - side));
  let at = k,
    under = below,
    held = size,
    a = from,
    z = to;
  for (; a < first && a < z; a++) {
    const level = levelAt(a, m);
    if (level == NO_LEVEL) continue;
    countOut(level);
    held--;
    under -= <i32>(level < at);
  }
  if (a < first) a = z = first;
  for (; z < end; z++) {
    const level = levelAt(z, m);
    if (level == NO_LEVEL) continue;
    countIn(level);
    held++;
    under += <i32>(level < at);
  }
  from = a;
  to = z;
  k = at;
  below = under;
  size = held;
}

/** Median of the window that {@link kindOf} was last asked for. */
let middle: f64 = 0;
const PLAIN: i32 = 0;
const SPIKE: i32 = 1;
const DOUBTFUL: i32 = 2;

/** What a reading is whose window is there, as src/signal/hampel.ts has it. */
function kindOf(value: f64): i32 {
  if (size < FEWEST) return PLAIN;
  middle = medianOfWindow();
  const distance = abs(value - middle);
  if (!(distance > floor_)) return PLAIN;
  const least = distance / threshold,
    sure = least * (1 - 1e-9),
    possible = least * (1 + 1e-9),
    half = <f64>size / 2;
  if (<f64>atMostNear(middle, possible) < half) return PLAIN;
  let near: i32 = 0,
    maybe: i32 = 0;
  for (let i = from; i < to; i++) {
    const level = levelAt(i, mask);
    if (level == NO_LEVEL) continue;
    const deviation = abs(valueOf(level) - middle);
    if (deviation < possible) {
      maybe++;
      if (deviation < sure) near++;
    }
    if (<f64>near > half) return SPIKE;
  }
  return <f64>maybe >= half ? DOUBTFUL : PLAIN;
}

/** Readings nearer to a value than a distance; may count a few too many at the border, never too few. */
function atMostNear(centre: f64, distance: f64): i32 {
  const at = (centre - valueOf(0)) / step,
    reach = distance / step + 1e-3,
    last = <i32>min<f64>(<f64>(levels - 1), floor(at + reach));
  const level = <i32>max<f64>(0, ceil(at - reach));
  let sum: i32 = 0;
  for (let block = level >> BITS; block <= last >> BITS; block++) {
    let bits = load<u64>(OCCUPIED + ((<usize>block) << 3));
    if (block == level >> BITS) bits &= (<u64>-1) << ((<u64>level) & 63);
    if (block == last >> BITS) bits &= (<u64>-1) >> (63 - ((<u64>last) & 63));
    for (; bits != 0; bits &= bits - 1) sum += fineAt((block << BITS) + <i32>ctz(bits));
  }
  return sum;
}

/** The next row that comes begins a new stretch, and none is left of this one: the counts are zero again. */
export function endStretch(): void {
  forgetWindow();
  start = row = low = high = ahead = from = to = fed;
}
