import { runningMean } from './running-mean.ts';
import { alongMedians, runningMedian } from './running-median.ts';
import { savitzkyGolay } from './savitzky-golay.ts';
import type { TimeGap } from './window.ts';

/** How readings are smoothed; the same shape as a spec writes it. */
export interface SmoothingChoice {
  method: 'median' | 'mean' | 'savitzky-golay' | 'none';
  window_s: number;
}

/** A window holds at least so many readings, however slowly the log was sampled. */
export const FEWEST_SAMPLES = 3;

/**
 * Readings smoothed for judging and drawing: windowed in seconds, centred, cut off at the ends, never reaching across a gap.
 * @param time_s never falls
 * @param values same length, NaN for no reading; not changed
 * @param smoothing the spec's, or the default: running median over 30 s
 * @param gaps in order
 * @param result where they go; a new array unless given
 * @returns it, one value a row, also at rows without a reading of their own if the window holds any; else NaN
 */
export function smooth(
  time_s: Float64Array,
  values: Float64Array,
  smoothing: SmoothingChoice,
  gaps: readonly TimeGap[],
  result?: Float64Array,
): Float64Array {
  const size = { width_s: smoothing.window_s, samples: FEWEST_SAMPLES };
  switch (smoothing.method) {
    case 'median':
      return runningMedian(time_s, values, gaps, size, result);
    case 'mean':
      return runningMean(time_s, values, gaps, size, result);
    case 'savitzky-golay':
      return savitzkyGolay(time_s, values, gaps, size, result);
    case 'none':
      if (result === undefined) return values.slice();
      result.set(values);
      return result;
  }
}

/**
 * The same some rows at a time, for a reader that needs no list of all: `over` gets rows `from` to before `to` and their smoothed values
 * from place 0 on, in a list that is used again and may be written to.
 */
export function alongSmoothed(
  time_s: Float64Array,
  values: Float64Array,
  smoothing: SmoothingChoice,
  gaps: readonly TimeGap[],
  over: (from: number, to: number, smoothed: Float64Array) => void,
): void {
  if (smoothing.method === 'median')
    alongMedians(time_s, values, gaps, { width_s: smoothing.window_s, samples: FEWEST_SAMPLES }, over);
  else over(0, values.length, smooth(time_s, values, smoothing, gaps));
}
