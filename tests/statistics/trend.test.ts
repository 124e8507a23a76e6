import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mannKendall } from '#statistics/mann-kendall.ts';
import { theilSen } from '#statistics/theil-sen.ts';
import { normally } from './generator.ts';

const points = fc.array(fc.tuple(fc.integer({ min: 0, max: 40 }), fc.integer({ min: -20, max: 20 })), {
  minLength: 3,
  maxLength: 25,
});

describe('Theil–Sen against the plain way', () => {
  it('slope: the middle of all pair slopes', () => {
    fc.assert(
      fc.property(points, (list) => {
        const x = list.map(([a]) => a);
        const y = list.map(([, b]) => b);
        const slopes: number[] = [];
        for (let i = 0; i < x.length; i++)
          for (let j = i + 1; j < x.length; j++)
            if (x[i] !== x[j]) slopes.push(((y[j] ?? 0) - (y[i] ?? 0)) / ((x[j] ?? 0) - (x[i] ?? 0)));
        const result = theilSen(x, y);
        if (slopes.length === 0) {
          expect(result).toBeNull();
          return;
        }
        slopes.sort((a, b) => a - b);
        const half = slopes.length / 2;
        const middle =
          slopes.length % 2 === 1
            ? (slopes[Math.floor(half)] ?? NaN)
            : ((slopes[half - 1] ?? NaN) + (slopes[half] ?? NaN)) / 2;
        expect(result?.slope).toBeCloseTo(middle, 12);
        expect(result?.pairs).toBe(slopes.length);
        if (result?.low != null && result.high != null) {
          expect(result.low).toBeLessThanOrEqual(result.slope + 1e-12);
          expect(result.high).toBeGreaterThanOrEqual(result.slope - 1e-12);
        }
      }),
    );
  });
  it('one wild point in ten does not move a line', () => {
    const x = Array.from({ length: 20 }, (_, i) => i);
    const y = x.map((value) => 3 + 2 * value);
    y[7] = 900;
    y[15] = -900;
    expect(theilSen(x, y)).toMatchObject({ slope: 2, intercept: 3 });
  });
  it('missing readings are left out; widening widens, until the pairs do not reach', () => {
    const noise = normally(5);
    const x = Array.from({ length: 40 }, (_, i) => i);
    const y = x.map((value) => 0.1 * value + noise());
    const plain = theilSen(x, y);
    const wide = theilSen(x, y, { widen: 2 });
    expect((wide?.high ?? 0) - (wide?.low ?? 0)).toBeGreaterThan((plain?.high ?? 0) - (plain?.low ?? 0));
    expect(theilSen(x, y, { widen: 20 })).toMatchObject({ slope: plain?.slope, low: null, high: null });
    expect(theilSen([...x, 40], [...y, NaN])).toEqual(plain);
    expect(theilSen([1, 2], [1, 2])).toBeNull();
  });
});

describe('Mann–Kendall against the plain way', () => {
  it('s, ties in the variance, sign of z', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 6 }), { minLength: 3, maxLength: 30 }), (y) => {
        let s = 0;
        for (let i = 0; i < y.length; i++)
          for (let j = i + 1; j < y.length; j++) s += Math.sign((y[j] ?? 0) - (y[i] ?? 0));
        const groups = new Map<number, number>();
        for (const value of y) groups.set(value, (groups.get(value) ?? 0) + 1);
        const n = y.length;
        let variance = n * (n - 1) * (2 * n + 5);
        for (const t of groups.values()) variance -= t * (t - 1) * (2 * t + 5);
        const result = mannKendall(y);
        expect(result?.s).toBe(s);
        expect(result?.variance).toBeCloseTo(variance / 18, 9);
        expect(Math.abs(result?.z ?? NaN)).toBeLessThanOrEqual(
          Math.abs(s) / Math.sqrt(Math.max(variance / 18, 1e-300)),
        );
        expect((result?.z ?? NaN) * s).toBeGreaterThanOrEqual(0);
      }),
    );
  });
  it('1 to 10: s 45, variance 125, z 3.9355', () => {
    const result = mannKendall([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
    expect(result).toMatchObject({ s: 45, variance: 125, tau: 1 });
    expect(result?.z).toBeCloseTo(44 / Math.sqrt(125), 12);
    expect(mannKendall([1, 2, 3, 4, 5, 6, 7, 8, 9, 10], { widen: 2 })?.z).toBeCloseTo(
      22 / Math.sqrt(125),
      12,
    );
  });
  it('all alike: no trend; two readings: no answer', () => {
    expect(mannKendall([4, 4, 4, 4])).toMatchObject({ s: 0, z: 0, probability: 1 });
    expect(mannKendall([1, 2])).toBeNull();
  });
});
