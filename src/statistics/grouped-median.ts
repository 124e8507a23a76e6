import { largestBefore, packed, selected } from './selection.ts';

/**
 * Median of readings that a display or a logger has rounded to steps: where within its step the middle lies is told from how many
 * readings the step holds (the median of grouped data, as in any textbook of statistics: L + (n/2 − F)/f · step).
 * The plain median of rounded readings is itself one of the steps, and a drift slower than the steps hides in it.
 * @param values unsorted, NaN for no reading
 * @param step 0 or more; 0 gives the plain median
 * @returns NaN where there is no reading
 * @example groupedMedian([4, 4, 4, 5], 1) // 4.1666…: the step from 3.5 to 4.5 holds three of four, half of all is two thirds of those
 */
export function groupedMedian(values: ArrayLike<number>, step: number): number {
  const kept = packed(values);
  const n = kept.length;
  if (n === 0) return NaN;
  const upper = selected(kept, n >> 1);
  const lower = n % 2 === 1 ? upper : largestBefore(kept, n >> 1);
  if (!(step > 0)) return 0.5 * (lower + upper);
  // A little less than half a step to either side: readings converted to another unit are steps only nearly.
  const reach = 0.4999 * step;
  let below = 0;
  let within = 0;
  for (let i = 0; i < n; i++) {
    const value = kept[i] ?? NaN;
    if (value < lower - reach) below++;
    else if (value <= lower + reach) within++;
  }
  // Half of the readings end with this step: the middle lies between it and the next reading.
  if (2 * (below + within) === n) return 0.5 * (lower + upper);
  return lower + step * ((0.5 * n - below) / within - 0.5);
}
