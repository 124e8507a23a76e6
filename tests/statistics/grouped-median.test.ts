import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { groupedMedian } from '#statistics/grouped-median.ts';
import { median } from '#statistics/median.ts';
import { normally } from './generator.ts';

describe('median of rounded readings', () => {
  it('by hand: the class from 3.5 to 4.5 holds three of four', () => {
    expect(groupedMedian([4, 4, 4, 5], 1)).toBeCloseTo(3.5 + 2 / 3, 12);
    expect(groupedMedian([3, 4, 4, 5], 1)).toBe(4);
    expect(groupedMedian([4, 4, 5, 5], 1)).toBe(4.5);
    expect(groupedMedian([4, 4, 9, 9], 1)).toBe(6.5);
    expect(groupedMedian([7, NaN, 7], 1)).toBe(7);
    expect(groupedMedian([NaN], 1)).toBeNaN();
  });
  it('lies within half a step of the plain median, and is it where there is no step', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -20, max: 20 }), { minLength: 1, maxLength: 30 }),
        fc.constantFrom(1, 0.1, 0.0689475729316836),
        (list, step) => {
          const values = list.map((k) => k * step);
          expect(Math.abs(groupedMedian(values, step) - median(values))).toBeLessThanOrEqual(0.5001 * step);
          expect(groupedMedian(values, 0)).toBe(median(values));
        },
      ),
    );
  });
  it('sees what rounding hides: noise of half a step about 410.3, rounded to whole numbers', () => {
    const noise = normally(4);
    const values = Array.from({ length: 2000 }, () => Math.round(410.3 + 0.5 * noise()));
    expect(median(values)).toBe(410);
    expect(Math.abs(groupedMedian(values, 1) - 410.3)).toBeLessThan(0.1);
  });
});
