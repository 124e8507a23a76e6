import { kendallVariance } from './mann-kendall.ts';
import { median } from './median.ts';
import { normalQuantile } from './normal.ts';
import { atRank } from './quantile.ts';

/** A robust slope with its interval by interpolated ranks. */
export interface TheilSen {
  /** Median of the slopes of all pairs. */
  slope: number;
  /** Median y less slope × median x. */
  intercept: number;
  /** Ends of the interval; null where there are too few pairs for the confidence asked for. */
  low: number | null;
  high: number | null;
  /** Pairs of different x. */
  pairs: number;
}

/**
 * Robust line: the median of the slopes between all pairs of points, with a distribution-free interval.
 * Source: USEPA, Unified Guidance (EPA 530/R-09-007, 2009), 17.3.3 and example 17-6: of N slopes, C = z √Var(S), the interval
 * goes from the rank (N − C)/2 to the rank (N + C)/2 + 1, by linear interpolation between neighbouring ranks.
 * @param x any order, same length as y
 * @param y NaN for no reading
 * @param options.confidence two-sided, default 0.95
 * @param options.widen factor on C for what serial correlation is left, 1 or more
 * @returns null below three points or without two different x
 * Cost: all pairs, n² log n; give it at most about 1,000 block medians.
 * @example theilSen([0, 1, 2, 3], [1, 3, 5, 70])?.slope // 2
 */
export function theilSen(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  options: { confidence?: number; widen?: number } = {},
): TheilSen | null {
  const keptX: number[] = [];
  const keptY: number[] = [];
  for (let i = 0; i < y.length; i++) {
    const xi = x[i] ?? NaN;
    const yi = y[i] ?? NaN;
    if (Number.isFinite(xi) && Number.isFinite(yi)) {
      keptX.push(xi);
      keptY.push(yi);
    }
  }
  const n = keptX.length;
  if (n < 3) return null;
  const slopes = new Float64Array((n * (n - 1)) / 2);
  let pairs = 0;
  for (let i = 1; i < n; i++) {
    const xi = keptX[i] ?? NaN;
    const yi = keptY[i] ?? NaN;
    for (let j = 0; j < i; j++) {
      const run = xi - (keptX[j] ?? NaN);
      if (run !== 0) slopes[pairs++] = (yi - (keptY[j] ?? NaN)) / run;
    }
  }
  if (pairs === 0) return null;
  const sorted = slopes.subarray(0, pairs).sort();
  const slope = atRank(sorted, (pairs + 1) / 2);
  const c =
    normalQuantile(0.5 + (options.confidence ?? 0.95) / 2) *
    Math.sqrt(kendallVariance(Float64Array.from(keptY))) *
    (options.widen ?? 1);
  const low = atRank(sorted, (pairs - c) / 2);
  const high = atRank(sorted, (pairs + c) / 2 + 1);
  const bounded = !Number.isNaN(low) && !Number.isNaN(high);
  return {
    slope,
    intercept: median(keptY) - slope * median(keptX),
    low: bounded ? low : null,
    high: bounded ? high : null,
    pairs,
  };
}
