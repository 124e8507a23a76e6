import { inPieces, withColumnKernels, type ColumnKernels } from '#kernels/column-kernels.ts';
import type { RowRange } from './hampel.ts';
import { alongKernelWindows, type Windowed } from './kernel-windows.ts';

/** A column whose rows each stand for the time to the next one, or for one usual interval where that is a gap or the log ends. */
export interface WeightedRows {
  /** Never falls; no two rows share a time. */
  readonly time_s: Float64Array;
  /** NaN for no reading: it does not count. */
  readonly values: Float64Array;
  readonly rows: readonly RowRange[];
  readonly usual_s: number;
  /** Intervals of so many seconds or more are gaps. */
  readonly gap_s: number;
}

/**
 * Weight and weighted sum of the differences from one reading, and the lowest and highest reading.
 * @returns null where there are no kernels, or too few rows: the caller's own loop gives the same bits then
 */
export function weightedSums(
  weighted: WeightedRows,
  reference: number,
): { weight: number; sum: number; min: number; max: number } | null {
  return alongRows(weighted, reference, (kernels) => ({
    add: (rows) => kernels.addWeighted(rows),
    found: () => ({
      weight: kernels.weightFound(),
      sum: kernels.weightedSumFound(),
      min: kernels.weightedLowest(),
      max: kernels.weightedHighest(),
    }),
  }));
}

/** Weight of all readings, of those above `most` and of those that are not but below `least`; null as above. */
export function weightedShares(
  weighted: WeightedRows,
  least: number,
  most: number,
): { total: number; above: number; below: number } | null {
  return alongRows(weighted, 0, (kernels) => {
    kernels.setBand(least, most);
    return {
      add: (rows) => kernels.addShares(rows),
      found: () => ({
        total: kernels.weightFound(),
        above: kernels.weightAbove(),
        below: kernels.weightBelow(),
      }),
    };
  });
}

/** Weight, weighted sum of the differences from the first, lowest and highest of running medians. */
export interface WeighedMedians {
  reference: number;
  weight: number;
  sum: number;
  min: number;
  max: number;
}

/**
 * The running medians (src/signal/running-median.ts) of some rows of a log by weight; only of rows that have a reading of their own.
 * @param weighted its values are of the rows `rows` alone, its times of the whole log
 * @returns null as above, and where the windows are not for kernels
 */
export function weightedMedians(
  { time_s, usual_s, gap_s }: Pick<WeightedRows, 'time_s' | 'usual_s' | 'gap_s'>,
  { from, to }: RowRange,
  windowed: Pick<Windowed, 'values' | 'levels' | 'gaps' | 'size'>,
): WeighedMedians | null {
  return withColumnKernels(to - from, (kernels) => {
    kernels.beginWeighted(usual_s, gap_s, NaN);
    const some = { ...windowed, time_s: time_s.subarray(from, to) };
    const done = alongKernelWindows(kernels, some, false, (first, closed) => {
      const rows = kernels.nextMedians(closed, kernels.rows);
      kernels.weighMedians(rows, time_s[from + first + rows] ?? NaN);
      return rows;
    });
    if (done < to - from) return null;
    return {
      reference: kernels.weightedReference(),
      weight: kernels.weightFound(),
      sum: kernels.weightedSumFound(),
      min: kernels.weightedLowest(),
      max: kernels.weightedHighest(),
    };
  });
}

/** Weight of the rows whose mark is one of two; null as above. */
export function weightOfMarked(
  { time_s, usual_s, gap_s }: Pick<WeightedRows, 'time_s' | 'usual_s' | 'gap_s'>,
  marks: Uint8Array,
  { from, to }: RowRange,
  [one, other]: readonly [number, number],
): number | null {
  return withColumnKernels(to - from, (kernels) => {
    kernels.beginWeighted(usual_s, gap_s, 0);
    inPieces(from, to, (first, end) => {
      putTimes(kernels, time_s, first, end);
      kernels.marks.set(marks.subarray(first, end));
      kernels.addMarked(end - first, one, other);
    });
    return kernels.weightFound();
  });
}

/** The times of some rows, and that of the row behind them. */
export function putTimes(kernels: ColumnKernels, time_s: Float64Array, from: number, to: number): void {
  kernels.times.set(time_s.subarray(from, to + 1));
  if (to === time_s.length) kernels.times[to - from] = NaN;
}

function alongRows<T>(
  { time_s, values, rows, usual_s, gap_s }: WeightedRows,
  reference: number,
  begin: (kernels: ColumnKernels) => { add: (rows: number) => void; found: () => T },
): T | null {
  const many = rows.reduce((sum, { from, to }) => sum + Math.max(0, to - from), 0);
  return withColumnKernels(many, (kernels) => {
    kernels.beginWeighted(usual_s, gap_s, reference);
    const { add, found } = begin(kernels);
    for (const piece of rows)
      inPieces(piece.from, piece.to, (from, to) => {
        putTimes(kernels, time_s, from, to);
        kernels.values.set(values.subarray(from, to));
        add(to - from);
      });
    return found();
  });
}
