import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gridMedian } from '#analysis/grid-median.ts';
import { median } from '#statistics/median.ts';

const ROWS = 60_000;

describe('median of rows on a grid', () => {
  it('is the number that a search of the readings finds, by counts of the whole column too', () => {
    fc.assert(
      fc.property(
        fc.record({
          seed: fc.integer({ min: 1, max: 1e6 }),
          steps: fc.integer({ min: 1, max: 500 }),
          digits: fc.constantFrom(1, 10, 1000),
          holes: fc.integer({ min: 1, max: 50 }),
          from: fc.nat(ROWS),
          to: fc.nat(ROWS),
        }),
        ({ seed, steps, digits, holes, from, to }) => {
          const values = Float64Array.from({ length: ROWS }, (_, row) =>
            row % holes === 1 ? NaN : (((row * seed) % 7919) % steps) / digits - 3,
          );
          const rows = { from: Math.min(from, to), to: Math.max(from, to) };
          const expected = median(values.subarray(rows.from, rows.to));
          expect(gridMedian(values, rows, true)).toBe(expected);
          expect(gridMedian(values.slice(), rows, false)).toBe(expected);
        },
      ),
      { numRuns: 60 },
    );
  });
  it('is found of readings on no grid, of a few, and of none', () => {
    const values = Float64Array.from({ length: ROWS }, (_, row) => Math.sqrt(row));
    expect(gridMedian(values, { from: 0, to: ROWS }, true)).toBe(median(values));
    expect(gridMedian(values, { from: 9, to: 12 }, true)).toBe(Math.sqrt(10));
    expect(gridMedian(new Float64Array(ROWS).fill(NaN), { from: 0, to: ROWS }, true)).toBe(NaN);
  });
});
