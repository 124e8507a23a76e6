import { countsOfRows, levelCounts, levelsOf, type Levels } from '#signal/levels.ts';
import { median } from '#statistics/median.ts';
import type { Rows } from './timeline.ts';

/** Fewer rows are quickly searched. */
const MANY_ROWS = 16_384;
/** So many levels a row cost more than the search. */
const MOST_LEVELS_A_ROW = 0.25;

/** Reading of a grid that has so many before it. @param counts readings at each level */
export function readingAt(levels: Levels, counts: Int32Array, place: number): number {
  let level = 0,
    before = counts[0] ?? 0;
  while (before <= place && level < counts.length) before += counts[++level] ?? 0;
  return levels.valueOf(level);
}

/** Middle of the readings that were counted, of which there are some. */
export function medianOfCounts(levels: Levels, counts: Int32Array, readings: number): number {
  const upper = readings >> 1,
    high = readingAt(levels, counts, upper);
  return readings % 2 === 1 ? high : (readingAt(levels, counts, upper - 1) + high) / 2;
}

/**
 * Median of some rows of a log's own column, or of its kept readings: those on a grid are counted, of nearly all rows by what the column's
 * counts have too much. The same number as {@link median} finds.
 * @param isWhole the column as it was read, whose counts are at hand or will be asked for
 * @returns NaN without a reading
 */
export function gridMedian(values: Float64Array, { from, to }: Rows, isWhole: boolean): number {
  const rows = to - from,
    levels = rows < MANY_ROWS ? null : levelsOf(values);
  if (levels === null || levels.count > MOST_LEVELS_A_ROW * rows) return median(values.subarray(from, to));
  const all = isWhole && 2 * rows > values.length ? levelCounts(values) : null;
  let counts: Int32Array;
  if (all === null) counts = countsOfRows(levels, values, { from, to });
  else {
    const before = countsOfRows(levels, values, { from: 0, to: from }),
      behind = countsOfRows(levels, values, { from: to, to: values.length });
    counts = all.map((count, level) => count - (before[level] ?? 0) - (behind[level] ?? 0));
  }
  let readings = 0;
  for (const count of counts) readings += count;
  return readings === 0 ? NaN : medianOfCounts(levels, counts, readings);
}
