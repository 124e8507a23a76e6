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
  const width = columns.length,
    rows = rowsThere(columns, y),
    n = rows.length;
  if (width === 0 || n < width + 1) return null;

  const scale = new Float64Array(width);
  const matrix = columns.map((column, j) => {
    const values = someOf(column, rows),
      length = lengthOf(values);
    scale[j] = length;
    divide(values, length);
    return values;
  });
  if (scale.some((length) => length === 0)) return null;
  const target = someOf(y, rows);

  const upper = triangularise(matrix, target);
  if (!upper) return null;
  const scaled = solveUpper(upper, target.subarray(0, width));
  const coefficients = scaled.map((value, j) => value / (scale[j] ?? NaN));
  if (!coefficients.every(Number.isFinite)) return null;

  const residuals = new Float64Array(y.length).fill(NaN);
  const residualSumOfSquares = leaveResiduals(residuals, { columns, y, coefficients, rows });
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

// Each loop over the rows stands in a function of its own: an engine then compiles that, and not the whole fit around it.

/** Rows where the observation and every regressor are numbers. */
function rowsThere(columns: readonly ArrayLike<number>[], y: ArrayLike<number>): Int32Array {
  const rows = new Int32Array(y.length);
  let n = 0;
  for (let i = 0; i < y.length; i++) {
    let there = Number.isFinite(y[i] ?? NaN);
    for (let j = 0; there && j < columns.length; j++) there = Number.isFinite(columns[j]?.[i] ?? NaN);
    if (there) rows[n++] = i;
  }
  return rows.subarray(0, n);
}

function someOf(column: ArrayLike<number>, rows: Int32Array): Float64Array {
  const values = new Float64Array(rows.length);
  for (let k = 0; k < rows.length; k++) values[k] = column[rows[k] ?? 0] ?? NaN;
  return values;
}

/** Euclidean length, without overflow on the way. */
function lengthOf(values: Float64Array): number {
  let largest = 0;
  for (let i = 0; i < values.length; i++) largest = Math.max(largest, Math.abs(values[i] ?? NaN));
  let squares = 0;
  for (let i = 0; i < values.length; i++) {
    const share = (values[i] ?? NaN) / largest;
    squares += share * share;
  }
  return largest > 0 ? largest * Math.sqrt(squares) : 0;
}

function divide(values: Float64Array, by: number): void {
  for (let i = 0; i < values.length; i++) values[i] = (values[i] ?? NaN) / by;
}

/** Writes the residuals and adds their squares up. */
function leaveResiduals(
  residuals: Float64Array,
  {
    columns,
    y,
    coefficients,
    rows,
  }: {
    columns: readonly ArrayLike<number>[];
    y: ArrayLike<number>;
    coefficients: Float64Array;
    rows: Int32Array;
  },
): number {
  let sumOfSquares = 0;
  for (let k = 0; k < rows.length; k++) {
    const i = rows[k] ?? 0;
    let residual = y[i] ?? NaN;
    for (let j = 0; j < columns.length; j++) residual -= (coefficients[j] ?? NaN) * (columns[j]?.[i] ?? NaN);
    residuals[i] = residual;
    sumOfSquares += residual * residual;
  }
  return sumOfSquares;
}

/** Sum of squares about the column's mean × its diagonal of (XᵀX)⁻¹. */
function inflation(column: ArrayLike<number>, rows: Int32Array, diagonal: number, scale: number): number {
  let sum = 0;
  for (let k = 0; k < rows.length; k++) sum += column[rows[k] ?? 0] ?? NaN;
  const centre = sum / rows.length;
  let squares = 0;
  for (let k = 0; k < rows.length; k++) {
    const deviation = ((column[rows[k] ?? 0] ?? NaN) - centre) / scale;
    squares += deviation * deviation;
  }
  return squares > 0 ? squares * diagonal : NaN;
}

/** Columns to upper triangular form in place, the same reflections applied to the target; rows of R, or null where rank is short. */
function triangularise(matrix: Float64Array[], target: Float64Array): Float64Array[] | null {
  const width = matrix.length;
  const upper = Array.from({ length: width }, () => new Float64Array(width));
  for (let k = 0; k < width; k++) {
    const column = matrix[k] ?? new Float64Array(0);
    const length = Math.sqrt(squaresFrom(column, k));
    if (!(length > RANK_TOLERANCE)) return null;
    const head = column[k] ?? NaN;
    const diagonal = head > 0 ? -length : length;
    // v = x − diagonal·e, and 2/(vᵀv) = 1/(diagonal·(diagonal − head)).
    column[k] = head - diagonal;
    const factor = 1 / (diagonal * (diagonal - head));
    const row = upper[k];
    if (row) row[k] = diagonal;
    for (let j = k + 1; j < width; j++) {
      const other = matrix[j] ?? new Float64Array(0);
      reflect(other, column, k, factor);
      if (row) row[j] = other[k] ?? NaN;
    }
    reflect(target, column, k, factor);
  }
  return upper;
}

function squaresFrom(column: Float64Array, from: number): number {
  let squares = 0;
  for (let i = from; i < column.length; i++) squares += (column[i] ?? NaN) * (column[i] ?? NaN);
  return squares;
}

/** Takes from a vector its part along a column, twice: from a row on. */
function reflect(vector: Float64Array, column: Float64Array, from: number, factor: number): void {
  let dot = 0;
  for (let i = from; i < column.length; i++) dot += (column[i] ?? NaN) * (vector[i] ?? NaN);
  dot *= factor;
  for (let i = from; i < column.length; i++) vector[i] = (vector[i] ?? NaN) - dot * (column[i] ?? NaN);
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
