/** Coefficients of a least-squares fit, in the order of the columns, with standard errors and covariance. */
export interface LeastSquares {
  /** One a column of the design, in order. */
  coefficients: Float64Array;
  standardErrors: Float64Array;
  /** Row by row, columns × columns. */
  covariance: Float64Array;
  /** Observed less fitted; NaN where the observation or a regressor is missing. */
  residuals: Float64Array;
  residualSumOfSquares: number;
  residualStandardDeviation: number;
  degreesOfFreedom: number;
  /**
   * How many times larger the variance of a coefficient is for its column's leaning on the others: 1/(1 − R²) of that column
   * on the rest. NaN for a constant column. Means what it says where a constant column is in the design.
   */
  varianceInflation: Float64Array;
}

/** A column whose part at right angles to the earlier ones is shorter than this share of it says nothing of its own. */
const RANK_TOLERANCE = 1e-13;

/**
 * Linear least squares by Householder's orthogonal triangularisation, columns scaled to length 1 first.
 * Source: Golub & Van Loan, Matrix Computations, 5.3.2 (from memory); proved on NIST StRD Longley, Pontius and Filip.
 * Standard errors presume independent residuals of equal variance.
 * @param columns regressors, each as long as y; a constant is a column of ones
 * @param y NaN for no reading: that row is left out
 * @returns null with fewer rows than columns + 1, where a column is a combination of the others, or where its readings are so small
 * (1e-308) that its coefficient is beyond a double
 * Cost: rows × columns².
 * @example leastSquares([[1, 1, 1, 1], [0, 1, 2, 3]], [1, 3, 5, 7])?.coefficients // 1, 2
 */
export function leastSquares(
  columns: readonly ArrayLike<number>[],
  y: ArrayLike<number>,
): LeastSquares | null {
  const width = columns.length;
  const rows: number[] = [];
  for (let i = 0; i < y.length; i++) {
    let there = Number.isFinite(y[i] ?? NaN);
    for (const column of columns) there = there && Number.isFinite(column[i] ?? NaN);
    if (there) rows.push(i);
  }
  const n = rows.length;
  if (width === 0 || n < width + 1) return null;

  const scale = new Float64Array(width);
  const matrix = columns.map((column, j) => {
    const values = Float64Array.from(rows, (i) => column[i] ?? NaN);
    let largest = 0;
    for (const value of values) largest = Math.max(largest, Math.abs(value));
    let squares = 0;
    for (const value of values) squares += (value / largest) * (value / largest);
    scale[j] = largest > 0 ? largest * Math.sqrt(squares) : 0;
    const length = scale[j] ?? 0;
    return values.map((value) => value / length);
  });
  if (scale.some((length) => length === 0)) return null;
  const target = Float64Array.from(rows, (i) => y[i] ?? NaN);

  const upper = triangularise(matrix, target);
  if (!upper) return null;
  const scaled = solveUpper(upper, target.subarray(0, width));
  const coefficients = scaled.map((value, j) => value / (scale[j] ?? NaN));
  if (!coefficients.every(Number.isFinite)) return null;

  const residuals = new Float64Array(y.length).fill(NaN);
  let residualSumOfSquares = 0;
  for (const i of rows) {
    let residual = y[i] ?? NaN;
    for (let j = 0; j < width; j++) residual -= (coefficients[j] ?? NaN) * (columns[j]?.[i] ?? NaN);
    residuals[i] = residual;
    residualSumOfSquares += residual * residual;
  }
  const degreesOfFreedom = n - width;
  const s2 = residualSumOfSquares / degreesOfFreedom;

  // (RᵀR)⁻¹ from the inverse of R, column by column.
  const inverse = Array.from({ length: width }, (_, j) => {
    const unit = new Float64Array(width);
    unit[j] = 1;
    return solveUpper(upper, unit);
  });
  const covariance = new Float64Array(width * width);
  const varianceInflation = new Float64Array(width);
  for (let a = 0; a < width; a++) {
    for (let b = 0; b < width; b++) {
      let sum = 0;
      for (const column of inverse) sum += (column[a] ?? NaN) * (column[b] ?? NaN);
      covariance[a * width + b] = (s2 * sum) / ((scale[a] ?? NaN) * (scale[b] ?? NaN));
      if (a === b) varianceInflation[a] = inflation(columns[a] ?? [], rows, sum, scale[a] ?? NaN);
    }
  }
  const standardErrors = Float64Array.from({ length: width }, (_, j) =>
    Math.sqrt(covariance[j * width + j] ?? NaN),
  );
  return {
    coefficients,
    standardErrors,
    covariance,
    residuals,
    residualSumOfSquares,
    residualStandardDeviation: Math.sqrt(s2),
    degreesOfFreedom,
    varianceInflation,
  };
}

/** Sum of squares about the column's mean × its diagonal of (XᵀX)⁻¹. */
function inflation(
  column: ArrayLike<number>,
  rows: readonly number[],
  diagonal: number,
  scale: number,
): number {
  let sum = 0;
  for (const i of rows) sum += column[i] ?? NaN;
  const centre = sum / rows.length;
  let squares = 0;
  for (const i of rows) {
    const deviation = ((column[i] ?? NaN) - centre) / scale;
    squares += deviation * deviation;
  }
  return squares > 0 ? squares * diagonal : NaN;
}

/** Columns to upper triangular form in place, the same reflections applied to the target; rows of R, or null where rank is short. */
function triangularise(matrix: Float64Array[], target: Float64Array): Float64Array[] | null {
  const width = matrix.length;
  const n = target.length;
  const upper = Array.from({ length: width }, () => new Float64Array(width));
  for (let k = 0; k < width; k++) {
    const column = matrix[k] ?? new Float64Array(0);
    let squares = 0;
    for (let i = k; i < n; i++) squares += (column[i] ?? NaN) * (column[i] ?? NaN);
    const length = Math.sqrt(squares);
    if (!(length > RANK_TOLERANCE)) return null;
    const head = column[k] ?? NaN;
    const diagonal = head > 0 ? -length : length;
    // v = x − diagonal·e, and 2/(vᵀv) = 1/(diagonal·(diagonal − head)).
    column[k] = head - diagonal;
    const factor = 1 / (diagonal * (diagonal - head));
    const reflect = (vector: Float64Array): void => {
      let dot = 0;
      for (let i = k; i < n; i++) dot += (column[i] ?? NaN) * (vector[i] ?? NaN);
      dot *= factor;
      for (let i = k; i < n; i++) vector[i] = (vector[i] ?? NaN) - dot * (column[i] ?? NaN);
    };
    const row = upper[k];
    if (row) row[k] = diagonal;
    for (let j = k + 1; j < width; j++) {
      const other = matrix[j] ?? new Float64Array(0);
      reflect(other);
      if (row) row[j] = other[k] ?? NaN;
    }
    reflect(target);
  }
  return upper;
}

/** Solves R x = b for upper triangular R. */
function solveUpper(upper: readonly Float64Array[], b: ArrayLike<number>): Float64Array {
  const width = upper.length;
  const x = new Float64Array(width);
  for (let i = width - 1; i >= 0; i--) {
    const row = upper[i] ?? new Float64Array(0);
    let value = b[i] ?? NaN;
    for (let j = i + 1; j < width; j++) value -= (row[j] ?? NaN) * (x[j] ?? NaN);
    x[i] = value / (row[i] ?? NaN);
  }
  return x;
}
