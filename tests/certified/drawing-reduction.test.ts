// First, lowest, highest, last of each column (M4: Jugel et al., PVLDB 7, 2014, abstract read): a stored vector, and an excursion
// that another well-known reduction (largest triangle, three buckets) was seen to drop.
import { describe, expect, it } from 'vitest';
import { envelopeForDrawing, reduceForDrawing } from '#signal/reduce-for-drawing.ts';

const rows = (n: number): Float64Array => Float64Array.from({ length: n }, (_, i) => i);

describe('a vector of 100 readings in ten columns', () => {
  const values = Float64Array.of(
    29.7,
    30.298,
    30.882,
    31.438,
    31.955,
    32.421,
    32.824,
    32.508,
    32.766,
    32.942,
    33.036,
    33.047,
    32.978,
    32.183,
    31.969,
    31.695,
    31.372,
    31.01,
    30.623,
    30.225,
    29.178,
    28.798,
    28.446,
    28.136,
    27.88,
    27.686,
    26.913,
    26.867,
    26.903,
    27.022,
    27.223,
    27.504,
    27.86,
    27.633,
    28.115,
    28.646,
    29.212,
    35.801,
    30.4,
    30.345,
    30.922,
    31.468,
    31.971,
    32.419,
    32.802,
    33.114,
    32.698,
    32.849,
    32.918,
    32.905,
    32.812,
    32.645,
    31.763,
    31.473,
    31.136,
    30.766,
    30.374,
    29.975,
    29.581,
    28.558,
    28.218,
    27.923,
    27.684,
    27.511,
    27.411,
    26.739,
    26.8,
    26.944,
    27.17,
    27.474,
    27.851,
    23.293,
    28.14,
    28.683,
    29.257,
    29.851,
    30.45,
    31.041,
    30.961,
    31.495,
    31.982,
    32.411,
    32.774,
    33.063,
    33.272,
    32.749,
    32.792,
    32.755,
    32.639,
    32.452,
    32.201,
    31.246,
    30.898,
    30.519,
    30.124,
    29.725,
    29.336,
    28.972,
    27.994,
    27.715,
  );
  const range = { from: 0, to: 100, start_s: 0, end_s: 100, columns: 10 };
  it('keeps the rows that were computed apart', () => {
    expect(Array.from(reduceForDrawing(rows(100), values, range).time_s)).toEqual([
      0, 9, 10, 11, 19, 20, 27, 29, 30, 37, 39, 40, 45, 49, 50, 59, 60, 65, 69, 70, 71, 79, 80, 84, 89, 90,
      99,
    ]);
  });
  it('the envelope holds both spikes', () => {
    const { lowest, highest } = envelopeForDrawing(rows(100), values, range);
    expect(highest[3]).toBe(35.801);
    expect(lowest[7]).toBe(23.293);
  });
});

it('flat 30 with 36 and, right after it, 25: both excursions stay', () => {
  const values = new Float64Array(100).fill(30);
  values[33] = 36;
  values[34] = 25;
  const kept = reduceForDrawing(rows(100), values, { from: 0, to: 100, start_s: 0, end_s: 100, columns: 5 });
  expect(Math.max(...kept.values)).toBe(36);
  expect(Math.min(...kept.values)).toBe(25);
});
