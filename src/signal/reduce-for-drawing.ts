import { stretchBorders, type TimeGap } from './window.ts';

/** The rows, times and device columns of a drawing. */
export interface DrawingRange {
  /** Rows from … to (the second not included). */
  from: number;
  to: number;
  /** Times at the left and right edge of the drawing, and the device columns between them. */
  start_s: number;
  end_s: number;
  columns: number;
  gaps?: readonly TimeGap[];
}
/** A line to be drawn, with NaN where it breaks. */
export interface ReducedLine {
  time_s: Float64Array;
  values: Float64Array;
}

/** Column of a time, held to the drawing: what lies outside falls into its outermost columns. */
function columnAt(at_s: number, { start_s, end_s, columns }: DrawingRange): number {
  const column = Math.floor(((at_s - start_s) / (end_s - start_s)) * columns);
  return Math.min(columns - 1, Math.max(0, column));
}

/**
 * At most four points a device column: first, lowest, highest, last, in order of time. A line through them paints the same
 * pixels as a line through all (Jugel et al., PVLDB 7, 2014: abstract). For drawing alone: nothing is judged on it.
 * A run of missing readings, or a gap, breaks the line with one NaN.
 * @param time_s never falls
 * @param values same length, NaN for no reading
 * @param range to − from rows are looked at
 */
export function reduceForDrawing(
  time_s: Float64Array,
  values: Float64Array,
  range: DrawingRange,
): ReducedLine {
  const times: number[] = [];
  const kept: number[] = [];
  const emit = (row: number): void => {
    times.push(time_s[row] ?? NaN);
    kept.push(values[row] ?? NaN);
  };
  const breakLine = (row: number): void => {
    if (kept.length > 0 && !Number.isNaN(kept.at(-1) ?? NaN)) {
      times.push(time_s[row] ?? NaN);
      kept.push(NaN);
    }
  };
  const borders = new Set(stretchBorders(time_s, range.gaps ?? []));
  let column = -1;
  let first = -1;
  let lowest = -1;
  let highest = -1;
  let last = -1;
  const flush = (): void => {
    if (first < 0) return;
    const rows = [first, Math.min(lowest, highest), Math.max(lowest, highest), last];
    rows.forEach((row, place) => {
      if (place === 0 || row !== rows[place - 1]) emit(row);
    });
    first = -1;
  };
  const end = Math.min(range.to, time_s.length);
  for (let row = Math.max(0, range.from); row < end; row++) {
    const value = values[row] ?? NaN;
    const here = columnAt(time_s[row] ?? NaN, range);
    const parted = borders.has(row);
    if (here !== column || Number.isNaN(value) || parted) {
      flush();
      column = here;
    }
    if (parted) breakLine(row);
    if (Number.isNaN(value)) {
      breakLine(row);
      continue;
    }
    if (first < 0) first = lowest = highest = row;
    if (value < (values[lowest] ?? NaN)) lowest = row;
    if (value > (values[highest] ?? NaN)) highest = row;
    last = row;
  }
  flush();
  return { time_s: Float64Array.from(times), values: Float64Array.from(kept) };
}

/** Lowest and highest reading of each device column; NaN in both where a column holds none. */
export interface Envelope {
  lowest: Float64Array;
  highest: Float64Array;
}

/**
 * Lowest and highest reading of each device column: the band of the raw readings behind a smoothed line.
 * @param time_s never falls
 * @param values same length, NaN for no reading
 */
export function envelopeForDrawing(
  time_s: Float64Array,
  values: Float64Array,
  range: DrawingRange,
): Envelope {
  const lowest = new Float64Array(range.columns).fill(NaN);
  const highest = new Float64Array(range.columns).fill(NaN);
  const end = Math.min(range.to, time_s.length);
  for (let row = Math.max(0, range.from); row < end; row++) {
    const value = values[row] ?? NaN;
    if (Number.isNaN(value)) continue;
    const column = columnAt(time_s[row] ?? NaN, range);
    if (!(value >= (lowest[column] ?? NaN))) lowest[column] = value;
    if (!(value <= (highest[column] ?? NaN))) highest[column] = value;
  }
  return { lowest, highest };
}
