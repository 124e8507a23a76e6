import { mean } from './mean.ts';

/** A fitted straight line with standard errors. */
export interface Line {
  n: number;
  slope: number;
  intercept: number;
  slopeStandardError: number;
  interceptStandardError: number;
  /** Correlation of the two estimates. */
  correlation: number;
  residualSumOfSquares: number;
  /** √(residual sum of squares / (n − 2)). */
  residualStandardDeviation: number;
  degreesOfFreedom: number;
  meanX: number;
  meanY: number;
}

/**
 * Least-squares straight line with its standard errors, from deviations about the means.
 * Source: JCGM 100:2008, H.3.2, Eqs. (H.13a–f). Standard errors presume independent residuals.
 * @param x same length as y
 * @param y NaN for no reading
 * @returns null below three points or where all x are equal
 * @example fitLine([0, 1, 2], [1, 3, 5])?.slope // 2
 */
export function fitLine(x: ArrayLike<number>, y: ArrayLike<number>): Line | null {
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
  const meanX = mean(keptX);
  const meanY = mean(keptY);
  let xx = 0;
  let xy = 0;
  for (let i = 0; i < n; i++) {
    const dx = (keptX[i] ?? NaN) - meanX;
    xx += dx * dx;
    xy += dx * ((keptY[i] ?? NaN) - meanY);
  }
  if (!(xx > 0)) return null;
  const slope = xy / xx;
  const intercept = meanY - slope * meanX;
  let residualSumOfSquares = 0;
  for (let i = 0; i < n; i++) {
    const residual = (keptY[i] ?? NaN) - meanY - slope * ((keptX[i] ?? NaN) - meanX);
    residualSumOfSquares += residual * residual;
  }
  const degreesOfFreedom = n - 2;
  const s = Math.sqrt(residualSumOfSquares / degreesOfFreedom);
  const rootMeanSquareX = Math.sqrt(xx / n + meanX * meanX);
  return {
    n,
    slope,
    intercept,
    slopeStandardError: s / Math.sqrt(xx),
    interceptStandardError: (s * rootMeanSquareX) / Math.sqrt(xx),
    correlation: rootMeanSquareX > 0 ? -meanX / rootMeanSquareX : 0,
    residualSumOfSquares,
    residualStandardDeviation: s,
    degreesOfFreedom,
    meanX,
    meanY,
  };
}
