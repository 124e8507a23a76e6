import { inPieces, withColumnKernels, type ColumnKernels } from '#kernels/column-kernels.ts';
import type { RowRange } from './hampel.ts';
import { firstRowAt } from './window.ts';

/** Pieces of a column, each cut into windows of equal time from its first row on. */
export interface SpanSearch {
  /** Never falls. */
  readonly time_s: Float64Array;
  /** NaN for no reading. */
  readonly values: Float64Array;
  readonly pieces: readonly RowRange[];
  readonly window_s: number;
  /** Windows with fewer readings are left out; more than 0. */
  readonly fewest: number;
}

/**
 * Highest less lowest reading of each window, in order.
 * @example windowSpans({ time_s, values, pieces: [{ from: 0, to: 300 }], window_s: 1, fewest: 50 })
 */
export function windowSpans(search: SpanSearch): Float64Array {
  const rows = search.pieces.reduce((sum, { from, to }) => sum + to - from, 0);
  return withColumnKernels(rows, (kernels) => spansByKernel(kernels, search)) ?? spansByScript(search);
}

/** By kernels, and by the script: the same to the bit. */
export function spansByKernel(
  kernels: ColumnKernels,
  { time_s, values, pieces, window_s, fewest }: SpanSearch,
): Float64Array {
  const spans: number[] = [];
  kernels.beginSpans(window_s, fewest);
  for (const piece of pieces) {
    if (!(piece.from < piece.to)) continue;
    kernels.startSpans(time_s[piece.from] ?? NaN);
    inPieces(piece.from, piece.to, (from, to) => {
      kernels.times.set(time_s.subarray(from, to));
      kernels.values.set(values.subarray(from, to));
      const found = kernels.takeSpans(to - from);
      for (let k = 0; k < found; k++) spans.push(kernels.results[k] ?? NaN);
    });
    const last = kernels.lastSpan();
    if (last >= 0) spans.push(last);
  }
  return Float64Array.from(spans);
}

/** See {@link spansByKernel}. */
export function spansByScript({ time_s, values, pieces, window_s, fewest }: SpanSearch): Float64Array {
  const spans: number[] = [];
  for (const { from, to } of pieces) {
    const start_s = time_s[from] ?? NaN;
    let first = from;
    for (let window = 1; first < to; window++) {
      const end = Math.min(to, firstRowAt(time_s, start_s + window * window_s));
      const span = spanOf(values, first, end, fewest);
      if (span >= 0) spans.push(span);
      first = end;
    }
  }
  return Float64Array.from(spans);
}

/** Highest less lowest of some rows; −1 with fewer readings than needed. */
function spanOf(values: Float64Array, from: number, to: number, needed: number): number {
  let low = Infinity,
    high = -Infinity,
    readings = 0;
  for (let i = from; i < to; i++) {
    const value = values[i] ?? NaN;
    if (value !== value) continue;
    readings++;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return readings >= needed ? high - low : -1;
}
