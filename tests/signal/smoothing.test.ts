import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { leastSquares } from '#statistics/least-squares.ts';
import { runningMedian } from '#signal/running-median.ts';
import { alongSmoothed, smooth } from '#signal/smooth.ts';
import { madeColumn, plainMedian, present, rowsWithin, tenths } from './made-log.ts';

const width = fc.constantFrom(1, 2, 3, 5, 7.5, 30);
const seconds = (n: number): Float64Array => Float64Array.from({ length: n }, (_, i) => i);

describe('running median', () => {
  it.each([
    ['on a decimal grid', tenths],
    ['on a grid of another unit', tenths.map((psi) => psi * 0.0689475729316836)],
    ['on no grid', fc.double({ min: 1e-9, max: 10, noNaN: true })],
  ])('%s: to the last bit the plain way', (_, reading) => {
    fc.assert(
      fc.property(madeColumn(reading), width, fc.constantFrom(1, 3, 21), (column, width_s, samples) => {
        const result = runningMedian(column.time_s, column.values, column.gaps, { width_s, samples });
        column.values.forEach((_value, row) => {
          expect(result[row]).toBe(plainMedian(present(column, rowsWithin(column, row, width_s, samples))));
        });
      }),
    );
  });
  it('the example of its description', () => {
    const result = runningMedian(Float64Array.of(0, 1, 2), Float64Array.of(1, 9, 2), [], {
      width_s: 2,
      samples: 3,
    });
    expect(Array.from(result)).toEqual([5, 2, 5.5]);
  });
});

describe('smooth', () => {
  it.each(['median', 'mean', 'savitzky-golay', 'none'] as const)(
    '%s: some rows at a time are the same',
    (method) => {
      fc.assert(
        fc.property(madeColumn(tenths), width, (column, window_s) => {
          const pieces: number[] = [];
          alongSmoothed(
            column.time_s,
            column.values,
            { method, window_s },
            column.gaps,
            (from, to, smoothed) => {
              expect(pieces.length).toBe(from);
              pieces.push(...smoothed.subarray(0, to - from));
            },
          );
          expect(Float64Array.from(pieces)).toEqual(
            smooth(column.time_s, column.values, { method, window_s }, column.gaps),
          );
        }),
      );
    },
  );
  it('mean: the plain mean of the window', () => {
    fc.assert(
      fc.property(madeColumn(tenths), width, (column, window_s) => {
        const result = smooth(column.time_s, column.values, { method: 'mean', window_s }, column.gaps);
        column.values.forEach((_value, row) => {
          const list = present(column, rowsWithin(column, row, window_s, 3));
          if (list.length === 0) expect(result[row]).toBeNaN();
          else expect(result[row]).toBeCloseTo(list.reduce((a, b) => a + b, 0) / list.length, 9);
        });
      }),
    );
  });
  it('Savitzky–Golay: the parabola of least squares through the window, read off at the row', () => {
    fc.assert(
      fc.property(madeColumn(tenths), width, (column, window_s) => {
        const result = smooth(
          column.time_s,
          column.values,
          { method: 'savitzky-golay', window_s },
          column.gaps,
        );
        column.values.forEach((_value, row) => {
          const rows = rowsWithin(column, row, window_s, 3).filter(
            (i) => !Number.isNaN(column.values[i] ?? NaN),
          );
          const list = present(column, rows);
          if (list.length === 0) expect(result[row]).toBeNaN();
          else if (list.length < 5)
            expect(result[row]).toBeCloseTo(list.reduce((a, b) => a + b, 0) / list.length, 9);
          else {
            const u = rows.map((i) => (column.time_s[i] ?? NaN) - (column.time_s[row] ?? NaN));
            const design = [u.map(() => 1), u, u.map((value) => value * value)];
            // With exactly as many rows as it takes there would be nothing left over; here there are five at least.
            expect(result[row]).toBeCloseTo(leastSquares(design, list)?.coefficients[0] ?? NaN, 9);
          }
        });
      }),
    );
  });
  it('Savitzky–Golay over a long column stays exact on a parabola, ends and holes included', () => {
    const n = 20_000;
    const values = Float64Array.from({ length: n }, (_, i) => 400 + 1e-3 * i - 4e-8 * i * i);
    for (let i = 500; i < 560; i++) values[i] = NaN;
    const result = smooth(seconds(n), values, { method: 'savitzky-golay', window_s: 300 }, []);
    let worst = 0;
    result.forEach(
      (value, i) => (worst = Math.max(worst, Math.abs(value - (400 + 1e-3 * i - 4e-8 * i * i)))),
    );
    expect(worst).toBeLessThan(1e-8);
  });
  it('a constant comes out as itself, to the last bit', () => {
    const values = new Float64Array(500).fill(30.1);
    values[100] = NaN;
    for (const method of ['median', 'mean', 'savitzky-golay'] as const)
      expect(
        smooth(seconds(500), values, { method, window_s: 30 }, []).every((value) => value === 30.1),
      ).toBe(true);
  });
  it('none: a copy', () => {
    const values = Float64Array.of(1, NaN, 3);
    const result = smooth(seconds(3), values, { method: 'none', window_s: 30 }, []);
    expect(Array.from(result)).toEqual([1, NaN, 3]);
    expect(result).not.toBe(values);
  });
  it('a hole is bridged within the window, a gap is not reached across', () => {
    const time_s = Float64Array.of(0, 1, 2, 3, 4, 100, 101, 102);
    const values = Float64Array.of(10, 10, NaN, 10, 10, 90, NaN, NaN);
    const result = smooth(time_s, values, { method: 'median', window_s: 4 }, [{ start_s: 4, end_s: 100 }]);
    expect(Array.from(result)).toEqual([10, 10, 10, 10, 10, 90, 90, 90]);
    const alone = smooth(
      time_s,
      Float64Array.of(10, 10, 10, 10, 10, NaN, NaN, NaN),
      { method: 'mean', window_s: 400 },
      [{ start_s: 4, end_s: 100 }],
    );
    expect(Array.from(alone.slice(5))).toEqual([NaN, NaN, NaN]);
  });
});
