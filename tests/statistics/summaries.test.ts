import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BLOCK_ROWS, inBlocks } from '#statistics/in-blocks.ts';
import { lagOneCorrelation, serialWidening } from '#statistics/lag-one-correlation.ts';
import { mean, sampleStandardDeviation } from '#statistics/mean.ts';
import { median, medianDistance } from '#statistics/median.ts';
import { atRank, quantile } from '#statistics/quantile.ts';

const reading = fc.oneof(fc.constant(NaN), fc.integer({ min: -50, max: 50 }));

describe('median', () => {
  it('is the middle of what is there', () => {
    fc.assert(
      fc.property(fc.array(reading, { maxLength: 30 }), (values) => {
        const kept = values.filter((value) => !Number.isNaN(value)).toSorted((a, b) => a - b);
        const half = kept.length / 2;
        const expected =
          kept.length === 0
            ? NaN
            : kept.length % 2 === 1
              ? kept[Math.floor(half)]
              : ((kept[half - 1] ?? NaN) + (kept[half] ?? NaN)) / 2;
        expect(median(values)).toBe(expected);
        expect(median(Float64Array.from(values))).toBe(expected);
      }),
    );
  });
  it.each([
    ['noise', (i: number) => 400 + ((i * 7919) % 1000) / 10],
    ['noise with holes', (i: number) => (i % 7 === 0 ? NaN : ((i * 7919) % 1001) - 500)],
    ['few values', (i: number) => i % 3],
    ['two values, half and half', (i: number) => (i % 2) * 410],
    ['a far outlier', (i: number) => (i === 77 ? 1e300 : ((i * 7919) % 1000) / 10)],
    ['nothing finite but one', (i: number) => (i === 5 ? 3 : i % 2 === 0 ? NaN : Infinity)],
    ['a slope', (i: number) => i / 3],
  ])('of very many: %s', (_, of) => {
    for (const length of [20_000, 20_001]) {
      const values = Float64Array.from({ length }, (__, i) => of(i));
      const sorted = values.filter(Number.isFinite).sort();
      const half = sorted.length >> 1;
      const high = sorted[half] ?? NaN;
      expect(median(values)).toBe(sorted.length % 2 === 1 ? high : ((sorted[half - 1] ?? NaN) + high) / 2);
    }
  });
  it.each([5, 1500, 20_001])('of distances is that of the list of them: %i readings', (length) => {
    const values = Float64Array.from({ length }, (_, i) => (i % 9 === 4 ? NaN : ((i * 7919) % 1000) / 10));
    const others = Float64Array.from({ length }, (_, i) => (i % 11 === 4 ? NaN : ((i * 104729) % 997) / 10));
    const list = values.map((value, i) => Math.abs(value - (others[i] ?? NaN)));
    expect(medianDistance(values, others)).toBe(median(list));
    expect(medianDistance(values, others)).toBeGreaterThan(0);
  });
  it('leaves its argument as it was', () => {
    const values = Float64Array.of(3, 1, 2);
    median(values);
    quantile(values, 0.5);
    expect(Array.from(values)).toEqual([3, 1, 2]);
  });
});

describe('quantile', () => {
  it('is definition 7 of Hyndman and Fan', () => {
    const values = [3, 6, 7, 8, 8, 10, 13, 15, 16, 20];
    expect([0.1, 0.25, 0.5, 0.75, 0.9].map((p) => Number(quantile(values, p).toFixed(12)))).toEqual([
      5.7, 7.25, 9, 14.5, 16.4,
    ]);
    expect([quantile(values, 0), quantile(values, 1), quantile([], 0.5)]).toEqual([3, 20, NaN]);
    expect(quantile([NaN, 4, NaN, 2], 0.5)).toBe(3);
  });
  it('a rank outside has no value', () => {
    const sorted = Float64Array.of(10, 20);
    expect([
      atRank(sorted, 1),
      atRank(sorted, 1.25),
      atRank(sorted, 2),
      atRank(sorted, 0.9),
      atRank(sorted, 2.1),
    ]).toEqual([10, 12.5, 20, NaN, NaN]);
  });
});

describe('mean and standard deviation', () => {
  it('skip what is missing', () => {
    expect(mean([1, 2, NaN, 6])).toBe(3);
    expect(mean([1, 2, 100, NaN, 6], Uint8Array.of(0, 0, 5, 1, 0))).toBe(3);
    expect(sampleStandardDeviation([1, NaN, 2, 3])).toBe(1);
    expect([mean([]), mean([NaN]), sampleStandardDeviation([4])]).toEqual([NaN, NaN, NaN]);
  });
});

describe('lag-one correlation', () => {
  it('by hand', () => {
    expect(lagOneCorrelation([1, 2, 3])).toBe(0);
    expect(lagOneCorrelation([1, -1, 1, -1])).toBe(-0.75);
    expect([lagOneCorrelation([5, 5, 5]), lagOneCorrelation([1])]).toEqual([NaN, NaN]);
  });
  it('a missing reading takes its two pairs with it', () => {
    expect(lagOneCorrelation([1, -1, NaN, 1, -1])).toBe(-0.5);
  });
  it('widens a standard error, never narrows it', () => {
    expect([serialWidening(0.6), serialWidening(-0.5), serialWidening(NaN), serialWidening(0)]).toEqual([
      2, 1, 1, 1,
    ]);
    expect(serialWidening(0.99)).toBeCloseTo(Math.sqrt(1.95 / 0.05), 12);
  });
});
describe('going over rows in blocks', () => {
  it('comes by each row once, in order', () => {
    for (const [from, to] of [
      [0, 0],
      [3, 3],
      [5, 6],
      [0, 64],
      [7, 5000],
    ] as const) {
      const rows: number[] = [];
      inBlocks(from, to, (first, end) => {
        expect(end - first).toBeLessThanOrEqual(BLOCK_ROWS);
        for (let row = first; row < end; row++) rows.push(row);
      });
      expect(rows).toEqual(Array.from({ length: to - from }, (_, i) => from + i));
    }
  });
});
