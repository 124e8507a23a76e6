import { exp } from './elementary.ts';
import { fitLine } from './fit-line.ts';
import { lagOneCorrelation, serialWidening } from './lag-one-correlation.ts';

/** Result of Pettitt's test (Applied Statistics 28, 1979). */
export interface Pettitt {
  /** U_k where it is largest, with its sign: positive where the values before the change lie higher. */
  u: number;
  /** Number of values before the change. */
  index: number;
  /** Two-sided, approximate: 2 exp(−6 K² / (n³ + n²)), held to at most 1. */
  probability: number;
}

/**
 * Pettitt's test for one change of level, by ranks.
 * Source: Pettitt (1979), Applied Statistics 28, 126–135: U_k = 2 Σ rᵢ − k(n + 1), K = max |U_k|; the approximation of the
 * probability is good up to 0.5. Presumes independent values; `widen` divides K, as it would a z.
 * @param values in order of time, NaN left out (positions count what is left)
 * @param options.widen 1 or more ({@link serialWidening} of what is left when the two means are taken off)
 * @returns null below four values
 * @example pettitt([1, 2, 1, 2, 8, 9, 8, 9])?.index // 4
 */
export function pettitt(values: ArrayLike<number>, options: { widen?: number } = {}): Pettitt | null {
  const y = Float64Array.from(values).filter((value) => Number.isFinite(value));
  const n = y.length;
  if (n < 4) return null;
  const ranks = midRanks(y);
  let sum = 0;
  let u = 0;
  let index = 0;
  for (let k = 1; k < n; k++) {
    sum += ranks[k - 1] ?? NaN;
    const here = 2 * sum - k * (n + 1);
    if (Math.abs(here) > Math.abs(u)) {
      u = here;
      index = k;
    }
  }
  const k = Math.abs(u) / (options.widen ?? 1);
  return { u, index, probability: Math.min(1, 2 * exp((-6 * k * k) / (n * n * n + n * n))) };
}

/** Rank of each value from 1, ties sharing the mean of their ranks. */
function midRanks(y: Float64Array): Float64Array {
  const order = Array.from(y.keys()).sort((a, b) => (y[a] ?? NaN) - (y[b] ?? NaN));
  const ranks = new Float64Array(y.length);
  let start = 0;
  for (let i = 1; i <= order.length; i++)
    if (i === order.length || y[order[i] ?? 0] !== y[order[start] ?? 0]) {
      for (let j = start; j < i; j++) ranks[order[j] ?? 0] = (start + i + 1) / 2;
      start = i;
    }
  return ranks;
}

/** One shift of the mean: where, and the means on either side. */
export interface MeanShift {
  /** Number of values before the change. */
  index: number;
  before: number;
  after: number;
  /** Of the two means, of one mean, and of a straight line over the positions. */
  residualSumOfSquares: number;
  oneMeanSumOfSquares: number;
  lineSumOfSquares: number;
  /** Lag-one correlation of what is left when the two means are taken off. */
  residualLagOne: number;
}

/**
 * The one change of level that leaves the least sum of squares: exact, every place is tried.
 * @param values in order of time, NaN left out (positions count what is left)
 * @param options.atLeast values on either side of the change, default 2
 * @returns null where there are too few values
 * @example meanShift([1, 1, 1, 5, 5])?.index // 3
 */
export function meanShift(values: ArrayLike<number>, options: { atLeast?: number } = {}): MeanShift | null {
  const y = Float64Array.from(values).filter((value) => Number.isFinite(value));
  const n = y.length;
  const atLeast = options.atLeast ?? 2;
  if (n < 2 * atLeast || n < 4) return null;
  let total = 0;
  for (const value of y) total += value;
  const centre = total / n;
  let sum = 0;
  let best = -1;
  let index = 0;
  for (let k = 1; k < n; k++) {
    sum += (y[k - 1] ?? NaN) - centre;
    // Sum of squares between the two parts: S_k² n / (k (n − k)) with S_k the running sum of deviations.
    const between = (sum * sum * n) / (k * (n - k));
    if (k >= atLeast && n - k >= atLeast && between > best) {
      best = between;
      index = k;
    }
  }
  const meanOf = (from: number, to: number): number => {
    let part = 0;
    for (let i = from; i < to; i++) part += (y[i] ?? NaN) - centre;
    return centre + part / (to - from);
  };
  const before = meanOf(0, index);
  const after = meanOf(index, n);
  const residuals = y.map((value, i) => value - (i < index ? before : after));
  const squares = (list: Float64Array): number => {
    let result = 0;
    for (const value of list) result += value * value;
    return result;
  };
  const line = fitLine(Array.from(y.keys()), y);
  return {
    index,
    before,
    after,
    residualSumOfSquares: squares(residuals),
    oneMeanSumOfSquares: squares(y.map((value) => value - centre)),
    lineSumOfSquares: line?.residualSumOfSquares ?? NaN,
    residualLagOne: lagOneCorrelation(residuals),
  };
}

/** A shift of the mean with its significance under serial correlation. */
export interface ChangePoint extends MeanShift {
  /** Of Pettitt's test at the widened scale. */
  probability: number;
}

/**
 * A step of the level that stays, told from chance and from a slope.
 * The place is that of {@link meanShift}; it counts where Pettitt's test, widened by the correlation that the residuals of the
 * two means still have, stays at or under `significance`, and where two means fit better than a straight line.
 * @param values block medians in order of time (raw samples are too alike), NaN left out
 * @param options.significance default 0.01: a run has many chances for one
 * @param options.atLeast values on either side, default 3
 * @returns null where no step was found
 * @example changePoint([1, 2, 1, 2, 1, 2, 1, 2, 1, 2, 9, 8, 9, 8, 9, 8, 9, 8, 9, 8])?.index // 10
 */
export function changePoint(
  values: ArrayLike<number>,
  options: { significance?: number; atLeast?: number } = {},
): ChangePoint | null {
  const shift = meanShift(values, { atLeast: options.atLeast ?? 3 });
  if (!shift) return null;
  const test = pettitt(values, { widen: serialWidening(shift.residualLagOne) });
  if (!test || test.probability > (options.significance ?? 0.01)) return null;
  if (!(shift.residualSumOfSquares < shift.lineSumOfSquares)) return null;
  return { ...shift, probability: test.probability };
}
