import { sampleStandardDeviation as deviationOf } from 'simple-statistics';
import { finite } from './finite.ts';

/**
 * Mean of the readings, by Neumaier's compensated summation; without a copy, since whole channels come here.
 * @param values NaN for no reading
 * @returns NaN where there is none
 * @example mean([1, 2, NaN, 6]) // 3
 */
export function mean(values: ArrayLike<number>): number {
  let sum = 0;
  let lost = 0;
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i] ?? NaN;
    if (!Number.isFinite(value)) continue;
    const next = sum + value;
    lost += Math.abs(sum) >= Math.abs(value) ? sum - next + value : value - next + sum;
    sum = next;
    count++;
  }
  return count === 0 ? NaN : (sum + lost) / count;
}

/**
 * Sample standard deviation (n − 1 in the denominator) of the readings, in two passes.
 * @param values NaN for no reading
 * @returns NaN below two readings
 * @example sampleStandardDeviation([1, 2, 3]) // 1
 */
export function sampleStandardDeviation(values: ArrayLike<number>): number {
  const kept = finite(values);
  return kept.length < 2 ? NaN : deviationOf(kept);
}
