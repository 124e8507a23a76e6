import { alongWindows, type TimeGap, type WindowSize } from './window.ts';

/**
 * Mean of the readings within a centred window, for each row, by compensated summation. Ends, gaps and missing readings as in
 * the running median.
 * @param time_s never falls
 * @param values same length, NaN for no reading
 * @param result where the values go, one a row; a list of its own unless given
 * @returns one value a row; NaN where the window holds no reading
 * @example runningMean(Float64Array.of(0, 1, 2), Float64Array.of(1, 9, 2), [], { width_s: 2, samples: 3 }) // 5, 4, 5.5
 */
export function runningMean(
  time_s: Float64Array,
  values: Float64Array,
  gaps: readonly TimeGap[],
  size: WindowSize,
  result: Float64Array = new Float64Array(values.length),
): Float64Array {
  // Sums of differences from one reading: a constant comes out as itself, to the last bit.
  let base = NaN;
  let sum = 0;
  let lost = 0;
  let count = 0;
  let low = 0;
  let high = 0;
  const change = (row: number, sign: number): void => {
    const value = values[row] ?? NaN;
    if (Number.isNaN(value)) return;
    if (Number.isNaN(base)) base = value;
    const term = sign * (value - base);
    const next = sum + term;
    lost += Math.abs(sum) >= Math.abs(term) ? sum - next + term : term - next + sum;
    sum = next;
    count += sign;
  };
  alongWindows(time_s, gaps, size, (row, first, end) => {
    while (low < first && low < high) change(low++, -1);
    if (low < first) low = high = first;
    while (high < end) change(high++, 1);
    result[row] = count === 0 ? NaN : base + (sum + lost) / count;
  });
  return result;
}
