import { weightedSums, type WeightedRows } from '#signal/weighted-sums.ts';

import { GAP_INTERVALS, weightIn_s, type Rows, type Timeline } from './timeline.ts';

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

/** Rows that are gone over in one call: a function that is called often is compiled as a whole. */
const SOME_ROWS = 512;

/** Mean by weight, lowest and highest of the values of some rows; null without one. */
export function weightedMean(
  timeline: Timeline,
  values: Float64Array,
  pieces: readonly Rows[],
): Found | null {
  const reference = firstReading(values, pieces);
  if (Number.isNaN(reference)) return null;
  const found = kernelWeights(timeline, (weights) =>
    weightedSums({ ...weights, values, rows: pieces }, reference),
  );
  if (found !== null) return foundOf({ ...found, reference });
  const all = nothingWeighted(reference);
  for (const { from, to } of pieces)
    for (let row = from; row < to; row += SOME_ROWS)
      addWeighted(timeline, values, 0, all, row, Math.min(to, row + SOME_ROWS));
  return foundOf(all);
}

/** Asks kernels of sums by weight, of a log whose rows do not share times; null where the script has to do it. */
export function kernelWeights<T>(
  { time_s, medianInterval_s, shared_s }: Timeline,
  ask: (weights: Pick<WeightedRows, 'time_s' | 'usual_s' | 'gap_s'>) => T | null,
): T | null {
  if (shared_s !== null) return null;
  return ask({ time_s, usual_s: medianInterval_s, gap_s: GAP_INTERVALS * medianInterval_s });
}

/** {@link weightedMean} of values that come some rows at a time, in order. */
export class WeightedMean {
  private readonly timeline: Timeline;
  private readonly all = nothingWeighted(NaN);

  constructor(timeline: Timeline) {
    this.timeline = timeline;
  }
  /** @param values of rows `from` to before `to`, from place 0 on; NaN for none */
  add(from: number, to: number, values: Float64Array): void {
    const { all } = this;
    if (Number.isNaN(all.reference)) all.reference = firstReading(values, [{ from: 0, to: to - from }]);
    addWeighted(this.timeline, values, from, all, from, to);
  }
  found(): Found | null {
    return Number.isNaN(this.all.reference) ? null : foundOf(this.all);
  }
}

/** Mean by weight, lowest and highest of some values, in their unit, and the time that they stand for. */
export interface Found {
  mean: number;
  min: number;
  max: number;
  recorded_s: number;
}

const nothingWeighted = (reference: number): Weighted => ({
  reference,
  weight: 0,
  sum: 0,
  min: Infinity,
  max: -Infinity,
});

/** The mean that sums of differences from one value tell: that value itself where none has a weight. */
export const foundOf = ({ reference, weight, sum, min, max }: Weighted): Found => ({
  mean: weight > 0 ? reference + sum / weight : reference,
  min,
  max,
  recorded_s: weight,
});

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
  reference: number;
  weight: number;
  sum: number;
  min: number;
  max: number;
}

/** Some rows more; sums of differences from one reading. @param first the row at place 0 of the values */
function addWeighted(
  timeline: Timeline,
  values: Float64Array,
  first: number,
  all: Weighted,
  from: number,
  to: number,
): void {
  const { time_s, medianInterval_s, shared_s } = timeline;
  const { reference } = all;
  let { weight, sum, min, max } = all;
  for (let i = from; i < to; i++) {
    const value = values[i - first] ?? NaN;
    if (value !== value) continue;
    const w = weightIn_s(time_s, medianInterval_s, shared_s, i);
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
