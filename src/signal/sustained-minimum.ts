import { withColumnKernels, type ColumnKernels } from '#kernels/column-kernels.ts';
import { inBlocks } from '#statistics/in-blocks.ts';

/** Some rows of a column, and how long a value must last. */
export interface SustainedSearch {
  /** Never falls. */
  readonly time_s: Float64Array;
  /** NaN for no reading: passed over. */
  readonly values: Float64Array;
  /** The first row and the row after the last. */
  readonly from: number;
  readonly to: number;
  /** How long one reading stands for. */
  readonly interval_s: number;
  /** Readings so far apart do not count as together. */
  readonly gap_s: number;
  readonly atLeast_s: number;
}

/** What readings stay at or above. */
export interface SustainedMinimum {
  /** The highest value for `atLeast_s` together; −Infinity where no readings are together for so long. */
  best: number;
  /** The lowest reading; Infinity without one. */
  lowest: number;
}

/** Rows that the kernel's rings hold to begin with. */
const RING_ROWS = 4096;

/**
 * Largest of the sliding minima over a time, each reading standing for one interval, so that one reading in 15 min is a level by itself.
 * Cost: about n.
 * @example with readings 5, 4, 9, 9, 9, 1 a second apart and atLeast_s 3, best is 9
 */
export function sustainedMinimum(search: SustainedSearch): SustainedMinimum {
  const { from, to } = search;
  return (
    withColumnKernels(to - from, (kernels) => sustainedByKernel(kernels, search)) ?? sustainedByScript(search)
  );
}

/** @returns null where a window reaches over too many rows */
export function sustainedByKernel(kernels: ColumnKernels, search: SustainedSearch): SustainedMinimum | null {
  const { time_s, values, from: begin, to: end, interval_s, gap_s, atLeast_s } = search;
  kernels.beginSustained(interval_s, gap_s, atLeast_s, RING_ROWS);
  const most = RING_ROWS / 2;
  for (let from = begin; from < end; from += most) {
    const to = Math.min(from + most, end);
    kernels.times.set(time_s.subarray(from, to));
    kernels.values.set(values.subarray(from, to));
    if (!kernels.sustain(to - from)) return null;
  }
  return { best: kernels.sustainedBest(), lowest: kernels.sustainedLowest() };
}

/** The same for any window. */
export function sustainedByScript(search: SustainedSearch): SustainedMinimum {
  const all: Walk = {
    ...search,
    smallest: new Float64Array(64),
    base: search.from,
    middle: search.from,
    first: search.from,
    last: -1,
    newer: Infinity,
    best: -Infinity,
    lowest: Infinity,
  };
  inBlocks(search.from, search.to, (from, to) => walkOn(all, from, to));
  return { best: all.best, lowest: all.lowest };
}

/**
 * The walk along the rows. The window's minimum comes from two halves: of the rows before `middle` the minimum from each row on, of the
 * others one alone.
 */
interface Walk extends SustainedSearch {
  /** Of the rows from `base` to before `middle`. */
  smallest: Float64Array;
  base: number;
  middle: number;
  /** Of the others. */
  newer: number;
  /** The window's first row, and the last row with a value. */
  first: number;
  last: number;
  best: number;
  lowest: number;
}

/** Some rows more. */
function walkOn(all: Walk, from: number, to: number): void {
  const { values, time_s, interval_s, gap_s, atLeast_s } = all;
  let { smallest, base, middle, first, last, newer, best, lowest } = all;
  for (let i = from; i < to; i++) {
    const value = values[i] ?? NaN;
    if (value !== value) continue;
    const at_s = time_s[i] ?? NaN;
    if (last < 0 || at_s - (time_s[last] ?? NaN) >= gap_s) {
      first = middle = i;
      newer = Infinity;
    }
    last = i;
    if (value < lowest) lowest = value;
    if (value < newer) newer = value;
    // The row itself stands for one interval more.
    const end = at_s + interval_s;
    while (first < i && end - (time_s[first + 1] ?? NaN) >= atLeast_s) first++;
    if (first > middle) {
      const length = i + 1 - first;
      if (length > smallest.length) smallest = new Float64Array(2 * length);
      minimaFrom(values, first, i, smallest);
      base = first;
      middle = i + 1;
      newer = Infinity;
    }
    if (end - (time_s[first] ?? NaN) < atLeast_s) continue;
    const older = first < middle ? (smallest[first - base] ?? NaN) : Infinity;
    const least = older < newer ? older : newer;
    if (least > best) best = least;
  }
  all.smallest = smallest;
  all.base = base;
  all.middle = middle;
  all.first = first;
  all.last = last;
  all.newer = newer;
  all.best = best;
  all.lowest = lowest;
}

/** From each row of a stretch on, the smallest value up to its last row, into a list; a row without a value has that of the next. */
function minimaFrom(values: Float64Array, first: number, last: number, list: Float64Array): void {
  let least = Infinity;
  for (let row = last; row >= first; row--) {
    const value = values[row] ?? NaN;
    if (value < least) least = value;
    list[row - first] = least;
  }
}
