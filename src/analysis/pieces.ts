import { inBlocks } from '#statistics/in-blocks.ts';
import { weight_s, type Rows, type Timeline } from './timeline.ts';

/**
 * Values of some rows only: the others become NaN. The array itself where the pieces are all of it.
 * @param pieces in order
 */
export function rowsOnly(values: Float64Array, pieces: readonly Rows[]): Float64Array {
  const [only] = pieces;
  if (pieces.length === 1 && only && only.from === 0 && only.to === values.length) return values;
  const result = new Float64Array(values.length).fill(NaN);
  for (const { from, to } of pieces) result.set(values.subarray(from, to), from);
  return result;
}

/**
 * The same for a reader that looks no further than from the first piece's first row to the last piece's last one: nothing is
 * copied where there is only one piece.
 */
export function betweenPieces(values: Float64Array, pieces: readonly Rows[]): Float64Array {
  return pieces.length === 1 ? values : rowsOnly(values, pieces);
}

/** Every kept value of some rows, in order. */
export function valuesOf(values: Float64Array, pieces: readonly Rows[]): Float64Array {
  const [only] = pieces;
  if (pieces.length === 1 && only) return values.subarray(only.from, only.to);
  const result = new Float64Array(pieces.reduce((sum, { from, to }) => sum + to - from, 0));
  let offset = 0;
  for (const { from, to } of pieces) {
    result.set(values.subarray(from, to), offset);
    offset += to - from;
  }
  return result;
}

/** Mean by weight, lowest and highest of the values of some rows; null without one. */
export function weightedMean(
  timeline: Timeline,
  values: Float64Array,
  pieces: readonly Rows[],
): { mean: number; min: number; max: number; recorded_s: number } | null {
  const reference = firstReading(values, pieces);
  if (Number.isNaN(reference)) return null;
  const all = { weight: 0, sum: 0, min: Infinity, max: -Infinity };
  for (const piece of pieces)
    inBlocks(piece.from, piece.to, (from, to) => addWeighted(timeline, values, reference, all, from, to));
  const { weight, sum, min, max } = all;
  return { mean: weight > 0 ? reference + sum / weight : reference, min, max, recorded_s: weight };
}

/** The first value of some rows; NaN without one. */
export function firstReading(values: Float64Array, pieces: readonly Rows[]): number {
  for (const { from, to } of pieces)
    for (let i = from; i < to; i++) {
      const value = values[i] ?? NaN;
      if (value === value) return value;
    }
  return NaN;
}

interface Weighted {
  weight: number;
  sum: number;
  min: number;
  max: number;
}

/** Some rows more; sums of differences from one reading. */
function addWeighted(
  timeline: Timeline,
  values: Float64Array,
  reference: number,
  all: Weighted,
  from: number,
  to: number,
): void {
  let { weight, sum, min, max } = all;
  for (let i = from; i < to; i++) {
    const value = values[i] ?? NaN;
    if (value !== value) continue;
    const w = weight_s(timeline, i);
    weight += w;
    sum += w * (value - reference);
    if (value < min) min = value;
    if (value > max) max = value;
  }
  all.weight = weight;
  all.sum = sum;
  all.min = min;
  all.max = max;
}
