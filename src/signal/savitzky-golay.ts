import { alongWindows, type TimeGap, type WindowSize } from './window.ts';

/** With fewer readings in the window a parabola follows the noise: their mean is taken. */
const FEWEST = 5;

/**
 * Savitzky–Golay smoothing: the value, at the row, of the least-squares parabola through the window's readings.
 * On evenly spaced readings these are the published weights for degrees 2 and 3, e.g. (−3, 12, 17, 12, −3)/35. Uneven spacing and
 * missing readings are allowed for, since the parabola is fitted to the times that are there. Ends and gaps: the parabola is
 * fitted to what is left of the window and read off at the row (no padding, no readings invented).
 * @param time_s never falls
 * @param values same length, NaN for no reading
 * @param result where the values go, one a row; a list of its own unless given
 * @returns one value a row; NaN where the window holds no reading
 * Cost: about n: sums are carried along, and begun anew every half window so that nothing piles up.
 */
export function savitzkyGolay(
  time_s: Float64Array,
  values: Float64Array,
  gaps: readonly TimeGap[],
  size: WindowSize,
  result: Float64Array = new Float64Array(values.length),
): Float64Array {
  const n = values.length;
  let until = 0;
  let low = 0;
  let high = 0;
  let base = NaN;
  let origin_s = 0;
  let scale = 1;
  let s0 = 0,
    s1 = 0,
    s2 = 0,
    s3 = 0,
    s4 = 0;
  let y0 = 0,
    y1 = 0,
    y2 = 0;
  const clear = (): void => {
    base = NaN;
    s0 = s1 = s2 = s3 = s4 = y0 = y1 = y2 = 0;
  };
  const change = (i: number, sign: number): void => {
    const value = values[i] ?? NaN;
    if (Number.isNaN(value)) return;
    if (Number.isNaN(base)) base = value;
    const u = ((time_s[i] ?? NaN) - origin_s) * scale;
    const uu = u * u;
    const y = sign * (value - base);
    s0 += sign;
    s1 += sign * u;
    s2 += sign * uu;
    s3 += sign * uu * u;
    s4 += sign * uu * uu;
    y0 += y;
    y1 += y * u;
    y2 += y * uu;
  };
  /** Sums anew about a row: the next half window of rows shares them, so that their origin is never far from any of them. */
  const begin = (row: number, first: number, end: number): void => {
    clear();
    low = high = first;
    until = Math.min(n, row + Math.max(1, (end - first) >> 1));
    // Within the window: a row beyond a gap would be far away.
    origin_s = time_s[Math.min((row + until) >> 1, end - 1)] ?? NaN;
    const width_s = (time_s[end - 1] ?? NaN) - (time_s[first] ?? NaN);
    scale = width_s > 0 ? 2 / width_s : 1;
  };
  alongWindows(time_s, gaps, size, (row, first, end) => {
    if (row >= until || first >= high) begin(row, first, end);
    while (low < first) change(low++, -1);
    while (high < end) change(high++, 1);
    if (s0 === 0) {
      clear();
      result[row] = NaN;
      return;
    }
    if (s0 < FEWEST) {
      result[row] = base + y0 / s0;
      return;
    }
    // Moments about the row itself, then the constant of the parabola by Cramer's rule.
    const c = ((time_s[row] ?? NaN) - origin_s) * scale;
    const m1 = s1 - c * s0;
    const m2 = s2 - c * (2 * s1 - c * s0);
    const m3 = s3 - c * (3 * s2 - c * (3 * s1 - c * s0));
    const m4 = s4 - c * (4 * s3 - c * (6 * s2 - c * (4 * s1 - c * s0)));
    const z1 = y1 - c * y0;
    const z2 = y2 - c * (2 * y1 - c * y0);
    const a = m2 * m4 - m3 * m3;
    const b = m2 * m3 - m1 * m4;
    const d = m1 * m3 - m2 * m2;
    const determinant = s0 * a + m1 * b + m2 * d;
    // Not above: readings at fewer than three different times.
    result[row] =
      determinant > 1e-12 * s0 * m2 * m4 ? base + (y0 * a + z1 * b + z2 * d) / determinant : base + y0 / s0;
  });
  return result;
}
