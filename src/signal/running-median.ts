import { withColumnKernels, type ColumnKernels } from '#kernels/column-kernels.ts';
import { BLOCK_ROWS } from '#statistics/in-blocks.ts';
import { alongKernelWindows, type Windowed } from './kernel-windows.ts';
import { levelsOf } from './levels.ts';
import { CountedWindow } from './median-window.ts';
import { MovingMedian } from './moving-median.ts';
import { alongBlocks, type TimeGap, type WindowSize } from './window.ts';

/**
 * Median of the readings within a centred window, for each row.
 * A window is cut off at the ends and at gaps; missing readings count for nothing.
 * @param time_s never falls
 * @param values same length, NaN for no reading
 * @param gaps in order; no window reaches across one
 * @param result where the values go, one a row; a list of its own unless given
 * @returns one value a row, also where the row itself has no reading; NaN where the window holds none
 * Cost: about n; without a decimal grid n × window in the worst case (a block move).
 * @example runningMedian(Float64Array.of(0, 1, 2), Float64Array.of(1, 9, 2), [], { width_s: 2, samples: 3 }) // 5, 2, 5.5
 */
export function runningMedian(
  time_s: Float64Array,
  values: Float64Array,
  gaps: readonly TimeGap[],
  size: WindowSize,
  result: Float64Array = new Float64Array(values.length),
): Float64Array {
  if (levelsOf(values) !== null) {
    alongMedians(time_s, values, gaps, size, (from, to, medians) =>
      result.set(medians.subarray(0, to - from), from),
    );
    return result;
  }
  const moving = new MovingMedian(time_s, values, gaps, size);
  for (let row = 0; row < result.length; row++) {
    moving.moveTo(row);
    result[row] = moving.window.median();
  }
  return result;
}

/** Gets rows `from` to before `to` and their medians from place 0 on, in a list that is used again and may be written to. */
type OverMedians = (from: number, to: number, medians: Float64Array) => void;

/** The same some rows at a time, in order, for a reader that needs no list of all. */
export function alongMedians(
  time_s: Float64Array,
  values: Float64Array,
  gaps: readonly TimeGap[],
  size: WindowSize,
  over: OverMedians,
): void {
  const levels = levelsOf(values);
  if (levels === null) return over(0, values.length, runningMedian(time_s, values, gaps, size));
  const windowed = { time_s, values, levels, gaps, size };
  const done = withColumnKernels(values.length, (kernels) => mediansByKernel(kernels, windowed, over)) ?? 0;
  if (done < values.length) mediansByScript(windowed, over, done);
}

/** @returns the row that it came to, as {@link alongKernelWindows} */
export function mediansByKernel(kernels: ColumnKernels, windowed: Windowed, over: OverMedians): number {
  return alongKernelWindows(kernels, windowed, false, (from, closed) => {
    const rows = kernels.nextMedians(closed, kernels.rows);
    if (rows > 0) over(from, from + rows, kernels.results);
    return rows;
  });
}

/** @param row to begin with */
export function mediansByScript(
  { time_s, values, levels, gaps, size }: Windowed,
  over: OverMedians,
  row: number,
): void {
  const window = new CountedWindow(levels),
    medians = new Float64Array(BLOCK_ROWS);
  alongBlocks(
    time_s,
    gaps,
    size,
    (from, to, first, end) => {
      window.slide(values, { from, to }, first, end, medians);
      over(from, to, medians);
    },
    row,
  );
}
