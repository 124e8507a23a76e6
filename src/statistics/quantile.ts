import { finite } from './finite.ts';

/**
 * Quantile with linear interpolation between order statistics: Hyndman and Fan's definition 7.
 * @param values unsorted, NaN for no reading
 * @param p 0 to 1
 * @returns NaN where there is no reading
 * @example quantile([1, 2, 3, 4], 0.25) // 1.75
 */
export function quantile(values: ArrayLike<number>, p: number): number {
  const sorted = Float64Array.from(finite(values)).sort();
  return atRank(sorted, p * (sorted.length - 1) + 1);
}

/**
 * The value at a rank that need not be whole, by linear interpolation.
 * @param sorted rising, no NaN
 * @param rank from 1 (smallest) to the length; beyond, NaN
 * @example atRank(Float64Array.of(10, 20), 1.25) // 12.5
 */
export function atRank(sorted: Float64Array, rank: number): number {
  if (!(rank >= 1 && rank <= sorted.length)) return NaN;
  const below = Math.floor(rank);
  const low = sorted[below - 1] ?? NaN;
  const share = rank - below;
  return share === 0 ? low : low + share * ((sorted[below] ?? NaN) - low);
}
